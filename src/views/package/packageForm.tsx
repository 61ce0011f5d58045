import { type FormEvent, useId, useRef } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { InputField, TickField } from '../parts/field.tsx';
import { counted } from '../parts/figures.ts';
import { fileSize } from '../parts/fileSize.ts';
import { focusFirstInvalid } from '../parts/formFocus.ts';
import { Notice } from '../parts/notice.tsx';
import type { ScopeDraft, ScopeErrors } from './readScope.ts';
import type { Making } from './usePackage.ts';

interface PackageFormProps {
  draft: ScopeDraft;
  errors: ScopeErrors;
  making: Making;
  onChange: (changes: Partial<ScopeDraft>) => void;
  onMake: () => void;
  onStop: () => void;
}

/** Period, analyzers, and the one button. */
export function PackageForm({ draft, errors, making, onChange, onMake, onStop }: PackageFormProps) {
  const form = useRef<HTMLFormElement>(null);
  const isMaking = making.state === 'making';
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (Object.keys(errors).length > 0) focusFirstInvalid(form.current);
    else if (!isMaking) onMake();
  };
  return (
    <form aria-label="Make a package" className="stack stack--loose" noValidate onSubmit={submit} ref={form}>
      <fieldset className="stack stack--loose" disabled={isMaking}>
        <div className="pairs">
          <InputField
            error={errors.from}
            label="From"
            onText={(from) => onChange({ from })}
            type="date"
            value={draft.from}
          />
          <InputField
            error={errors.to}
            label="Up to and including"
            onText={(to) => onChange({ to })}
            type="date"
            value={draft.to}
          />
        </div>
        <Analyzers draft={draft} error={errors.analyzers} onChange={onChange} />
      </fieldset>
      <div className="line">
        <button data-weight="main" disabled={isMaking} type="submit">
          {isMaking ? 'Making the package…' : 'Make the package'}
        </button>
        {isMaking ? (
          <button onClick={onStop} type="button">
            Stop
          </button>
        ) : null}
      </div>
      <Outcome making={making} />
    </form>
  );
}

function Analyzers({
  draft: { without },
  error,
  onChange,
}: Pick<PackageFormProps, 'draft' | 'onChange'> & { error: string | undefined }) {
  const { logbook } = useLogbook();
  const errorId = useId();
  return (
    <fieldset aria-describedby={error === undefined ? undefined : errorId} className="stack group">
      <legend>Analyzers</legend>
      {[...logbook.analyzers.values()].map(({ id, description, retired }) => (
        <TickField
          checked={!without.includes(id)}
          key={id}
          label={
            <>
              {description.label} {retired === null ? null : <span className="quiet">retired</span>}
            </>
          }
          onTick={(isIn) =>
            onChange({ without: isIn ? without.filter((each) => each !== id) : [...without, id] })
          }
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

function Outcome({ making }: { making: Making }) {
  switch (making.state) {
    case 'idle':
      return null;
    case 'making':
      return (
        <p className="quiet" role="status">
          {making.total === 0
            ? 'Every run of the logbook is judged once more…'
            : `${making.written} of ${making.total} files written.`}{' '}
          Other pages stay usable in another tab; leaving this page stops it.
        </p>
      );
    case 'made':
      return (
        <Notice title={`${making.fileName}, ${fileSize(making.bytes)}`} tone="pass">
          <p>
            {counted(making.files, 'file')} in one ZIP. The browser has put it where it keeps downloads. Open
            README.txt in it first.
          </p>
        </Notice>
      );
    case 'failed':
      return (
        <Notice title="The package could not be made." tone="fail" urgent>
          <p>{making.problem}</p>
          <p>Nothing was saved, and the logbook is as it was. Try a shorter period.</p>
        </Notice>
      );
  }
}
