import { describe, expect, it } from 'vitest';
import type { FleetRow } from '../../../src/views/fleet/buildFleet.ts';
import {
  type fleetColumns,
  nextSorting,
  remarkableFirst,
  sortFleet,
} from '../../../src/views/fleet/sortFleet.ts';

interface Sketch {
  mark?: 'pass' | 'warn' | 'fail' | 'establishing';
  z?: number | null;
  drift?: number | null;
  failedAt?: number;
  days?: number;
  on?: string | null;
}

function row(analyzer: string, sketch: Sketch | null): FleetRow {
  const { mark = 'pass', z = null, drift = null, failedAt, days = 0, on = null } = sketch ?? {};
  return {
    key: analyzer,
    analyzer,
    due: { words: '', isUrgent: false, on },
    series:
      sketch === null
        ? null
        : {
            name: 'VA, patient test',
            chartHref: '',
            noticeHref: '',
            sparkline: {
              line: '',
              points: [],
              band: { top: 0, bottom: 0 },
              edges: { top: 0, bottom: 0 },
              middleY: 0,
              description: '',
            },
            mark,
            markWord: '',
            z,
            zWords: '',
            drift: { words: '', size: '', sd: drift, hasMoved: false },
            failure: failedAt === undefined ? null : { since: '', at: failedAt, href: '' },
            last: { words: '', days, href: '' },
          },
  };
}

const rows = Object.freeze([
  row('Room 10', { mark: 'pass', z: -2.4, drift: 0.1, days: 1, on: '2026-03-20' }),
  row('Room 2', { mark: 'fail', z: 0.3, drift: -1.2, failedAt: 200, days: 9, on: '2026-03-12' }),
  row('Room 4', null),
  row('Room 3', { mark: 'warn', z: null, drift: null, failedAt: 100, days: 1, on: null }),
]);

const order = (column: (typeof fleetColumns)[number], turned = false) => {
  const direction = remarkableFirst[column];
  const other = direction === 'ascending' ? 'descending' : 'ascending';
  return sortFleet(rows, { column, direction: turned ? other : direction }).map(({ key }) => key.slice(5));
};

describe('sortFleet', () => {
  it('keeps the order of what needs attention while no column is asked for', () => {
    expect(sortFleet(rows, null)).toBe(rows);
  });

  it.each([
    ['analyzer', ['2', '3', '4', '10']],
    ['verdict', ['2', '3', '10', '4']],
    ['z', ['10', '2', '4', '3']],
    ['drift', ['2', '10', '4', '3']],
    ['failure', ['3', '2', '10', '4']],
    ['last', ['2', '10', '3', '4']],
    ['due', ['2', '10', '4', '3']],
  ] as const)('by %s puts the most remarkable first and what has none last', (column, expected) => {
    expect(order(column)).toEqual(expected);
  });

  it('turned round still has last what has none', () => {
    expect(order('z', true)).toEqual(['2', '10', '4', '3']);
    expect(order('last', true)).toEqual(['10', '3', '2', '4']);
  });
});

describe('nextSorting', () => {
  it('begins with the most remarkable, and turns round at the next press', () => {
    const first = nextSorting('z', null);
    expect(first).toEqual({ column: 'z', direction: 'descending' });
    expect(nextSorting('z', first)).toEqual({ column: 'z', direction: 'ascending' });
    expect(nextSorting('due', first)).toEqual({ column: 'due', direction: 'ascending' });
  });
});
