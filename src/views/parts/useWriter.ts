import type { Role } from '../../journal/entries.ts';
import { useLogbook } from '../logbookContext.tsx';
import { usePersonInHand, useSupervisorAsked } from '../screenState.ts';

/**
 * Who writes, and whether they may write what `only` a certain role may: the person in hand, or the supervisor who was
 * asked for what is only theirs. Theirs alone, or the technologist's next run would bear the supervisor's initials.
 */
export function useWriter(only?: Role) {
  const { logbook } = useLogbook();
  const inHand = usePersonInHand();
  const asked = useSupervisorAsked();
  const [id, choose] = only === 'supervisor' ? asked : inHand;
  const person = logbook.technologists.get(id);
  const canWrite =
    person !== undefined && person.retired === null && (only === undefined || person.role === only);
  return { id, canWrite, choose };
}
