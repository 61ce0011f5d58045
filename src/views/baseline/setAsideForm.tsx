import type { LoggedRun } from '../../journal/logbook.ts';
import { dayAndTime } from '../parts/figures.ts';
import { ReasonForm } from '../parts/reasonForm.tsx';

/** Takes a run out of every mean and pattern, or back in: by a supervisor, with a reason. */
export function SetAsideForm({
  run,
  onSaved,
  onClose,
}: {
  run: LoggedRun;
  onSaved: (sentence: string) => void;
  onClose: () => void;
}) {
  const when = dayAndTime(run.body.madeAt, run.entry.zone);
  const isBack = run.setAside !== null;
  const title = isBack ? `Take the run of ${when} back in` : `Set the run of ${when} aside`;
  return (
    <div className="group">
      <ReasonForm
        action={isBack ? 'Take it back in' : 'Set it aside'}
        explanation={
          isBack
            ? 'It counts again in VA and DLCO, in every mean and pattern.'
            : 'It stays in the logbook as it was written, and counts in no mean and no pattern, neither in VA nor in DLCO. A run that was typed wrong is amended or voided instead.'
        }
        makeEntries={(by, reason) => [
          {
            id: crypto.randomUUID(),
            by,
            kind: 'run-set-aside',
            body: { runId: run.id, isSetAside: !isBack, reason },
          },
        ]}
        onCancel={onClose}
        onSaved={() =>
          onSaved(
            isBack ? `Saved: the run of ${when} counts again.` : `Saved: the run of ${when} is set aside.`,
          )
        }
        only="supervisor"
        title={title}
        warning={
          <p>
            The limits move, and with them what later runs come out as today: a failure may open or go. Their
            verdicts of the day stay as they were given.
          </p>
        }
      />
    </div>
  );
}
