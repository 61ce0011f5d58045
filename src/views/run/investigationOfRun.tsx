import { Link } from 'wouter';
import type { FindingCheck } from '../../journal/entries.ts';
import type { LoggedRun } from '../../journal/logbook.ts';
import { runLookedInto } from '../investigations.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { investigationHref } from '../routes.ts';
import { useFailures } from '../useFailures.ts';
import { shownJudgement } from '../verdictOfTheDay.ts';

const asWords: Record<FindingCheck, string> = {
  repeat: 'as a repeat',
  'volume-check': 'as its volume check',
  'other-route': 'by the other route',
  'other-analyzer': 'on another analyzer',
  'read-conditions': 'with the room read anew',
  'other-gas': 'after the gas was checked',
  'biological-control': 'with its biological control',
};

/** The way from a run to the investigation that it belongs to, or that it would begin. */
export function InvestigationOfRun({ run }: { run: LoggedRun }) {
  const { logbook, assessments } = useLogbook();
  const about = runLookedInto(logbook, useFailures(), run.id);
  if (about === undefined) return null;
  const { investigates } = run.body;
  const href = investigationHref(about.id);
  if (about !== run) {
    return (
      <p>
        Part of the{' '}
        <Link href={href}>investigation of {dayAndTime(about.body.madeAt, about.entry.zone)}</Link>
        {investigates ? `, made ${asWords[investigates.check]}` : ''}.
      </p>
    );
  }
  if (shownJudgement(run, assessments)?.word !== 'fail') return null;
  return (
    <p>
      <Link href={href}>Its investigation: checks and likely causes</Link>
    </p>
  );
}
