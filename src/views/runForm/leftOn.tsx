import { lazy, Suspense, useRef, useState } from 'react';
import { attachedWords } from './attached.ts';
import { useOriginWords } from './measuredField.tsx';
import type { RunForm } from './runForm.ts';
import { troubleOf } from './trouble.tsx';

/** Most weeks nothing is left on the syringe that was not last week. */
const LeftOnEditor = lazy(() => import('./leftOnEditor.tsx'));

/** The hose or filter that the syringe was emptied through: part of what the gas is diluted with. */
export function LeftOn({ form }: { form: RunForm }) {
  const { draft } = form;
  const [isOpen, setOpen] = useState(false);
  const wasOpen = useRef(false);
  const origin = useOriginWords(form, 'attached');
  const trouble = troubleOf(form, 'attached');
  // Opened by a trouble, it stays open when that is over: the first digit of a volume must not close what is typed into.
  if (trouble !== undefined && !isOpen) setOpen(true);
  const close = () => {
    wasOpen.current = true;
    setOpen(false);
  };
  if (isOpen) {
    return (
      <Suspense fallback={null}>
        <LeftOnEditor form={form} onClose={close} trouble={trouble} />
      </Suspense>
    );
  }
  return (
    <p className="line line--baseline left-on">
      <span>
        <span className="quiet">Left on the syringe:</span> {attachedWords(draft.attached)}
        {origin === null ? null : <span className="field__beside"> {origin}</span>}
      </span>
      <button
        data-weight="line"
        onClick={() => setOpen(true)}
        // The editor that it opened is gone, and the focus with it.
        ref={(button) => {
          if (button !== null && wasOpen.current) button.focus();
          wasOpen.current = false;
        }}
        type="button"
      >
        Hose or filter…
      </button>
    </p>
  );
}
