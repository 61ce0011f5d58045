/** What a table says of a run in the same way wherever it lists one. */
import type { ReactNode } from 'react';
import { Link } from 'wouter';
import type { RunAssessment } from '../../core/index.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { formerValues, initialsIn } from '../amendments.ts';
import { runHref } from '../routes.ts';
import { shownJudgement, struckJudgement } from '../verdictOfTheDay.ts';
import { dayAndTime } from './figures.ts';
import { AmendedVerdict, Corrected, Struck } from './struck.tsx';

/** When a run was made, in the zone it was recorded in: the way to its own page and its history. */
export function RunLink({ run, technologists }: { run: LoggedRun; technologists: Logbook['technologists'] }) {
  const { zone } = run.entry;
  const former = formerValues(run, technologists, ({ content }) => dayAndTime(content.madeAt, zone));
  return (
    <Corrected former={former}>
      <StruckRun run={run}>
        <Link href={runHref(run.id)}>{dayAndTime(run.body.madeAt, zone)}</Link>
      </StruckRun>
    </Corrected>
  );
}

/** As a run stands: struck through where it was voided, and by a broken line where it was set aside. */
export function StruckRun({ run, children }: { run: LoggedRun; children: ReactNode }) {
  if (run.voided !== null) return <Struck>{children}</Struck>;
  return run.setAside === null ? children : <span className="set-aside">{children}</span>;
}

/** The verdict of its day, struck through beside the amended one where an amendment changed it. */
export function RunVerdict({
  run,
  assessments,
}: {
  run: LoggedRun;
  assessments: ReadonlyMap<string, RunAssessment>;
}) {
  if (run.voided !== null) return 'Voided';
  const judged = shownJudgement(run, assessments);
  const verdict = judged ? <AmendedVerdict now={judged} ofTheDay={struckJudgement(run)} /> : '–';
  if (run.setAside === null) return verdict;
  return (
    <>
      {verdict} <span className="quiet small">set aside</span>
    </>
  );
}

/** The initials of whoever made it. */
export function TechnologistOf({
  run,
  technologists,
}: {
  run: LoggedRun;
  technologists: Logbook['technologists'];
}) {
  const former = formerValues(run, technologists, ({ content }) =>
    initialsIn(technologists, content.technologistId),
  );
  return <Corrected former={former}>{initialsIn(technologists, run.body.technologistId)}</Corrected>;
}
