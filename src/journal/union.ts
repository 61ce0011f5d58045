/**
 * The union of journals: which rows are the same, and which contradict each other. A row is what lies in a journal, with
 * or without a schema that reads it: a damaged or newer one goes along like any other. Nothing is ever chosen between:
 * of two rows that contradict each other both are kept.
 */
import canonicalize from 'canonicalize';

/** Why a new row contradicts what was there before it. */
export interface RowConflict {
  /** `id`: another content under the same id. `place`: another entry with the same number in the same chain. */
  kind: 'id' | 'place';
  id: string | null;
  workstation: string | null;
  seq: number | null;
  /** Id of what was there first; null where that has none. */
  firstId: string | null;
}

/** The fields by which a row is found again, read without a schema. */
export interface RowMarks {
  id: string | null;
  workstation: string | null;
  seq: number | null;
  hash: string | null;
}

const textOrNull = (value: unknown) => (typeof value === 'string' ? value : null);

export function marksOf(row: unknown): RowMarks {
  const fields: { id?: unknown; workstation?: unknown; seq?: unknown; hash?: unknown } =
    typeof row === 'object' && row !== null ? row : {};
  return {
    id: textOrNull(fields.id),
    workstation: textOrNull(fields.workstation),
    seq: typeof fields.seq === 'number' ? fields.seq : null,
    hash: textOrNull(fields.hash),
  };
}

/** Canonical JSON, or as near to it as a damaged row comes; null for what JSON cannot hold at all. */
export function rowText(row: unknown): string | null {
  for (const write of [canonicalize, JSON.stringify]) {
    try {
      const text = write(row);
      if (text !== undefined) return text;
    } catch {
      // A lone surrogate has no canonical form, a loop of references no form at all.
    }
  }
  return null;
}

/** Rows of one origin keep the order of their fields: the quick answer is nearly always enough. */
function hasSameText(one: unknown, other: unknown): boolean {
  try {
    const text = JSON.stringify(one);
    return text !== undefined && text === JSON.stringify(other);
  } catch {
    return false;
  }
}

/** Whether two rows say the same, in whatever order their fields stand. */
export function isSameRow(one: unknown, other: unknown): boolean {
  if (one === other || hasSameText(one, other)) return true;
  const text = rowText(one);
  return text !== null && text === rowText(other);
}

const placeOf = (workstation: string, seq: number) => JSON.stringify([workstation, seq]);

export interface RowSet {
  has(row: unknown): boolean;
  /** Every row with this id, the first to arrive first. */
  withId(id: string): readonly unknown[];
  /** What a row that is not in the set contradicts in it; null when it goes well with all. */
  conflictOf(row: unknown): RowConflict | null;
  add(row: unknown): void;
}

export function createRowSet(rows: readonly unknown[] = []): RowSet {
  const byId = new Map<string, readonly unknown[]>();
  const withoutId = new Set<string>();
  const firstAtPlace = new Map<string, string | null>();
  const withId = (id: string) => byId.get(id) ?? [];

  function add(row: unknown): void {
    const { id, workstation, seq } = marksOf(row);
    if (id !== null) byId.set(id, [...withId(id), row]);
    else withoutId.add(rowText(row) ?? '');
    if (workstation === null || seq === null) return;
    const place = placeOf(workstation, seq);
    if (!firstAtPlace.has(place)) firstAtPlace.set(place, id);
  }

  for (const row of rows) add(row);
  return {
    has: (row) => {
      const { id } = marksOf(row);
      if (id !== null) return withId(id).some((other) => isSameRow(other, row));
      const text = rowText(row);
      return text !== null && withoutId.has(text);
    },
    withId,
    conflictOf: (row) => {
      const { id, workstation, seq } = marksOf(row);
      if (id !== null && byId.has(id)) return { kind: 'id', id, workstation, seq, firstId: id };
      if (workstation === null || seq === null) return null;
      const firstId = firstAtPlace.get(placeOf(workstation, seq));
      return firstId === undefined ? null : { kind: 'place', id, workstation, seq, firstId };
    },
    add,
  };
}

export interface RowUnion {
  /** The rows that are not there yet, each once, in the order they came. */
  fresh: readonly unknown[];
  alreadyThere: number;
  conflicts: readonly RowConflict[];
}

/** What adding `rows` to what is there would bring. Nothing is changed. */
export function unionOf(there: RowSet, rows: readonly unknown[]): RowUnion {
  const taken = createRowSet();
  const fresh: unknown[] = [];
  const conflicts: RowConflict[] = [];
  for (const row of rows) {
    if (there.has(row) || taken.has(row)) continue;
    const conflict = there.conflictOf(row) ?? taken.conflictOf(row);
    if (conflict) conflicts.push(conflict);
    taken.add(row);
    fresh.push(row);
  }
  return { fresh, alreadyThere: rows.length - fresh.length, conflicts };
}
