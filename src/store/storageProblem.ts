import Dexie from 'dexie';
import { messageOf } from './messageOf.ts';

export type StorageProblemReason =
  /** No space left. */
  | 'quota'
  /** Another tab still holds an older form of the database. */
  | 'blocked'
  /** The browser gives no storage, took it away, or the page is not allowed to hash. */
  | 'unavailable'
  /** A later release has written here, or is opening the database now: reload to get it. */
  | 'newer-version'
  /** What was to be written contradicts what is stored, or other tabs kept writing first. */
  | 'conflict'
  /** The mark outside the database knows of entries that are gone: restore them or give them up first. */
  | 'missing-entries'
  | 'unknown';

/** Why nothing could be read or written, for a screen to explain. `message` has the particulars. */
export class StorageProblem extends Error {
  override readonly name = 'StorageProblem';
  readonly reason: StorageProblemReason;

  constructor(reason: StorageProblemReason, message: string, options?: ErrorOptions) {
    super(message, options);
    this.reason = reason;
  }

  static from(error: unknown): StorageProblem {
    if (error instanceof StorageProblem) return error;
    const message = messageOf(error);
    for (const name of causeNames(error)) {
      const reason = reasonByName[name];
      if (reason) return new StorageProblem(reason, message, { cause: error });
    }
    return new StorageProblem('unknown', message, { cause: error });
  }
}

const reasonByName: Readonly<Record<string, StorageProblemReason | undefined>> = {
  [Dexie.errnames.QuotaExceeded]: 'quota',
  [Dexie.errnames.Version]: 'newer-version',
  [Dexie.errnames.Constraint]: 'conflict',
  [Dexie.errnames.DatabaseClosed]: 'unavailable',
  [Dexie.errnames.MissingAPI]: 'unavailable',
  [Dexie.errnames.OpenFailed]: 'unavailable',
  [Dexie.errnames.InvalidState]: 'unavailable',
  SecurityError: 'unavailable', // a browser that refuses site data throws this on open
};

/** Innermost first: a full disk reaches us as an AbortError or a BulkError around the real cause. */
function causeNames(error: unknown): string[] {
  const names: string[] = [];
  let current: unknown = error;
  for (let depth = 0; depth < 5 && current instanceof Error; depth++) {
    names.unshift(current.name);
    const { inner, failures } = current as { inner?: unknown; failures?: unknown };
    current = inner ?? (Array.isArray(failures) ? failures[0] : undefined);
  }
  return names;
}
