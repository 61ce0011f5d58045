import { useLogbook } from '../logbookContext.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { BeforeRecording } from '../runForm/beforeRecording.tsx';
import type { Bench } from '../runForm/useRunOnBench.ts';

/** The foot of the bench form: the button, or what is asked before it is obeyed. */
export function Recording({ bench }: { bench: Bench }) {
  const { reading, saving, asking, tried } = bench;
  const { isReading } = useLogbook();
  if (asking.length > 0) return <BeforeRecording bench={bench} />;
  const isIncomplete = reading.missing.length > 0 || Object.keys(reading.errors).length > 0;
  return (
    <div className="group bench-form__foot">
      <SaveLine
        action="Record run"
        saving={saving}
        trouble={
          isReading
            ? 'A run can be recorded as soon as the earlier ones are read.'
            : tried && isIncomplete
              ? 'Nothing is written yet: see the marked fields.'
              : undefined
        }
      />
    </div>
  );
}
