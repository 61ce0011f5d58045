import type { Logbook } from '../../journal/logbook.ts';
import { ChoiceField, choicesOf, TickField } from '../parts/field.tsx';
import { AnalyzerTicks, PeriodFields } from '../parts/scopeFields.tsx';
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
  const chosen = choice.analyzerIds ?? offered;
  return (
    <div className="stack">
      <PeriodFields errors={errors} from={choice.from} onChange={onChange} to={choice.to} />
      <AnalyzerTicks
        analyzers={analyzers}
        error={errors.analyzers}
        isIn={(id) => chosen.includes(id)}
        onTick={(id, isIn) =>
          onChange({
            analyzerIds: [...analyzers.keys()].filter((one) => (one === id ? isIn : chosen.includes(one))),
          })
        }
      />
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
