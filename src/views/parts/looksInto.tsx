import { Link } from 'wouter';
import type { Investigation } from '../../journal/entries.ts';
import { useLogbook } from '../logbookContext.tsx';
import { investigationHref } from '../routes.ts';
import { dayAndTime } from './figures.ts';
import { Notice } from './notice.tsx';

interface Props {
  investigates: Investigation | null;
  /** The address names a run that is not in this logbook. */
  lacksRun: boolean;
  /** What the form does, as in "It is noted by itself". */
  isWritten: 'noted' | 'written down';
}

/** Above the form of a check or a control that looks into a failure: whose failure that is. */
export function LooksInto({ investigates, lacksRun, isWritten }: Props) {
  const { logbook } = useLogbook();
  if (lacksRun) {
    return (
      <Notice title="The run that this was to look into is not in this logbook." tone="warn">
        <p>It is {isWritten} by itself.</p>
      </Notice>
    );
  }
  const run = logbook.runs.find(({ id }) => id === investigates?.runId);
  if (run === undefined) return null;
  const label = logbook.analyzers.get(run.body.analyzerId)?.description.label ?? 'an unknown analyzer';
  return (
    <Notice
      title={`Looks into the run of ${dayAndTime(run.body.madeAt, run.entry.zone)} on ${label}.`}
      tone="quiet"
    >
      <p>
        It is {isWritten} as part of <Link href={investigationHref(run.id)}>its investigation</Link>.
      </p>
    </Notice>
  );
}
