import type { Role } from '../../journal/entries.ts';
import { PersonField } from './personField.tsx';
import { useWriter } from './useWriter.ts';

/** Who puts their initials to what a form writes: the person in hand, carried from form to form. */
export function WrittenBy({ tried, only }: { tried: boolean; only?: Role | undefined }) {
  const { id, canWrite, choose } = useWriter(only);
  return (
    <PersonField
      error={
        tried && !canWrite
          ? only === 'supervisor'
            ? 'This needs a supervisor.'
            : 'Choose who writes this.'
          : undefined
      }
      label={only === 'supervisor' ? 'Supervisor' : 'Written by'}
      onChoice={choose}
      only={only}
      value={id}
    />
  );
}
