import { type FormEvent, useRef } from 'react';
import { focusFirstInvalid } from '../parts/formFocus.ts';
import { ReadOnlyNote } from '../parts/readOnlyNote.tsx';
import { RunFields } from '../runForm/runFields.tsx';
import type { Bench } from '../runForm/useRunOnBench.ts';
import { Recording } from './recording.tsx';

export function BenchForm({ bench }: { bench: Bench }) {
  const form = useRef<HTMLFormElement>(null);

  const submit = (event: FormEvent) => {
    event.preventDefault();
    void bench.record(false).then(() => focusFirstInvalid(form.current));
  };

  return (
    <form className="stack stack--loose run-form" noValidate onSubmit={submit} ref={form}>
      <h1>Record a run</h1>
      <ReadOnlyNote />
      <RunFields form={bench} />
      <Recording bench={bench} />
    </form>
  );
}
