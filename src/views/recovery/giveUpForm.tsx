import { type FormEvent, useEffect, useRef, useState } from 'react';
import { type MissingEntries, StorageProblem } from '../../store/openLogbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { InputField } from '../parts/field.tsx';
import { counted } from '../parts/figures.ts';
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
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => form.current?.focus(), []);
  const initials = typed.trim();

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (!isInitials(initials) || saving.state === 'saving') return;
    setSaving({ state: 'saving' });
    try {
      // The screen gives way to the logbook as soon as this is stored.
      await handle.giveUpMissing(initials);
    } catch (error) {
      setSaving({ state: 'failed', problem: StorageProblem.from(error) });
    }
  };
  return (
    <form
      aria-labelledby="give-up"
      className="stack record-form"
      noValidate
      onSubmit={(event) => void submit(event)}
      ref={form}
      tabIndex={-1}
    >
      <h2 id="give-up">Go on without {counted(known.count - found, 'entry', 'entries')}</h2>
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
    </form>
  );
}
