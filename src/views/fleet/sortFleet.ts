/** The rows by one of the columns; what the column does not tell apart stays in the order of what needs attention. */
import { type FleetRow, severities } from './buildFleet.ts';

export const fleetColumns = ['analyzer', 'verdict', 'z', 'drift', 'failure', 'last', 'due'] as const;
export type FleetColumn = (typeof fleetColumns)[number];

export interface Sorting {
  column: FleetColumn;
  direction: 'ascending' | 'descending';
}

/** In which direction what is most remarkable comes first. */
export const remarkableFirst: Record<FleetColumn, Sorting['direction']> = {
  analyzer: 'ascending',
  verdict: 'ascending',
  z: 'descending',
  drift: 'descending',
  failure: 'ascending',
  last: 'descending',
  due: 'ascending',
};

/** The first press sorts with the most remarkable first, the next turns round. */
export function nextSorting(column: FleetColumn, now: Sorting | null): Sorting {
  if (now?.column !== column) return { column, direction: remarkableFirst[column] };
  return { column, direction: now.direction === 'ascending' ? 'descending' : 'ascending' };
}

export function sortFleet(rows: readonly FleetRow[], sorting: Sorting | null): readonly FleetRow[] {
  if (sorting === null) return rows;
  const key = keys[sorting.column];
  const turn = sorting.direction === 'ascending' ? 1 : -1;
  return rows
    .map((row) => ({ row, key: key(row) }))
    .sort((one, other) => {
      // What has none comes last in both directions.
      if (one.key === null || other.key === null)
        return Number(one.key === null) - Number(other.key === null);
      return turn * compare(one.key, other.key);
    })
    .map(({ row }) => row);
}

const keys: Record<FleetColumn, (row: FleetRow) => number | string | null> = {
  analyzer: ({ analyzer }) => analyzer,
  verdict: ({ series }) => (series === null ? null : severities.indexOf(series.mark)),
  z: ({ series }) => (series?.z == null ? null : Math.abs(series.z)),
  drift: ({ series }) => (series?.drift.sd == null ? null : Math.abs(series.drift.sd)),
  failure: ({ series }) => series?.failure?.at ?? null,
  last: ({ series }) => series?.last.days ?? null,
  due: ({ due }) => due.on,
};

/** Room 2 before Room 10. */
const byName = new Intl.Collator('en', { numeric: true });

function compare(one: number | string, other: number | string): number {
  if (typeof one === 'number' && typeof other === 'number') return one - other;
  return byName.compare(String(one), String(other));
}
