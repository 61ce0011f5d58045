import { type ReactNode, type RefObject, useRef, useState } from 'react';
import { TextAreaField, useFieldFrame } from './field.tsx';
import {
  type NewPassphraseErrors,
  type NewPassphraseReading,
  readNewPassphrase,
  shortestPassphrase,
} from './readNewPassphrase.ts';

/** Longer than anybody types; a pasted book would only be slow. */
const longestPassphrase = 500;

/**
 * A field whose text stays in the page: it is read when the button is pressed and never becomes React's state, which
 * would keep copies of it.
 */
export function PassphraseField({
  label,
  error,
  hint,
  input,
  onTyped,
  isNew = false,
  after,
}: {
  label: string;
  error?: ReactNode;
  hint?: ReactNode;
  input: RefObject<HTMLInputElement | null>;
  onTyped: () => void;
  isNew?: boolean;
  after?: ReactNode;
}) {
  const { id, describedBy, wrap } = useFieldFrame({ label, error, hint });
  return wrap(
    <>
      <input
        aria-describedby={describedBy}
        aria-invalid={error ? true : undefined}
        // Several supervisors share a workstation: the browser is asked to fill in nobody's.
        autoComplete={isNew ? 'new-password' : 'off'}
        data-long
        id={id}
        maxLength={longestPassphrase}
        onChange={onTyped}
        ref={input}
        type="password"
      />
      {after}
    </>,
  );
}

export interface NewPassphrase {
  chosen: RefObject<HTMLInputElement | null>;
  again: RefObject<HTMLInputElement | null>;
  reason: string | null;
  errors: NewPassphraseErrors;
  onTyped: () => void;
  onReason: (reason: string) => void;
  /** Raised by every key: it stands for the passphrase where `useSave` compares what was typed. */
  revision: number;
  /** Reads the fields, and marks those that stand in the way. */
  take: () => Extract<NewPassphraseReading, { ok: true }> | null;
}

/** What is typed and said about a new passphrase of `owner`. A reason is asked for where it replaces one. */
export function useNewPassphrase(owner: string, asksReason: boolean): NewPassphrase {
  const chosen = useRef<HTMLInputElement>(null);
  const again = useRef<HTMLInputElement>(null);
  const [text, setText] = useState('');
  const [revision, setRevision] = useState(0);
  const [found, setFound] = useState<{ owner: string; errors: NewPassphraseErrors }>({ owner, errors: {} });
  const reason = asksReason ? text : null;
  return {
    chosen,
    again,
    reason,
    errors: found.owner === owner ? found.errors : {},
    revision,
    onTyped: () => {
      setRevision((count) => count + 1);
      setFound({ owner, errors: {} });
    },
    onReason: (next) => {
      setText(next);
      setFound({ owner, errors: {} });
    },
    take: () => {
      const reading = readNewPassphrase({
        chosen: chosen.current?.value ?? '',
        again: again.current?.value ?? '',
        reason,
      });
      setFound({ owner, errors: reading.ok ? {} : reading.errors });
      return reading.ok ? reading : null;
    },
  };
}

export function NewPassphraseFields({ of }: { of: NewPassphrase }) {
  const { chosen, again, reason, errors, onTyped, onReason } = of;
  return (
    <>
      <PassphraseField
        error={errors.chosen}
        hint={`${shortestPassphrase} characters or more; a few words are easy to keep. It is stored nowhere and cannot be looked up.`}
        input={chosen}
        isNew
        label="New passphrase"
        onTyped={onTyped}
      />
      <PassphraseField error={errors.again} input={again} isNew label="The same again" onTyped={onTyped} />
      {reason === null ? null : (
        <TextAreaField
          error={errors.reason}
          label="Why a new one"
          onText={onReason}
          required
          value={reason}
        />
      )}
    </>
  );
}
