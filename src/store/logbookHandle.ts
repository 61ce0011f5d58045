/** What the rest of the program sees of a stored logbook. */
import type * as z from 'zod/mini';

import type { ChainReport } from '../journal/chain.ts';
import type { Entry, EntryDraft } from '../journal/entries.ts';
import type { Logbook } from '../journal/logbook.ts';
import type { OnChecked } from './chainCheck.ts';
import type { MarkKeeper, MissingEntries } from './marker.ts';
import type { Shelf } from './shelf.ts';
import type { StorageProblem } from './storageProblem.ts';

export type LogbookSnapshot =
  | { state: 'loading' }
  | { state: 'failed'; problem: StorageProblem }
  /** The runs are still being read: `logbook` holds people, equipment and each analyzer's newest run, and judges nothing. */
  | { state: 'reading'; logbook: Logbook }
  /**
   * `rawRows`: every stored value in order of arrival, for `checkChains`. `newer`: entries of a later release are stored
   * and nothing is written from here. `damaged`: rows that no schema reads. `missing`: the mark outside the database
   * knows of more than is stored; until that is restored or given up nothing but a restore is written.
   */
  | ({ state: 'ready'; logbook: Logbook; missing: MissingEntries | null } & Shelf);

export interface LogbookHandle {
  readonly name: string;
  /**
   * Gives the drafts their place in this workstation's chain and stores them, all or none. Resolves after the commit,
   * with the snapshot up to date. A draft that is stored already is returned as it is stored, so that a save that
   * failed half-known can be tried again. `onSealed` hears now and then how many have their hash; nothing is stored
   * before all have. Rejects with a StorageProblem, or a ZodError for an impossible draft.
   */
  appendEntries(
    drafts: readonly EntryDraft[],
    onSealed?: (sealed: number) => void,
  ): Promise<readonly Entry[]>;
  /**
   * Stores rows of another journal as they lie there, all or none; what is stored already is passed over. Rows that
   * contradict what is stored are kept beside it. A row of this workstation's own chain that it did not write means that
   * another browser goes on with the same chain: from then on this workstation writes a new one.
   */
  adoptEntries(rows: readonly unknown[]): Promise<{ added: number; alreadyThere: number }>;
  /** Goes on without what is missing, under the initials given. The decision and what it gave up is an entry. */
  giveUpMissing(initials: string): Promise<void>;
  /** Checks every chain of what is stored, without keeping anything else waiting. */
  checkChains(onChecked: OnChecked): Promise<ChainReport>;
  /** Whether the browser keeps the mark outside the database; null where none is kept, as for the demonstration. */
  isMarkKept(): boolean | null;
  subscribe(listener: () => void): () => void;
  getSnapshot(): LogbookSnapshot;
  /** Null when it was never written, or when the schema no longer reads it: settings are a convenience, not a record. */
  readSetting<T>(key: string, schema: z.ZodMiniType<T>): Promise<T | null>;
  writeSetting(key: string, value: unknown): Promise<void>;
  close(): void;
}

export interface LogbookOptions {
  /** Milliseconds since 1970, as Date.now. */
  now?: () => number;
  /** IANA name of the zone that entries are written in. */
  zone?: () => string;
  /** Where the mark of what is stored is kept outside the database; none where left out. */
  marker?: MarkKeeper;
  /** Called after each commit of entries made here. */
  onCommitted?: () => void;
}
