import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime } from '../parts/figures.ts';
import type { FieldWithOrigin } from '../runForm/benchDraft.ts';
import { carriedIn } from '../runForm/origins.ts';
import type { Bench } from '../runForm/useRunOnBench.ts';
import { useScreenState } from '../screenState.ts';

const words: Partial<Record<FieldWithOrigin, string>> = {
  technologistId: 'person',
  syringeId: 'syringe',
  attached: 'what is left on it',
  temperature: 'temperature',
  pressure: 'pressure',
  humidity: 'humidity',
};

/** What of this form nobody typed for this run, in one line, and the failure that it looks into. */
export function CarriedLine({ bench }: { bench: Bench }) {
  const carried = carriedIn(bench.draft).flatMap((field) => words[field] ?? []);
  const { investigates } = bench.draft;
  const setBegun = useScreenState((state) => state.setBegun);
  /** The button goes with what it takes away, and the focus would go with it: on to what is to be typed now. */
  const thenOn = (act: () => void) => () => {
    act();
    setBegun(true);
  };
  if (carried.length === 0 && investigates === null) return null;
  return (
    <div className="stack bench-form__carried">
      {investigates === null ? null : (
        <LooksInto onDrop={thenOn(() => bench.change({ investigates: null }))} runId={investigates.runId} />
      )}
      {carried.length === 0 ? null : (
        <p className="line line--baseline">
          <span>
            <span className="quiet">Carried over:</span> {carried.join(', ')}
          </span>
          <button data-weight="line" onClick={thenOn(bench.clearCarried)} type="button">
            Clear what is carried
          </button>
        </p>
      )}
    </div>
  );
}

function LooksInto({ runId, onDrop }: { runId: string; onDrop: () => void }) {
  const { logbook } = useLogbook();
  const run = logbook.runs.find(({ id }) => id === runId);
  const label = run && logbook.analyzers.get(run.body.analyzerId)?.description.label;
  return (
    <p className="line line--baseline">
      <span>
        <span className="quiet">Looks into the failed run</span>{' '}
        {run ? `of ${label ?? 'an analyzer'}, ${dayAndTime(run.body.madeAt)}` : 'that it was begun for'}
      </span>
      <button data-weight="line" onClick={onDrop} type="button">
        It does not
      </button>
    </p>
  );
}
