import { useEffect, useState } from 'react';
import type { EntryOf } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { newestKeyHere } from '../../store/keys.ts';
import { useLogbook } from '../logbookContext.tsx';

/** Every key that a person ever registered, on whatever workstation, oldest first. */
export const keysOf = (logbook: Pick<Logbook, 'keys'>, personId: string) =>
  [...logbook.keys.values()].filter(({ body }) => body.technologistId === personId);

/** The key that a person can sign with on this workstation; null where there is none, undefined while it is looked for. */
export function useKeyHere(personId: string): EntryOf<'key-registered'> | null | undefined {
  const { handle, logbook } = useLogbook();
  const [found, setFound] = useState<{ personId: string; key: EntryOf<'key-registered'> | null } | null>(
    null,
  );
  useEffect(() => {
    let isStale = false;
    newestKeyHere(handle, keysOf(logbook, personId))
      // Where the settings cannot be read, nothing can be written either, and the save says why.
      .catch(() => null)
      .then((key) => {
        if (!isStale) setFound({ personId, key });
      });
    return () => {
      isStale = true;
    };
  }, [handle, logbook, personId]);
  return found?.personId === personId ? found.key : undefined;
}
