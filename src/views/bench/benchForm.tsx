import { type ClipboardEvent, type FormEvent, lazy, Suspense, useRef, useState } from 'react';
import { Link } from 'wouter';
import { focusFirstInvalid } from '../parts/formFocus.ts';
import { ReadOnlyNote } from '../parts/readOnlyNote.tsx';
import { guidedPath } from '../routes.ts';
import { RunFields } from '../runForm/runFields.tsx';
import type { Bench } from '../runForm/useRunOnBench.ts';
import { useScreenState } from '../screenState.ts';
import { CarriedLine } from './carriedLine.tsx';
import { Recording } from './recording.tsx';
import { useEnterLeadsOn } from './useEnterLeadsOn.ts';

/** Neither is needed to type a run. */
const PasteReport = lazy(() => import('../runForm/pasteReport.tsx'));
const LaidAside = lazy(() => import('../runForm/laidAside.tsx'));

export function BenchForm({ bench }: { bench: Bench }) {
  const form = useRef<HTMLFormElement>(null);
  const onKeyDown = useEnterLeadsOn(form, bench);
  const aside = useScreenState((state) => state.benchAside);
  const setBegun = useScreenState((state) => state.setBegun);
  /** The text of a report; null while none is pasted. */
  const [report, setReport] = useState<string | null>(null);

  const submit = (event: FormEvent) => {
    event.preventDefault();
    void bench.record(false).then(() => focusFirstInvalid(form.current));
  };

  /** One line goes into the field that it is pasted into; a text of several lines is a report. */
  const onPaste = (event: ClipboardEvent) => {
    const text = event.clipboardData.getData('text/plain');
    if (event.target instanceof HTMLTextAreaElement || !/[\r\n]/.test(text.trim())) return;
    event.preventDefault();
    setReport(text);
  };

  /** On to what the report left to be typed. */
  const leaveReport = () => {
    setReport(null);
    setBegun(true);
  };

  return (
    <form
      className="stack stack--loose run-form"
      noValidate
      onKeyDown={onKeyDown}
      onPaste={onPaste}
      onSubmit={submit}
      ref={form}
    >
      <div className="line line--apart line--baseline">
        <h1>Record a run</h1>
        <span className="line line--baseline">
          {report === null ? (
            <button data-weight="line" onClick={() => setReport('')} type="button">
              Paste a report…
            </button>
          ) : null}
          <Link href={guidedPath}>Guide me through</Link>
        </span>
      </div>
      <ReadOnlyNote />
      {aside.length > 0 ? (
        <Suspense fallback={null}>
          <LaidAside aside={aside} />
        </Suspense>
      ) : null}
      {report === null ? null : (
        <Suspense fallback={<p className="quiet">Opening the report…</p>}>
          <PasteReport bench={bench} key={report} onClose={leaveReport} pasted={report} />
        </Suspense>
      )}
      <CarriedLine bench={bench} />
      <RunFields form={bench} />
      <Recording bench={bench} />
    </form>
  );
}
