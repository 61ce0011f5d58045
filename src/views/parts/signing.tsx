import { useLogbook } from '../logbookContext.tsx';
import { NewPassphraseFields, PassphraseField } from './passphrase.tsx';
import { keysOf } from './useKeyHere.ts';
import type { Signing } from './useSigning.ts';

/** Where a supervisor signs what the form writes: with their passphrase, or by choosing one in the same step. */
export function SigningFields({ signing }: { signing: Signing }) {
  const { logbook } = useLogbook();
  const { mode, personId, newPassphrase, setReplacing } = signing;
  if (mode === 'nobody' || mode === 'looking') return null;
  const initials = logbook.technologists.get(personId)?.initials ?? 'This person';
  return (
    // Another person's fields are other fields: nothing that was typed for one is left for the next.
    <div className="stack" key={`${personId} ${mode}`}>
      {mode === 'unlock' ? (
        <PassphraseField
          error={signing.passphraseError}
          hint={`Signs this as ${initials}. ${whatItProves}`}
          input={signing.passphrase}
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
      {mode === 'first' ? null : (
        <div>
          <button onClick={() => setReplacing(mode === 'unlock')} type="button">
            {mode === 'unlock' ? 'Passphrase forgotten…' : 'Use the old passphrase'}
          </button>
        </div>
      )}
    </div>
  );
}

export const whatItProves =
  'The signature is proof within this laboratory; it claims conformity with no regulation.';

function firstWords(initials: string, hasOneElsewhere: boolean): string {
  return hasOneElsewhere
    ? `${initials} has registered a passphrase on another workstation, and none on this one: a key never leaves the workstation it was made on. Choose one for here; it is registered together with this.`
    : `A supervisor’s closing asks for a passphrase of their own, and ${initials} has none yet. Choose one; it is registered together with this.`;
}
