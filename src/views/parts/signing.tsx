import { useEffect, useRef } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { NewPassphraseFields, PassphraseField } from './passphrase.tsx';
import { keysOf } from './useKeyHere.ts';
import type { Signing } from './useSigning.ts';

/** Where a supervisor signs what the form writes: with their passphrase, or by choosing one in the same step. */
export function SigningFields({ signing }: { signing: Signing }) {
  const { logbook } = useLogbook();
  const { mode, personId, passphrase, newPassphrase } = signing;
  const { chosen } = newPassphrase;
  const isTurned = useRef(false);
  const turn = (isReplacing: boolean) => {
    isTurned.current = true;
    signing.setReplacing(isReplacing);
  };
  // The button that was pressed goes with its fields, and the focus would go with it.
  useEffect(() => {
    if (!isTurned.current) return;
    isTurned.current = false;
    (mode === 'replace' ? chosen : passphrase).current?.focus();
  }, [mode, chosen, passphrase]);
  if (mode === 'nobody' || mode === 'looking') return null;
  const initials = logbook.technologists.get(personId)?.initials ?? 'This person';
  return (
    // Another person's fields are other fields: nothing that was typed for one is left for the next.
    <div className="stack" key={`${personId} ${mode}`}>
      {mode === 'unlock' ? (
        <PassphraseField
          after={
            <button onClick={() => turn(true)} type="button">
              Forgotten…
            </button>
          }
          error={signing.passphraseError}
          hint={`Signs this as ${initials}. ${whatItProves}`}
          input={passphrase}
          label="Passphrase"
          onTyped={signing.onPassphrase}
        />
      ) : (
        <>
          <p>
            {mode === 'first'
              ? firstWords(initials, keysOf(logbook, personId).length > 0)
              : `The new passphrase of ${initials} and the reason for it are written together with this. What was signed with the old one stays proven.`}
          </p>
          <NewPassphraseFields of={newPassphrase} />
          <p className="quiet small">{whatItProves}</p>
        </>
      )}
      {mode === 'replace' ? (
        <div>
          <button onClick={() => turn(false)} type="button">
            Use the old passphrase
          </button>
        </div>
      ) : null}
    </div>
  );
}

export const whatItProves =
  'The signature is proof within this laboratory; it claims conformity with no regulation.';

function firstWords(initials: string, hasOneElsewhere: boolean): string {
  return hasOneElsewhere
    ? `${initials} has registered a passphrase on another workstation, and none on this one: a key never leaves the workstation it was made on. Choose one for here; it is registered together with this.`
    : `A supervisor signs with a passphrase of their own, and ${initials} has none yet. Choose one; it is registered together with this.`;
}
