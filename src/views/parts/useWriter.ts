import type { Role } from '../../journal/entries.ts';
import { useLogbook } from '../logbookContext.tsx';
import { usePersonInHand } from '../screenState.ts';

/** The person in hand, and whether they may write what `only` a certain role may. */
export function useWriter(only?: Role) {
  const { logbook } = useLogbook();
  const [id, choose] = usePersonInHand();
  const person = logbook.technologists.get(id);
  const canWrite =
    person !== undefined && person.retired === null && (only === undefined || person.role === only);
  return { id, canWrite, choose };
}
