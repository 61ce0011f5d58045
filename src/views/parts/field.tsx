import { type InputHTMLAttributes, type ReactNode, type SelectHTMLAttributes, useId } from 'react';

/** What the journal's schemas take; beyond it the field itself stops taking letters. */
const longestLine = 120;
const longestText = 2000;

interface FieldFrameProps {
  label: ReactNode;
  /** Something is wrong: what, what was understood, what to type. */
  error?: ReactNode | undefined;
  /** Something to know that stops nobody. */
  warning?: ReactNode | undefined;
  hint?: ReactNode | undefined;
  /** Quiet words beside the control: the value in another unit, or where it comes from. */
  beside?: ReactNode | undefined;
  /** Drawn with another edge: its value was not typed here. */
  isTakenOver?: boolean | undefined;
}

interface FieldFrame {
  id: string;
  describedBy: string | undefined;
  wrap: (control: ReactNode) => ReactNode;
}

/** Label, control and the messages under it, tied together for screen readers. */
export function useFieldFrame({
  label,
  error,
  warning,
  hint,
  beside,
  isTakenOver = false,
}: FieldFrameProps): FieldFrame {
  const id = useId();
  const messages = [
    { key: 'error', content: error },
    { key: 'warning', content: warning },
    { key: 'hint', content: hint },
  ].filter(({ content }) => isSaid(content));
  const described = [...messages.map(({ key }) => key), ...(isSaid(beside) ? ['beside'] : [])];
  return {
    id,
    describedBy: described.length > 0 ? described.map((key) => `${id}-${key}`).join(' ') : undefined,
    wrap: (control) => (
      <div className="field" data-taken-over={isTakenOver ? true : undefined}>
        <label className="field__label" htmlFor={id}>
          {label}
        </label>
        <div className="field__control">
          {control}
          {isSaid(beside) ? (
            <span className="field__beside" id={`${id}-beside`}>
              {beside}
            </span>
          ) : null}
        </div>
        {messages.map(({ key, content }) => (
          <div className="field__message" data-tone={key} id={`${id}-${key}`} key={key}>
            {content}
          </div>
        ))}
      </div>
    ),
  };
}

const isSaid = (content: ReactNode) => content !== undefined && content !== null && content !== '';

type InputFieldProps = FieldFrameProps &
  Omit<InputHTMLAttributes<HTMLInputElement>, 'onChange' | 'value' | 'id'> & {
    value: string;
    onText: (text: string) => void;
    /** What stands after the number: a unit, or a choice of units. */
    after?: ReactNode;
  };

export function InputField({
  label,
  error,
  warning,
  hint,
  beside,
  isTakenOver,
  after,
  onText,
  ...input
}: InputFieldProps) {
  const { id, describedBy, wrap } = useFieldFrame({ label, error, warning, hint, beside, isTakenOver });
  return wrap(
    <>
      <input
        autoComplete="off"
        maxLength={longestLine}
        spellCheck={false}
        {...input}
        aria-describedby={describedBy}
        aria-invalid={error ? true : undefined}
        id={id}
        onChange={(event) => onText(event.target.value)}
      />
      {after}
    </>,
  );
}

export function TextAreaField({
  label,
  error,
  warning,
  hint,
  value,
  onText,
  rows = 2,
  required,
}: FieldFrameProps & {
  value: string;
  onText: (text: string) => void;
  rows?: number;
  required?: boolean;
}) {
  const { id, describedBy, wrap } = useFieldFrame({ label, error, warning, hint });
  return wrap(
    <textarea
      maxLength={longestText}
      aria-describedby={describedBy}
      aria-invalid={error ? true : undefined}
      aria-required={required}
      id={id}
      onChange={(event) => onText(event.target.value)}
      rows={rows}
      value={value}
    />,
  );
}

export interface Choice<T extends string> {
  value: T;
  label: string;
  group?: string;
}

/** Choices in the order of a table of words. */
export const choicesOf = <T extends string>(words: Record<T, string>): Choice<T>[] =>
  (Object.keys(words) as T[]).map((value) => ({ value, label: words[value] }));

/** Choices that are their own words, such as units. */
export const plainChoices = <T extends string>(values: readonly T[]): Choice<T>[] =>
  values.map((value) => ({ value, label: value }));

type ChoiceFieldProps<T extends string> = FieldFrameProps &
  Omit<SelectHTMLAttributes<HTMLSelectElement>, 'onChange' | 'value' | 'id'> & {
    value: T | '';
    choices: readonly Choice<T>[];
    onChoice: (value: T) => void;
    /** Shown while nothing is chosen. */
    placeholder?: string;
  };

export function ChoiceField<T extends string>({
  label,
  error,
  warning,
  hint,
  beside,
  isTakenOver,
  value,
  choices,
  onChoice,
  placeholder,
  ...select
}: ChoiceFieldProps<T>) {
  const { id, describedBy, wrap } = useFieldFrame({ label, error, warning, hint, beside, isTakenOver });
  return wrap(
    <select
      {...select}
      aria-describedby={describedBy}
      aria-invalid={error ? true : undefined}
      id={id}
      onChange={(event) => onChosen(choices, event.target.value, onChoice)}
      value={value}
    >
      {value === '' ? <option value="">{placeholder ?? 'Choose…'}</option> : null}
      <Options choices={choices} />
    </select>,
  );
}

/** A small choice that stands beside another control, such as the unit after a number. */
export function InlineChoice<T extends string>({
  name,
  value,
  choices,
  onChoice,
}: {
  name: string;
  value: T;
  choices: readonly Choice<T>[];
  onChoice: (value: T) => void;
}) {
  return (
    <select
      aria-label={name}
      className="inline-choice"
      onChange={(event) => onChosen(choices, event.target.value, onChoice)}
      value={value}
    >
      <Options choices={choices} />
    </select>
  );
}

function onChosen<T extends string>(
  choices: readonly Choice<T>[],
  value: string,
  onChoice: (value: T) => void,
) {
  const chosen = choices.find((choice) => choice.value === value);
  if (chosen) onChoice(chosen.value);
}

function Options<T extends string>({ choices }: { choices: readonly Choice<T>[] }) {
  const groups = [...new Set(choices.map((choice) => choice.group))];
  return groups.map((group) => {
    const options = choices
      .filter((choice) => choice.group === group)
      .map(({ value, label }) => (
        <option key={value} value={value}>
          {label}
        </option>
      ));
    return group === undefined ? (
      options
    ) : (
      <optgroup key={group} label={group}>
        {options}
      </optgroup>
    );
  });
}

/** A box to tick, with its sentence. */
export function TickField({
  label,
  checked,
  onTick,
  disabled = false,
}: {
  label: ReactNode;
  checked: boolean;
  onTick: (checked: boolean) => void;
  disabled?: boolean;
}) {
  return (
    <label className="tick">
      <input
        checked={checked}
        disabled={disabled}
        onChange={(event) => onTick(event.target.checked)}
        type="checkbox"
      />
      <span>{label}</span>
    </label>
  );
}

/** A label whose field may stay empty. */
export function IfKnown({ children }: { children: ReactNode }) {
  return (
    <>
      {children} <span className="field__optional">if known</span>
    </>
  );
}
