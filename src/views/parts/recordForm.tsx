import { type FormEvent, type ReactNode, useId, useRef } from 'react';
import { focusFirstInvalid, useFocusWhenOpened } from './formFocus.ts';
import './recordForm.css';
import { ReadOnlyNote } from './readOnlyNote.tsx';

/** How a press of the form's button ended: `stopped` where a field stood in the way and nothing was tried. */
export type Submission = 'stopped' | 'tried';

/** The frame of a form that writes one thing. A press that wrote nothing leads to the first field that stopped it. */
export function RecordForm({
  title,
  heading: Heading = 'h2',
  opens = true,
  onSubmit,
  children,
}: {
  title: ReactNode;
  heading?: 'h1' | 'h2' | 'h3';
  /** False where it stands on its page from the start: only what opens in place of a button takes the focus. */
  opens?: boolean;
  onSubmit: () => Promise<Submission>;
  children: ReactNode;
}) {
  const titleId = useId();
  const form = useRef<HTMLFormElement>(null);
  useFocusWhenOpened(form, opens);

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    // After the await, and no sooner, the fields are drawn as marked.
    if ((await onSubmit()) === 'stopped') focusFirstInvalid(form.current);
  };

  return (
    <form
      aria-labelledby={titleId}
      className="stack record-form"
      noValidate
      onSubmit={(event) => void submit(event)}
      ref={form}
      tabIndex={opens ? -1 : undefined}
    >
      <Heading id={titleId}>{title}</Heading>
      <ReadOnlyNote />
      {children}
    </form>
  );
}
