import type { ImportField } from '../../exchange/importFields.ts';
import type { KnownLogbook } from '../../exchange/importKnown.ts';
import type { ConstantField } from '../../exchange/importPlan.ts';
import { ChoiceField, choicesOf, InputField, plainChoices } from '../parts/field.tsx';
import { gasConditions, reasonWords, routeWords } from '../parts/words.ts';
import { fieldWords } from './importWords.ts';
import { withConstant } from './planChanges.ts';
import type { Mapping } from './useImport.ts';

interface ConstantProps {
  mapping: Mapping;
  known: KnownLogbook;
  onChange: (mapping: Mapping) => void;
}

const labelled = (things: KnownLogbook['analyzers'] | KnownLogbook['syringes']) =>
  things.map(({ id, description }) => ({ value: id, label: description.label }));

const peopleChoices = ({ people }: KnownLogbook) =>
  people.map(({ id, initials, name }) => ({ value: id, label: `${initials}  ${name}` }));

/** What is taken for a field of which the file has no column: under the field itself, since a run cannot be without it. */
export function ConstantOf({ field, mapping, known, onChange }: ConstantProps & { field: ImportField }) {
  const { constants } = mapping.plan;
  const choose = (constant: ConstantField) => (value: string) =>
    onChange(withConstant(mapping, constant, value));
  switch (field) {
    case 'analyzer':
      return (
        <div className="constant">
          <select
            aria-label="All runs are of"
            onChange={({ target }) => choose('analyzer')(target.value)}
            value={constants.analyzer}
          >
            <option value="">All runs are of…</option>
            {labelled(known.analyzers).map(({ value, label }) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </select>
        </div>
      );
    case 'technologist':
      return (
        <div className="constant">
          <select
            aria-label="All runs were made by"
            onChange={({ target }) => choose('technologist')(target.value)}
            value={constants.technologist}
          >
            <option value="">All runs were made by…</option>
            {peopleChoices(known).map(({ value, label }) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </select>
        </div>
      );
    case 'temperature':
    case 'pressure':
      return (
        <div className="constant">
          <input
            aria-label={`${fieldWords[field]} of all runs`}
            inputMode="decimal"
            maxLength={12}
            onChange={({ target }) => choose(field)(target.value)}
            placeholder="of all runs"
            value={constants[field]}
          />
        </div>
      );
    default:
      return null;
  }
}

const asDescribed = (what: string) => ({ value: 'described', label: `as ${what} is described` });

/** What holds for the whole file, and what stands in for empty cells. */
export function Constants({ mapping, known, onChange }: ConstantProps) {
  const { constants, columns } = mapping.plan;
  const choose = (field: ConstantField) => (value: string) =>
    onChange(withConstant(mapping, field, value === 'described' ? '' : value));
  const shown = (field: ConstantField) => constants[field] || 'described';
  return (
    <>
      <p className="quiet small">
        An empty cell of the columns above is refused, unless a value is given here: then the row is taken
        with a warning.
      </p>
      <ChoiceField
        choices={[asDescribed('the analyzer'), ...labelled(known.syringes)]}
        label="Syringe"
        onChoice={choose('syringe')}
        value={shown('syringe')}
      />
      <ChoiceField
        choices={[asDescribed('the analyzer'), ...choicesOf(routeWords)]}
        label="Route"
        onChoice={choose('route')}
        value={shown('route')}
      />
      <ChoiceField
        choices={choicesOf(reasonWords)}
        label="Reason"
        onChoice={choose('reason')}
        value={constants.reason === 'weekly' ? 'weekly' : shown('reason')}
      />
      <ChoiceField
        choices={[asDescribed('the analyzer'), ...plainChoices(gasConditions)]}
        label="VA was reported in"
        onChoice={choose('vaCondition')}
        value={shown('vaCondition')}
      />
      <ChoiceField
        choices={[
          asDescribed('the analyzer'),
          { value: 'ATPD', label: 'computed from the room, dry test gas' },
          { value: 'ATPS', label: 'computed from the room, saturated gas' },
          { value: 'fixed', label: 'fixed factor' },
        ]}
        label="VA is converted"
        onChoice={choose('conversion')}
        value={shown('conversion')}
      />
      {constants.conversion === 'fixed' ? (
        <InputField
          inputMode="decimal"
          label="Fixed factor"
          onText={choose('fixedFactor')}
          value={constants.fixedFactor}
        />
      ) : null}
      <InputField
        after={<span className="unit">mL</span>}
        hint="Empty: as the syringe is described."
        inputMode="decimal"
        label={fieldWords.syringeDeadSpace}
        onText={choose('syringeDeadSpace')}
        value={constants.syringeDeadSpace}
      />
      <InputField
        after={<span className="unit">mL</span>}
        hint="Empty: as the analyzer is described."
        inputMode="decimal"
        label={fieldWords.analyzerDeadSpace}
        onText={choose('analyzerDeadSpace')}
        value={constants.analyzerDeadSpace}
      />
      {columns.has('technologist') ? (
        <ChoiceField
          choices={[{ value: 'described', label: 'refused' }, ...peopleChoices(known)]}
          label="Runs without a name"
          onChoice={choose('technologist')}
          value={shown('technologist')}
        />
      ) : null}
      {(['temperature', 'pressure'] as const)
        .filter((field) => columns.has(field))
        .map((field) => (
          <InputField
            after={<span className="unit">{mapping.plan.units.get(field) ?? ''}</span>}
            hint="Empty: a row without is refused."
            inputMode="decimal"
            key={field}
            label={`${fieldWords[field]} where the cell is empty`}
            onText={choose(field)}
            value={constants[field]}
          />
        ))}
    </>
  );
}
