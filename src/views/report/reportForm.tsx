import { useId } from 'react';
import type { Logbook } from '../../journal/logbook.ts';
import { ChoiceField, choicesOf, InputField, TickField } from '../parts/field.tsx';
import { type ChoiceErrors, type Paper, type Part, partWords, type ReportChoice } from './reportChoice.ts';

const paperWords: Record<Paper, string> = { a4: 'A4', letter: 'Letter' };

/** What the report is about. Every change stands in the address at once. */
export function ReportForm({
  choice,
  errors,
  analyzers,
  offered,
  onChange,
}: {
  choice: ReportChoice;
  errors: ChoiceErrors;
  analyzers: Logbook['analyzers'];
  /** Those that it is about where none are chosen. */
  offered: readonly string[];
  onChange: (changed: Partial<ReportChoice>) => void;
}) {
  const errorId = useId();
  const chosen = choice.analyzerIds ?? offered;
  const all = [...analyzers.values()];
  return (
    <div className="stack">
      <div className="pairs">
        <InputField
          error={errors.from}
          label="From"
          onText={(from) => onChange({ from })}
          type="date"
          value={choice.from}
        />
        <InputField
          error={errors.to}
          label="Up to and including"
          onText={(to) => onChange({ to })}
          type="date"
          value={choice.to}
        />
      </div>
      <fieldset
        aria-describedby={errors.analyzers === undefined ? undefined : errorId}
        className="stack group"
      >
        <legend>Analyzers</legend>
        {all.map(({ id, description, retired }) => (
          <TickField
            checked={chosen.includes(id)}
            key={id}
            label={
              <>
                {description.label} {retired === null ? null : <span className="quiet">retired</span>}
              </>
            }
            onTick={(isIn) =>
              onChange({
                analyzerIds: all
                  .map((one) => one.id)
                  .filter((one) => (one === id ? isIn : chosen.includes(one))),
              })
            }
          />
        ))}
        {errors.analyzers === undefined ? null : (
          <p className="field__message" data-tone="error" id={errorId}>
            {errors.analyzers}
          </p>
        )}
      </fieldset>
      <fieldset className="stack group">
        <legend>In it</legend>
        <p className="quiet small">Summary, description and signatures always.</p>
        {(Object.keys(partWords) as Part[]).map((part) => (
          <TickField
            checked={!choice.without.includes(part)}
            key={part}
            label={partWords[part]}
            onTick={(isIn) =>
              onChange({
                without: isIn ? choice.without.filter((one) => one !== part) : [...choice.without, part],
              })
            }
          />
        ))}
      </fieldset>
      <div className="stack group">
        <ChoiceField
          choices={choicesOf(paperWords)}
          label="Paper"
          onChoice={(paper) => onChange({ paper })}
          value={choice.paper}
        />
      </div>
    </div>
  );
}
