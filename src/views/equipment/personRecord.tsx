import type { Technologist } from '../../journal/logbook.ts';
import { personInWords } from '../equipmentInWords.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { keysOf, useKeyHere } from '../parts/useKeyHere.ts';
import { consequenceOfRole } from './consequences.ts';
import { DescriptionForm } from './descriptionForm.tsx';
import { inOrder } from './inOrder.ts';
import { changePerson } from './makeEntries.ts';
import { PassphraseForm } from './passphraseForm.tsx';
import { PersonFields } from './personFields.tsx';
import { personReader } from './readers.ts';
import { RecordPage } from './recordPage.tsx';
import { retireAction } from './retireAction.tsx';

export function PersonRecord({ person }: { person: Technologist }) {
  const { id, name, initials, role, retired, history } = person;
  const { logbook } = useLogbook();
  const keyHere = useKeyHere(id);
  const keys = keysOf(logbook, id);
  return (
    <RecordPage
      actions={
        retired
          ? []
          : [
              {
                name: 'Change…',
                form: (close) => (
                  <DescriptionForm
                    Fields={PersonFields}
                    action="Save the change"
                    asksReason
                    consequenceOf={(changed) => consequenceOfRole(role, changed.role, logbook)}
                    initial={{ name, initials, role }}
                    makeEntries={(description, by, reason) => changePerson(person, description, by, reason)}
                    newest={history.at(-1)?.id}
                    onCancel={close}
                    onDone={close}
                    read={personReader(logbook, person)}
                    title={`Change ${name}`}
                  />
                ),
              },
              ...(role === 'supervisor' && keyHere !== undefined
                ? [
                    {
                      name: keyHere === null ? 'Register a passphrase…' : 'Replace the passphrase…',
                      form: (close: () => void) => (
                        <PassphraseForm
                          isReplacing={keyHere !== null}
                          onCancel={close}
                          onDone={close}
                          person={person}
                        />
                      ),
                    },
                  ]
                : []),
              retireAction(
                { kind: 'technologist', id },
                name,
                'The name stays beside every record it stands on. It can no longer be chosen.',
              ),
            ]
      }
      history={inOrder([...history, ...keys])}
      retired={retired}
      rows={[
        ...personInWords(person),
        ...(role === 'supervisor'
          ? [{ name: 'Passphrase', value: passphraseWords(keyHere, keys.length) }]
          : []),
      ]}
      title={name}
    />
  );
}

function passphraseWords(keyHere: ReturnType<typeof useKeyHere>, registered: number): string {
  if (keyHere === undefined) return '…';
  if (keyHere) return `registered on this workstation, ${dayAndTime(keyHere.at, keyHere.zone)}`;
  return registered > 0 ? 'none on this workstation; on another one' : 'none yet';
}
