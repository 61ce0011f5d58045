import { outOfService } from '../../journal/standing.ts';
import { useLogbook } from '../logbookContext.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { Questions } from '../runForm/questions.tsx';
import type { Bench } from '../runForm/useRunOnBench.ts';

/** The foot of the bench form: the button, or what is asked before it is obeyed. */
export function Recording({ bench }: { bench: Bench }) {
  const { reading, saving, asking, record, stopAsking } = bench;
  const { logbook } = useLogbook();
  if (asking.length > 0) {
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
  const isIncomplete = reading.missing.length > 0 || Object.keys(reading.errors).length > 0;
  return (
    <div className="group bench-form__foot">
      <SaveLine
        action="Record run"
        saving={saving}
        trouble={bench.tried && isIncomplete ? 'Nothing is written yet: see the marked fields.' : undefined}
      />
    </div>
  );
}
