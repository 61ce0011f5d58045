import type { ReactNode } from 'react';
import type { Role } from '../../journal/entries.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField } from './field.tsx';

/**
 * Who does it, from the people in use; `only` narrows it to supervisors where only they may. `keep` may be chosen as
 * well, though retired by now: whoever made an old run goes on having made it.
 */
export function PersonField({
  label,
  value,
  onChoice,
  error,
  only,
  keep,
  ...frame
}: {
  label: string;
  value: string;
  onChoice: (technologistId: string) => void;
  error?: ReactNode;
  only?: Role | undefined;
  keep?: string | undefined;
  beside?: ReactNode;
  isTakenOver?: boolean;
  'data-field'?: string;
}) {
  const { logbook } = useLogbook();
  const people = [...logbook.technologists.values()].filter(
    ({ id, retired, role }) => id === keep || (retired === null && (only === undefined || role === only)),
  );
  return (
    <ChoiceField
      {...frame}
      choices={people.map(({ id, initials, name }) => ({ value: id, label: `${initials}  ${name}` }))}
      error={error}
      hint={people.length === 0 ? `Nobody to choose: add a ${only ?? 'person'} under Equipment.` : undefined}
      label={label}
      onChoice={onChoice}
      value={people.some(({ id }) => id === value) ? value : ''}
    />
  );
}
