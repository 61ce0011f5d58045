import { type ReactNode, useId } from 'react';
import { type ImportField, importFields } from '../../exchange/importFields.ts';
import type { ImportOutline } from '../../exchange/importOutline.ts';
import type { ImportPlan } from '../../exchange/importPlan.ts';
import type { ImportUnit } from '../../exchange/importUnits.ts';
import { InlineChoice, plainChoices } from '../parts/field.tsx';
import { fieldWords } from './importWords.ts';

const none = '';

/** Which column a field is in, and in which unit. */
export function ColumnField({
  field,
  outline,
  plan,
  message,
  onColumn,
  lacksUnit,
  onUnit,
  children,
}: {
  field: ImportField;
  outline: ImportOutline;
  plan: ImportPlan;
  message: ReactNode;
  lacksUnit: boolean;
  onColumn: (index: number | null) => void;
  onUnit: (unit: ImportUnit) => void;
  /** What stands for it where the file has none. */
  children?: ReactNode;
}) {
  const id = useId();
  const index = plan.columns.get(field);
  const { units } = importFields[field];
  const unit = plan.units.get(field);
  // Without a column the unit is that of the value typed for all runs.
  const isTyped = field === 'temperature' || field === 'pressure';
  const showsUnit = units.length > 1 && (index !== undefined || isTyped);
  const described = [...(message ? [`${id}-message`] : []), ...(lacksUnit ? [`${id}-unit`] : [])];
  return (
    <div className="field">
      <label className="field__label" htmlFor={id}>
        {fieldWords[field]}
      </label>
      <div className="field__control">
        <select
          aria-describedby={described.length > 0 ? described.join(' ') : undefined}
          className="column-choice"
          id={id}
          onChange={({ target }) => onColumn(target.value === none ? null : Number(target.value))}
          value={index ?? none}
        >
          <option value={none}>not in the file</option>
          {outline.header.map((name, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: two columns can have the same name; the place is what they are.
            <option key={at} value={at}>
              {name === '' ? `column ${at + 1}` : name}
            </option>
          ))}
        </select>
        {showsUnit ? (
          <InlineChoice<ImportUnit | 'unit?'>
            choices={[
              ...(unit === undefined ? [{ value: 'unit?' as const, label: 'unit?' }] : []),
              ...plainChoices(units),
            ]}
            name={`Unit of ${fieldWords[field]}`}
            onChoice={(chosen) => chosen !== 'unit?' && onUnit(chosen)}
            value={unit ?? 'unit?'}
          />
        ) : null}
      </div>
      {message ? (
        <div className="field__message" id={`${id}-message`}>
          {message}
        </div>
      ) : null}
      {lacksUnit ? (
        <div className="field__message" data-tone="error" id={`${id}-unit`}>
          Nothing tells the unit: choose it.
        </div>
      ) : null}
      {index === undefined ? children : null}
    </div>
  );
}
