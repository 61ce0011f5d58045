/** The charts screen on a logbook that is kept in memory. */
import { render } from '@testing-library/react';
import { Router } from 'wouter';
import { memoryLocation } from 'wouter/memory-location';
import type { Entry, EntryDraft } from '../../../src/journal/entries.ts';
import { type LogbookHandle, type LogbookSnapshot, StorageProblem } from '../../../src/store/openLogbook.ts';
import { useChartChoices } from '../../../src/views/charting/chartChoices.ts';
import ChartsScreen from '../../../src/views/charts/chartsScreen.tsx';
import { LogbookProvider } from '../../../src/views/logbookContext.tsx';
import { useScreenState } from '../../../src/views/screenState.ts';
import { analyzerId, entry, opened } from './madeUpLogbook.ts';

/** A logbook in memory. `failing` refuses the next write, as a full disk does. */
function logbookInMemory(first: readonly Entry[]) {
  let entries = [...first];
  let listeners: (() => void)[] = [];
  let snapshot: LogbookSnapshot = ready();
  const control = { failing: false, written: [] as EntryDraft[], release: () => {} };
  function ready(): LogbookSnapshot {
    return {
      state: 'ready',
      logbook: opened(entries).logbook,
      entries,
      rawRows: [],
      newer: null,
      damaged: [],
      missing: null,
    };
  }
  const handle: LogbookHandle = {
    name: 'in-memory',
    appendEntries: async (drafts) => {
      await new Promise<void>((resolve) => {
        control.release = resolve;
      });
      if (control.failing) throw new StorageProblem('quota', 'no space');
      control.written.push(...drafts);
      entries = [...entries, ...drafts.map(({ kind, body, by }) => entry(kind, body, Date.now(), by))];
      snapshot = ready();
      for (const listener of listeners) listener();
      return [];
    },
    giveUpMissing: async () => undefined,
    isMarkKept: () => null,
    checkChains: async () => ({ workstations: [], breaks: [] }),
    adoptEntries: async () => ({ added: 0, alreadyThere: 0 }),
    subscribe: (listener) => {
      listeners = [...listeners, listener];
      return () => {
        listeners = listeners.filter((each) => each !== listener);
      };
    },
    getSnapshot: () => snapshot,
    readSetting: async () => null,
    writeSetting: async () => {},
    close: () => {},
  };
  return { handle, control };
}

export function openAt(path: string, entries: readonly Entry[]) {
  const { handle, control } = logbookInMemory(entries);
  const { hook } = memoryLocation({ path });
  const view = render(
    <Router hook={hook}>
      <LogbookProvider demonstration={false} failed={() => 'failed'} handle={handle} loading="loading">
        <ChartsScreen />
      </LogbookProvider>
    </Router>,
  );
  return { control, view };
}

export const vaPath = `/charts/${analyzerId}/patient-test/va`;

/** Nothing that an earlier test chose is chosen. */
export function forgetChoices() {
  useScreenState.setState(useScreenState.getInitialState());
  useChartChoices.setState(useChartChoices.getInitialState());
}
