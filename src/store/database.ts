/**
 * The browser's database: the journal's entries, which are only ever added, and this workstation's settings.
 */
import Dexie, { type DBCore, type DBCoreTable, type Table } from 'dexie';

/** One stored value with its arrival number: the order in which entries reached this browser, whoever wrote them. */
export interface StoredRow {
  arrival: number;
  /** As it lies in storage. Only a schema says whether it is an entry. */
  value: unknown;
}

interface Setting {
  key: string;
  value: unknown;
}

/** Raise it when tables or indexes change, not for new kinds of entry: those carry a version of their own. */
export const databaseVersion = 1;
const workstationKey = 'workstation';
/** The ids that this workstation wrote under before, oldest first. */
const earlierWorkstationsKey = 'earlier-workstations';
const entriesTable = 'entries';

/** Lets nothing through to the entries but reading and adding, whoever calls and by whatever method of Dexie. */
function addOnly(down: DBCore): DBCore {
  return {
    ...down,
    table(name): DBCoreTable {
      const table = down.table(name);
      if (name !== entriesTable) return table;
      return {
        ...table,
        mutate(request) {
          if (request.type === 'add') return table.mutate(request);
          throw new TypeError(`The journal is only added to: ${request.type} is refused`);
        },
      };
    },
  };
}

export class LogbookDatabase extends Dexie {
  private readonly entries: Table<unknown, number>;
  private readonly settings: Table<Setting, string>;

  constructor(name: string) {
    super(name, {
      // 'strict' waits until the disk has it: a run shown as saved must survive a power cut.
      chromeTransactionDurability: 'strict',
      cache: 'disabled',
    });
    // No index is unique: after a merge two rows may contradict each other, and both are kept. That nothing is stored
    // twice is seen to by `addAfter`, which adds only to what its caller has read.
    this.version(databaseVersion).stores({ [entriesTable]: '++', settings: 'key' });
    this.entries = this.table(entriesTable);
    this.settings = this.table('settings');
    this.use({ stack: 'dbcore', name: 'addOnly', create: addOnly });
  }

  /** The version of the database as it lies in the browser, which a later release may have raised. */
  get storedVersion(): number {
    return Math.floor(this.backendDB().version / 10); // Dexie multiplies by ten
  }

  /** What arrived after `arrival`, in order of arrival, as of one moment: all of it, or the first `most`. */
  rowsAfter(arrival: number, most?: number): Promise<StoredRow[]> {
    return this.transaction('r', this.entries, () => this.readRowsAfter(arrival, most));
  }

  /** What arrived after `arrival` and, as of the same moment, the chain that this browser writes; null while it has none. */
  rowsAndChainAfter(arrival: number): Promise<{ rows: StoredRow[]; workstation: string | null }> {
    return this.transaction('r', [this.entries, this.settings], async () => {
      const [rows, stored] = await Dexie.Promise.all([
        this.readRowsAfter(arrival),
        this.settings.get(workstationKey),
      ]);
      return { rows, workstation: typeof stored?.value === 'string' ? stored.value : null };
    });
  }

  private async readRowsAfter(arrival: number, most?: number): Promise<StoredRow[]> {
    const all = this.entries.where(':id').above(arrival);
    const later = most === undefined ? all : all.limit(most);
    const [arrivals, values] = await Dexie.Promise.all([later.primaryKeys(), later.toArray()]);
    return arrivals.map((key, row) => ({ arrival: key, value: values[row] }));
  }

  /**
   * Adds all rows, or none. False, with nothing written, when something arrived after `arrival` that the caller has
   * not read: its hashes may then continue a chain that has moved on. Resolves after the commit.
   * `nextWorkstation`: the id under which this workstation writes from then on, in the same commit.
   */
  addAfter(
    arrival: number,
    rows: readonly unknown[],
    nextWorkstation: string | null = null,
  ): Promise<boolean> {
    const tables = nextWorkstation === null ? [this.entries] : [this.entries, this.settings];
    // Await nothing but Dexie in here, and catch nothing: the browser commits a transaction that waits for something
    // else, and a caught error would leave half of the rows in.
    return this.transaction('rw', tables, async () => {
      const unread = await this.entries.where(':id').above(arrival).count();
      if (unread > 0) return false;
      await this.entries.bulkAdd(rows);
      if (nextWorkstation !== null) await this.changeWorkstation(nextWorkstation);
      return true;
    });
  }

  /** How many rows are stored, and the last of them; null for an empty journal. As of one moment. */
  journalEnd(): Promise<{ count: number; last: unknown } | null> {
    return this.transaction('r', this.entries, async () => {
      const [count, last] = await Dexie.Promise.all([
        this.entries.count(),
        this.entries.toCollection().last(),
      ]);
      return count === 0 ? null : { count, last };
    });
  }

  private async changeWorkstation(next: string): Promise<void> {
    const [workstation, earlier] = await this.settings.bulkGet([workstationKey, earlierWorkstationsKey]);
    const before = Array.isArray(earlier?.value) ? earlier.value : [];
    await this.settings.put({ key: earlierWorkstationsKey, value: [...before, workstation?.value] });
    await this.settings.put({ key: workstationKey, value: next });
  }

  /** The id of the chain that this browser writes, made when it is first asked for. */
  workstationId(): Promise<string> {
    const fresh = crypto.randomUUID();
    return this.transaction('rw', this.settings, async () => {
      const stored = await this.settings.get(workstationKey);
      if (typeof stored?.value === 'string') return stored.value;
      await this.settings.put({ key: workstationKey, value: fresh });
      return fresh;
    });
  }

  async readSetting(key: string): Promise<unknown> {
    return (await this.settings.get(key))?.value;
  }

  async writeSetting(key: string, value: unknown): Promise<void> {
    if (key === workstationKey || key === earlierWorkstationsKey)
      throw new RangeError(`writeSetting: the key "${key}" is the store's own`);
    await this.settings.put({ key, value });
  }
}
