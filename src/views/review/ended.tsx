import { Link } from 'wouter';
import type { Failure } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { RunLink } from '../parts/runInTable.tsx';
import { SignatureOf } from '../parts/signatureOf.tsx';

/** How a failure ended, and who answers for it. */
export function Ended({ failure: { ended, analyzerId } }: { failure: Failure }) {
  const { logbook } = useLogbook();
  if (ended === null) return null;
  if (ended.by === 'new-baseline') {
    return (
      <>
        <h2>Put aside by a new baseline</h2>
        <p>Nobody closed it in writing. The new baseline starts without it.</p>
      </>
    );
  }
  const { closure } = ended;
  const { cause, proofRunIds, correctiveAction, reason, closedAt } = closure.body;
  const closer = logbook.technologists.get(closure.by);
  const proof = logbook.runs.filter(({ id }) => proofRunIds?.includes(id));
  return (
    <>
      <h2>Closed</h2>
      <FigureList
        rows={[
          { name: 'When', value: dayAndTime(closedAt, closure.zone) },
          { name: 'By', value: closer ? `${closer.initials}, ${closer.name}` : 'unknown' },
          ...(cause === undefined ? [] : [{ name: 'Cause', value: cause || '–' }]),
          { name: 'What was done', value: correctiveAction || '–' },
          { name: 'Why it may be closed', value: reason },
          ...(proof.length === 0
            ? []
            : [
                {
                  name: 'Proven by',
                  value: proof.map((run) => (
                    <span className="proof-run" key={run.id}>
                      <RunLink run={run} technologists={logbook.technologists} />
                    </span>
                  )),
                },
              ]),
          { name: 'Signature', value: <SignatureOf entry={closure} /> },
        ]}
      />
      <p className="quiet small">
        Did what was done move the mean? Then a new baseline is started{' '}
        <Link href={`/equipment/analyzer/${analyzerId}`}>under Equipment</Link>: the runs before it stay out
        of it.
      </p>
    </>
  );
}
