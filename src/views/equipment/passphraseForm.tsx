import type { Technologist } from '../../journal/logbook.ts';
import { prepareKey } from '../../store/keys.ts';
import { useLogbook } from '../logbookContext.tsx';
import { NewPassphraseFields, useNewPassphrase } from '../parts/passphrase.tsx';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { whatItProves } from '../parts/signing.tsx';
import { useSave } from '../parts/useSave.ts';

/** A supervisor registers their passphrase on this workstation, or one in place of it. It is their own entry. */
export function PassphraseForm({
  person: { id, name },
  isReplacing,
  onDone,
  onCancel,
}: {
  person: Technologist;
  isReplacing: boolean;
  onDone: () => void;
  onCancel: () => void;
}) {
  const { handle } = useLogbook();
  const newPassphrase = useNewPassphrase(id, isReplacing);
  const { saving, save } = useSave();

  const submit = async (): Promise<Submission> => {
    const taken = newPassphrase.take();
    if (taken === null) return 'stopped';
    const typed = [newPassphrase.revision, taken.reason];
    if (await save(typed, async () => [await prepareKey(handle, { technologistId: id, ...taken })])) onDone();
    return 'tried';
  };
  return (
    <RecordForm onSubmit={submit} title={`${isReplacing ? 'A new passphrase' : 'A passphrase'} for ${name}`}>
      <p>
        {isReplacing
          ? 'From then on only the new one signs on this workstation. What the old one signed stays proven.'
          : 'With it what a supervisor closes is signed on this workstation. On another one choose one there: the key it opens never leaves the workstation it was made on.'}
      </p>
      <NewPassphraseFields of={newPassphrase} />
      <p className="quiet small">
        To be typed by {name} in person: this logbook cannot tell whose hands they are, and that a passphrase
        was registered stays in the history. {whatItProves}
      </p>
      <SaveLine
        action={isReplacing ? 'Replace the passphrase' : 'Register the passphrase'}
        onCancel={onCancel}
        saving={saving}
        trouble={
          Object.keys(newPassphrase.errors).length > 0
            ? 'Nothing is written yet: see the marked fields.'
            : undefined
        }
      />
    </RecordForm>
  );
}
