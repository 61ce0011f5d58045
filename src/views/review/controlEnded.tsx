import type { ControlFailure } from '../controlAssessments.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { SignatureOf } from '../parts/signatureOf.tsx';

/** How a failure of controls ended, and who answers for it. */
export function ControlEnded({ ended }: { ended: NonNullable<ControlFailure['ended']> }) {
  const { logbook } = useLogbook();
  if (ended.by === 'new-baseline') {
    return (
      <>
        <h2>Put aside by a new baseline</h2>
        <p>Nobody closed it in writing. The new baseline of {dayAndTime(ended.from)} starts without it.</p>
      </>
    );
  }
  const { closure } = ended;
  const { cause, correctiveAction, lookBack, closedAt } = closure.body;
  const closer = logbook.technologists.get(closure.by);
  return (
    <>
      <h2>Closed</h2>
      <FigureList
        rows={[
          { name: 'When', value: dayAndTime(closedAt, closure.zone) },
          { name: 'By', value: closer ? `${closer.initials}, ${closer.name}` : 'unknown' },
          { name: 'Cause', value: cause },
          { name: 'What was done', value: correctiveAction || '–' },
          { name: 'Patients tested meanwhile', value: lookBack || '–' },
          { name: 'Signature', value: <SignatureOf entry={closure} /> },
        ]}
      />
    </>
  );
}
