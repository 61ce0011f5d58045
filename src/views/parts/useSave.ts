import { useRef, useState } from 'react';
import type { EntryDraft } from '../../journal/entries.ts';
import { StorageProblem } from '../../store/openLogbook.ts';
import { useLogbook } from '../logbookContext.tsx';

export type Saving = { state: 'idle' } | { state: 'saving' } | { state: 'failed'; problem: StorageProblem };

type MadeEntries = readonly EntryDraft[] | null;

/**
 * Writes what a form holds as entries and says how that went. The entries come back only after the commit;
 * `null` means that nothing was written by this call.
 *
 * `typed` is the form's content, value by value: while it is unchanged, a second try writes the very entries of the first. A save
 * whose failure was reported although it had reached the disk is then found there, not doubled.
 *
 * `makeEntries` gives null where it finds that nothing may be written, as with a wrong passphrase; it says why itself.
 */
export function useSave() {
  const { handle } = useLogbook();
  const [saving, setSaving] = useState<Saving>({ state: 'idle' });
  const isWriting = useRef(false);
  const unsaved = useRef<{ typed: readonly unknown[]; entries: readonly EntryDraft[] } | null>(null);

  const save = async (
    typed: readonly unknown[],
    makeEntries: () => MadeEntries | Promise<MadeEntries>,
    onSealed?: (sealed: number) => void,
  ): Promise<readonly EntryDraft[] | null> => {
    if (isWriting.current) return null;
    setSaving({ state: 'saving' });
    isWriting.current = true;
    let entries: readonly EntryDraft[];
    try {
      if (!unsaved.current || !isSame(unsaved.current.typed, typed)) {
        const made = await makeEntries();
        if (made === null) {
          setSaving({ state: 'idle' });
          return null;
        }
        unsaved.current = { typed, entries: made };
      }
      ({ entries } = unsaved.current);
      await handle.appendEntries(entries, onSealed);
    } catch (error) {
      setSaving({ state: 'failed', problem: StorageProblem.from(error) });
      return null;
    } finally {
      isWriting.current = false;
    }
    unsaved.current = null;
    setSaving({ state: 'idle' });
    return entries;
  };
  return { saving, save };
}

/** Whether two contents of a form are the same, value by value. */
export function isSame(one: readonly unknown[], other: readonly unknown[]): boolean {
  return one.length === other.length && one.every((value, index) => Object.is(value, other[index]));
}
