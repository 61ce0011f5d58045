/** What a package and a report are about: a period, and some of the analyzers. */
import { useId } from 'react';
import type { Logbook } from '../../journal/logbook.ts';
import { InputField, TickField } from './field.tsx';

/** Civil dates, both ends in. */
export function PeriodFields({
  from,
  to,
  errors,
  onChange,
}: {
  from: string;
  to: string;
  errors: { from?: string; to?: string };
  onChange: (changed: { from: string } | { to: string }) => void;
}) {
  return (
    <div className="pairs">
      <InputField
        error={errors.from}
        label="From"
        onText={(text) => onChange({ from: text })}
        type="date"
        value={from}
      />
      <InputField
        error={errors.to}
        label="Up to and including"
        onText={(text) => onChange({ to: text })}
        type="date"
        value={to}
      />
    </div>
  );
}

export function AnalyzerTicks({
  analyzers,
  isIn,
  error,
  onTick,
}: {
  analyzers: Logbook['analyzers'];
  isIn: (analyzerId: string) => boolean;
  error: string | undefined;
  onTick: (analyzerId: string, isIn: boolean) => void;
}) {
  const errorId = useId();
  return (
    <fieldset aria-describedby={error === undefined ? undefined : errorId} className="stack group">
      <legend>Analyzers</legend>
      {[...analyzers.values()].map(({ id, description, retired }) => (
        <TickField
          checked={isIn(id)}
          key={id}
          label={
            <>
              {description.label} {retired === null ? null : <span className="quiet">retired</span>}
            </>
          }
          onTick={(isTicked) => onTick(id, isTicked)}
        />
      ))}
      {error === undefined ? null : (
        <p className="field__message" data-tone="error" id={errorId}>
          {error}
        </p>
      )}
    </fieldset>
  );
}
