import type { ReactNode } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { useStorageAdvice } from '../useStorageAdvice.ts';
import { Notice } from './notice.tsx';
import type { Saving } from './useSave.ts';

/** The foot of every form that writes: what happens on the button, why nothing happens, and a save that failed. */
export function SaveLine({
  saving,
  action,
  trouble,
  onCancel,
}: {
  saving: Saving;
  /** The button's words say what happens: "Add analyzer". */
  action: string;
  /** Why nothing was written when the button was pressed. */
  trouble?: ReactNode;
  onCancel?: (() => void) | undefined;
}) {
  const { snapshot } = useLogbook();
  const isReadOnly = snapshot.newer !== null;
  const advise = useStorageAdvice();
  const advice = saving.state === 'failed' ? advise?.(saving.problem) : undefined;
  return (
    <div className="stack">
      {saving.state === 'failed' ? (
        <Notice title={advice ? `Not saved. ${advice.title}.` : 'Not saved.'} tone="fail" urgent>
          <p>{advice?.what} What you typed is still here.</p>
        </Notice>
      ) : null}
      <div className="line">
        {/* Not `disabled`, which would drop the focus: a second press while saving does nothing. */}
        <button
          aria-disabled={saving.state === 'saving'}
          data-weight="main"
          disabled={isReadOnly}
          // The field that is left by this press would show its message and move the button away before it is let go.
          // So the focus comes only with the click; Enter in a field clicks as well, without a press, and leaves it there.
          onMouseDown={(event) => event.preventDefault()}
          onClick={({ currentTarget, detail }) => detail > 0 && currentTarget.focus()}
          type="submit"
        >
          {saving.state === 'saving' ? 'Saving…' : action}
        </button>
        {onCancel ? (
          <button onClick={onCancel} type="button">
            Leave it
          </button>
        ) : null}
        {isReadOnly ? (
          <span className="quiet">Nothing can be written: a newer version has written here.</span>
        ) : null}
        {trouble ? <span className="quiet">{trouble}</span> : null}
      </div>
    </div>
  );
}
