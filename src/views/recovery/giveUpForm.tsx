import { useState } from 'react';
import { type MissingEntries, StorageProblem } from '../../store/openLogbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { InputField } from '../parts/field.tsx';
import { counted } from '../parts/figures.ts';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import type { Saving } from '../parts/useSave.ts';

const isInitials = (text: string) => /^\p{L}{1,4}$/u.test(text);

/** The second step of going on without what is missing: initials, typed by hand. */
export function GiveUpForm({
  missing: { known, found },
  onCancel,
}: {
  missing: MissingEntries;
  onCancel: () => void;
}) {
  const { handle } = useLogbook();
  const [typed, setTyped] = useState('');
  const [tried, setTried] = useState(false);
  const [saving, setSaving] = useState<Saving>({ state: 'idle' });
  const initials = typed.trim();

  const submit = async (): Promise<Submission> => {
    setTried(true);
    if (!isInitials(initials)) return 'stopped';
    if (saving.state === 'saving') return 'tried';
    setSaving({ state: 'saving' });
    try {
      // The screen gives way to the logbook as soon as this is stored.
      await handle.giveUpMissing(initials);
    } catch (error) {
      setSaving({ state: 'failed', problem: StorageProblem.from(error) });
    }
    return 'tried';
  };
  return (
    <RecordForm onSubmit={submit} title={`Go on without ${counted(known.count - found, 'entry', 'entries')}`}>
      <p>
        That they were lost, what was known of them and your initials are written into the journal and stay in
        every export and copy. A backup that turns up later can still be merged.
      </p>
      <InputField
        error={
          tried && !isInitials(initials)
            ? 'Type your initials, one to four letters, to take this step.'
            : undefined
        }
        label="Your initials"
        onText={setTyped}
        value={typed}
      />
      <SaveLine
        action={found === 0 ? 'Begin an empty logbook' : 'Go on with what is left'}
        onCancel={onCancel}
        saving={saving}
      />
    </RecordForm>
  );
}
