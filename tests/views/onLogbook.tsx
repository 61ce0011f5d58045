/**
 * A view on a real store, and ways to slow its saves down and to let them fail. A test imports `fake-indexeddb/auto`
 * before this: Dexie looks for IndexedDB once, when it is loaded.
 */
import { act, render } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import type { ReactNode } from 'react';
import { afterEach, beforeEach } from 'vitest';
import { Router } from 'wouter';
import { memoryLocation } from 'wouter/memory-location';
import type { EntryDraft } from '../../src/journal/entries.ts';
import { type LogbookHandle, openLogbook, StorageProblem } from '../../src/store/openLogbook.ts';
import { LogbookProvider } from '../../src/views/logbookContext.tsx';
import { useScreenState } from '../../src/views/screenState.ts';
import { ids, laboratoryDrafts, technologistDraft } from './laboratory.ts';

const opened: LogbookHandle[] = [];
let named = 0;

/** What a reload takes with it. */
const freshScreen = useScreenState.getState();
export const forgetScreen = () => useScreenState.setState(freshScreen, true);

beforeEach(forgetScreen);
// Every save and every draft of the form under test reaches the disk before the database goes.
afterEach(async () => {
  for (const handle of opened.splice(0)) {
    await handle.writeSetting('the last', null);
    handle.close();
  }
});

export async function openStore(
  drafts: readonly EntryDraft[] = [],
  name = `view-under-test-${++named}`,
): Promise<LogbookHandle> {
  const handle = openLogbook(name, { zone: () => 'Europe/Oslo' });
  opened.push(handle);
  // Waits until all is read, even where there is nothing to write.
  await handle.adoptEntries([]);
  if (drafts.length > 0) await handle.appendEntries(drafts);
  return handle;
}

/** A laboratory with a supervisor, a technologist, a syringe and an analyzer. */
export const staffed = () => [...laboratoryDrafts(), technologistDraft()];

export function takeInHand(technologistId: string = ids.supervisor) {
  const { benchDraft, setBenchDraft } = useScreenState.getState();
  setBenchDraft({ ...benchDraft, technologistId });
}

export async function show(handle: LogbookHandle, view: ReactNode, path = '/') {
  const location = memoryLocation({ path, record: true });
  const page = render(
    <Router hook={location.hook}>
      <LogbookProvider
        demonstration={false}
        failed={(problem) => problem.message}
        handle={handle}
        loading="loading"
      >
        {view}
      </LogbookProvider>
    </Router>,
  );
  // The form's first act is to read a kept draft: over before anything is typed.
  await act(() => handle.writeSetting('shown', null));
  return { ...page, user: userEvent.setup({ delay: null }), location };
}

export const entriesOf = (
  handle: LogbookHandle,
): { kind: string; by: string; body: Record<string, unknown> }[] => {
  const snapshot = handle.getSnapshot();
  if (snapshot.state !== 'ready') throw new Error(`the logbook is ${snapshot.state}`);
  return snapshot.entries.map(({ kind, by, body }) => ({ kind, by, body: { ...body } }));
};

/** What the store holds once every save that was under way is over, so that "nothing was written" is not "not yet". */
export async function settledEntriesOf(handle: LogbookHandle) {
  await act(() => handle.appendEntries([]));
  return entriesOf(handle);
}

/** The same store, whose saves wait until they are let go. */
export function withSlowSaves(handle: LogbookHandle): LogbookHandle & { letGo: () => void } {
  let letGo = () => {};
  const gate = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  return {
    ...handle,
    letGo: () => letGo(),
    appendEntries: async (drafts) => {
      const entries = await handle.appendEntries(drafts);
      await gate;
      return entries;
    },
  };
}

/**
 * The same store, whose first save is reported as failed: `before` anything was written, or `after` all was, as when
 * the disk answers too late.
 */
export function withOneFailure(handle: LogbookHandle, when: 'before' | 'after'): LogbookHandle {
  let isFirst = true;
  return {
    ...handle,
    appendEntries: async (drafts) => {
      if (!isFirst) return handle.appendEntries(drafts);
      isFirst = false;
      if (when === 'after') await handle.appendEntries(drafts);
      throw new StorageProblem('quota', 'No space left.');
    },
  };
}
