import type { ReactNode } from 'react';
import type { Role } from '../../journal/entries.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField } from './field.tsx';

/** Who does it, from the people in use; `only` narrows it to supervisors where only they may. */
export function PersonField({
  label,
  value,
  onChoice,
  error,
  only,
}: {
  label: string;
  value: string;
  onChoice: (technologistId: string) => void;
  error?: ReactNode;
  only?: Role | undefined;
}) {
  const { logbook } = useLogbook();
  const people = [...logbook.technologists.values()].filter(
    (person) => person.retired === null && (only === undefined || person.role === only),
  );
  return (
    <ChoiceField
      choices={people.map(({ id, initials, name }) => ({ value: id, label: `${initials}  ${name}` }))}
      error={error}
      hint={people.length === 0 ? 'Nobody to choose: add a person under Equipment.' : undefined}
      label={label}
      onChoice={onChoice}
      value={people.some(({ id }) => id === value) ? value : ''}
    />
  );
}
