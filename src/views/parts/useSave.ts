import { useRef, useState } from 'react';
import type { EntryDraft } from '../../journal/entries.ts';
import { StorageProblem } from '../../store/openLogbook.ts';
import { useLogbook } from '../logbookContext.tsx';

export type Saving = { state: 'idle' } | { state: 'saving' } | { state: 'failed'; problem: StorageProblem };

/**
 * Writes what a form holds as entries and says how that went. The entries come back only after the commit;
 * `null` means that nothing was written by this call.
 *
 * `typed` is the form's content, value by value: while it is unchanged, a second try writes the very entries of the first. A save
 * whose failure was reported although it had reached the disk is then found there, not doubled.
 */
export function useSave() {
  const { handle } = useLogbook();
  const [saving, setSaving] = useState<Saving>({ state: 'idle' });
  const isWriting = useRef(false);
  const unsaved = useRef<{ typed: readonly unknown[]; entries: readonly EntryDraft[] } | null>(null);

  const save = async (
    typed: readonly unknown[],
    makeEntries: () => readonly EntryDraft[],
  ): Promise<readonly EntryDraft[] | null> => {
    if (isWriting.current) return null;
    if (!unsaved.current || !isSame(unsaved.current.typed, typed)) {
      unsaved.current = { typed, entries: makeEntries() };
    }
    const { entries } = unsaved.current;
    setSaving({ state: 'saving' });
    isWriting.current = true;
    try {
      await handle.appendEntries(entries);
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

function isSame(one: readonly unknown[], other: readonly unknown[]): boolean {
  return one.length === other.length && one.every((value, index) => Object.is(value, other[index]));
}
