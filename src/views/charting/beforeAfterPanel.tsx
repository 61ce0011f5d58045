import { ChoiceField } from '../parts/field.tsx';
import { FigureList } from '../parts/figureList.tsx';
import type { BeforeAfter, Turning } from './beforeAfter.ts';
import { labelOf } from './signalPanel.tsx';

const none = 'none';

/** Choose what happened; what stands before and after it is marked on the chart, and stand here in words. */
export function BeforeAfterPanel({
  choices,
  found,
  noun,
  part,
  onChoose,
}: {
  choices: readonly Turning[];
  /** Null while nothing is chosen. */
  found: BeforeAfter | null;
  noun: string;
  part: string;
  onChoose: (id: string) => void;
}) {
  if (choices.length === 0) return null;
  return (
    <section aria-label={labelOf('Before and after', part)} className="stack">
      <ChoiceField
        choices={[
          { value: none, label: `none of ${choices.length} chosen` },
          ...choices.map(({ id, label }) => ({ value: id, label })),
        ]}
        label="Before and after"
        onChoice={(id) => onChoose(id === none ? '' : id)}
        value={found?.turning.id ?? none}
      />
      {found === null ? null : (
        <div aria-live="polite" className="stack">
          <FigureList
            rows={[
              { name: 'Before', value: found.before.words },
              { name: 'After', value: found.after.words },
            ]}
          />
          <p>{found.difference}</p>
          {found.alsoWithin === '' ? null : <p className="quiet">{found.alsoWithin}</p>}
          <p className="quiet small">
            Up to twenty {noun}s on either side that are not voided; Welch’s interval of the difference.
            Marked: a ring before, a square after, each with its mean.
          </p>
        </div>
      )}
    </section>
  );
}
