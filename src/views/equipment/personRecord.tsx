import type { Technologist } from '../../journal/logbook.ts';
import { ReasonForm } from '../parts/reasonForm.tsx';
import { roleWords } from '../parts/words.ts';
import { PersonFields } from './descriptionFields.tsx';
import { DescriptionForm } from './descriptionForm.tsx';
import { changePerson, retire } from './makeEntries.ts';
import { readPerson } from './readForms.ts';
import { RecordPage } from './recordPage.tsx';

export function PersonRecord({ person }: { person: Technologist }) {
  const { id, name, initials, role, retired, history } = person;
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
                    initial={{ name, initials, role }}
                    makeEntries={(description, by, reason) => changePerson(person, description, by, reason)}
                    onCancel={close}
                    onDone={close}
                    read={readPerson}
                    title={`Change ${name}`}
                  />
                ),
              },
              {
                name: 'Retire…',
                form: (close) => (
                  <ReasonForm
                    action="Retire"
                    explanation="The name stays beside every record it stands on. It can no longer be chosen."
                    makeEntries={(by, reason) => retire({ kind: 'technologist', id }, by, reason)}
                    onCancel={close}
                    onSaved={close}
                    title={`Retire ${name}`}
                  />
                ),
              },
            ]
      }
      history={history}
      retired={retired}
      rows={[
        { name: 'Initials', value: initials },
        { name: 'Role', value: roleWords[role] },
      ]}
      title={name}
    />
  );
}
