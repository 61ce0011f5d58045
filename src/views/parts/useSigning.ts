import { type RefObject, useRef, useState } from 'react';
import type { EntryDraft } from '../../journal/entries.ts';
import type { SignableDraft } from '../../journal/signature.ts';
import { prepareKey, signDrafts } from '../../store/keys.ts';
import { useLogbook } from '../logbookContext.tsx';
import { type NewPassphrase, useNewPassphrase } from './passphrase.tsx';
import { useKeyHere } from './useKeyHere.ts';

/** Signs the drafts of one save; null, with the field marked, where the passphrase was not the right one. */
export type Signer = (drafts: readonly SignableDraft[]) => Promise<readonly EntryDraft[] | null>;

export interface Signing {
  /** `nobody`: who signs is not chosen, or may not. `first`: without a key here, one is registered in the same save. */
  mode: 'nobody' | 'looking' | 'unlock' | 'first' | 'replace';
  personId: string;
  passphrase: RefObject<HTMLInputElement | null>;
  passphraseError: string | undefined;
  onPassphrase: () => void;
  newPassphrase: NewPassphrase;
  setReplacing: (isReplacing: boolean) => void;
  /** Raised by every key in a passphrase field: give it to `save` with the rest of what is typed. */
  revision: number;
  /** Whether a field of the passphrase stands in the way. */
  isMarked: boolean;
  /** Reads the fields for one save; null, with the fields marked, where they are not whole. */
  take: () => Signer | null;
  /** After a save: nothing typed is left for a second signature. */
  clear: () => void;
}

/** A supervisor's passphrase in a form that writes signed entries; drawn by `SigningFields`. */
export function useSigning(personId: string, canWrite: boolean): Signing {
  const { handle } = useLogbook();
  const keyHere = useKeyHere(personId);
  const [replacingOf, setReplacingOf] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<{ personId: string; sentence: string } | null>(null);
  const [revision, setRevision] = useState(0);
  const passphrase = useRef<HTMLInputElement>(null);
  const mode = modeOf(canWrite, keyHere, replacingOf === personId);
  const newPassphrase = useNewPassphrase(personId, mode === 'replace');
  const passphraseError = trouble?.personId === personId ? trouble.sentence : undefined;

  const takeKnown = (keyId: string): Signer | null => {
    const typed = passphrase.current?.value ?? '';
    if (typed === '') {
      setTrouble({ personId, sentence: 'Type your passphrase: what is written here is signed.' });
      return null;
    }
    return async (drafts) => {
      const signed = await signDrafts(handle, { keyId, passphrase: typed, drafts });
      if (signed === null) {
        setTrouble({
          personId,
          sentence:
            'This is not the passphrase registered on this workstation. Nothing is written: type it again.',
        });
        if (passphrase.current) passphrase.current.value = '';
        passphrase.current?.focus();
      }
      return signed;
    };
  };

  const takeNew = (): Signer | null => {
    const taken = newPassphrase.take();
    if (taken === null) return null;
    return async (drafts) => {
      const registration = await prepareKey(handle, { technologistId: personId, ...taken });
      const { keyId } = registration.body;
      const signed = await signDrafts(handle, { keyId, passphrase: taken.passphrase, drafts });
      if (signed === null) throw new Error('The key that was just made does not open.');
      return [registration, ...signed];
    };
  };

  return {
    mode,
    personId,
    passphrase,
    passphraseError,
    onPassphrase: () => {
      setTrouble(null);
      setRevision((count) => count + 1);
    },
    newPassphrase,
    setReplacing: (isReplacing) => setReplacingOf(isReplacing ? personId : null),
    revision: revision + newPassphrase.revision,
    isMarked: isMarked(mode, passphraseError, newPassphrase),
    take: () => {
      if (mode === 'first' || mode === 'replace') return takeNew();
      return mode === 'unlock' && keyHere ? takeKnown(keyHere.body.keyId) : null;
    },
    clear: () => {
      for (const { current } of [passphrase, newPassphrase.chosen, newPassphrase.again]) {
        if (current) current.value = '';
      }
      setReplacingOf(null);
    },
  };
}

function modeOf(
  canWrite: boolean,
  keyHere: ReturnType<typeof useKeyHere>,
  isReplacing: boolean,
): Signing['mode'] {
  if (!canWrite) return 'nobody';
  if (keyHere === undefined) return 'looking';
  if (keyHere === null) return 'first';
  return isReplacing ? 'replace' : 'unlock';
}

function isMarked(mode: Signing['mode'], passphraseError: string | undefined, { errors }: NewPassphrase) {
  return mode === 'unlock' ? passphraseError !== undefined : Object.keys(errors).length > 0;
}
