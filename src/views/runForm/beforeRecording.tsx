import { outOfService } from '../../journal/standing.ts';
import { useLogbook } from '../logbookContext.tsx';
import { Questions } from './questions.tsx';
import type { Bench } from './useRunOnBench.ts';

/** What is asked before a run is written, on the bench and in the guided run alike. */
export function BeforeRecording({ bench: { reading, asking, record, stopAsking } }: { bench: Bench }) {
  const { logbook } = useLogbook();
  const { run } = reading;
  const isUnused =
    run !== null &&
    run.reason !== 'after-service' &&
    outOfService(logbook, run.analyzerId, run.madeAt) !== null;
  return (
    <Questions
      asking={asking}
      onBack={stopAsking}
      onYes={() => void record(true)}
      title="Before this is recorded"
      yes="Yes, record it"
    >
      {isUnused ? (
        <button onClick={() => void record(true, { reason: 'after-service' })} type="button">
          Record it as a run after service
        </button>
      ) : null}
    </Questions>
  );
}
