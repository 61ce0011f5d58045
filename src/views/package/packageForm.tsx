import { type FormEvent, useRef } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { counted } from '../parts/figures.ts';
import { fileSize } from '../parts/fileSize.ts';
import { focusFirstInvalid } from '../parts/formFocus.ts';
import { Notice } from '../parts/notice.tsx';
import { AnalyzerTicks, PeriodFields } from '../parts/scopeFields.tsx';
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
  const { logbook } = useLogbook();
  const form = useRef<HTMLFormElement>(null);
  const { without } = draft;
  const isMaking = making.state === 'making';
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (Object.keys(errors).length > 0) focusFirstInvalid(form.current);
    else if (!isMaking) onMake();
  };
  return (
    <form aria-label="Make a package" className="stack stack--loose" noValidate onSubmit={submit} ref={form}>
      <fieldset className="stack stack--loose" disabled={isMaking}>
        <PeriodFields errors={errors} from={draft.from} onChange={onChange} to={draft.to} />
        <AnalyzerTicks
          analyzers={logbook.analyzers}
          error={errors.analyzers}
          isIn={(id) => !without.includes(id)}
          onTick={(id, isIn) =>
            onChange({ without: isIn ? without.filter((each) => each !== id) : [...without, id] })
          }
        />
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
