import { type FormEvent, useRef } from 'react';
import { Link } from 'wouter';
import { focusFirstInvalid } from '../parts/formFocus.ts';
import { ReadOnlyNote } from '../parts/readOnlyNote.tsx';
import { guidedPath } from '../routes.ts';
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
      <div className="line line--apart line--baseline">
        <h1>Record a run</h1>
        <Link href={guidedPath}>Guide me through</Link>
      </div>
      <ReadOnlyNote />
      <RunFields form={bench} />
      <Recording bench={bench} />
    </form>
  );
}
