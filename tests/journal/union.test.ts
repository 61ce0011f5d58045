import { describe, expect, it } from 'vitest';
import { createRowSet, isSameRow, marksOf, rowText, unionOf } from '../../src/journal/union.ts';

const loop: { self?: unknown } = {};
loop.self = loop;

describe('isSameRow', () => {
  it('does not look at the order of fields, at any depth', () => {
    expect(isSameRow({ a: 1, b: { c: 2, d: 3 } }, { b: { d: 3, c: 2 }, a: 1 })).toBe(true);
  });

  it.each([
    [{ a: 1 }, { a: 2 }],
    [{ a: 1 }, { a: 1, b: null }],
    [{ a: 1 }, { a: '1' }],
    [
      [1, 2],
      [2, 1],
    ],
    [null, {}],
    ['\ud800', '\ufffd'],
  ])('tells %j from %j', (one, other) => {
    expect(isSameRow(one, other)).toBe(false);
  });

  it('knows what has no JSON form by itself only', () => {
    expect(isSameRow(loop, loop)).toBe(true);
    expect(isSameRow(loop, { self: {} })).toBe(false);
    expect(isSameRow(undefined, () => {})).toBe(false);
  });
});

describe('rowText', () => {
  it('is canonical, or as near as a damaged row comes, or null', () => {
    expect(rowText({ b: 1, a: 2 })).toBe('{"a":2,"b":1}');
    expect(rowText({ b: '\ud800', a: 2 })).toBe('{"b":"\\ud800","a":2}');
    expect(rowText(loop)).toBeNull();
  });
});

describe('marksOf', () => {
  it('reads what is there, of any value', () => {
    const none = { id: null, workstation: null, seq: null, hash: null };
    expect(marksOf({ id: 'a', workstation: 'w', seq: 3, hash: 'h' })).toEqual({
      id: 'a',
      workstation: 'w',
      seq: 3,
      hash: 'h',
    });
    for (const value of [null, undefined, 7, 'text', [], { id: 7, seq: '3' }]) {
      expect(marksOf(value)).toEqual(none);
    }
  });
});

describe('unionOf', () => {
  const row = (id: string, seq: number, note = '') => ({ id, workstation: 'w', seq, note });

  it('brings each new row once, in the order it comes, and counts the rest', () => {
    const there = createRowSet([row('a', 1), 'text']);
    const { fresh, alreadyThere, conflicts } = unionOf(there, [
      row('b', 2),
      row('a', 1),
      row('b', 2),
      'text',
    ]);
    expect(fresh).toEqual([row('b', 2)]);
    expect({ alreadyThere, conflicts }).toEqual({ alreadyThere: 3, conflicts: [] });
  });

  it('names what contradicts what is there, and what contradicts a row that comes with it', () => {
    const rows = [row('x', 1), row('a', 1, 'changed'), row('y', 2), row('z', 2)];
    const { fresh, conflicts } = unionOf(createRowSet([row('a', 1)]), rows);
    expect(fresh).toEqual(rows);
    expect(conflicts).toMatchObject([
      { kind: 'place', id: 'x', seq: 1, firstId: 'a' },
      { kind: 'id', id: 'a', seq: 1, firstId: 'a' },
      { kind: 'place', id: 'z', seq: 2, firstId: 'y' },
    ]);
  });

  it('keeps the same number of two workstations apart', () => {
    const there = createRowSet([{ id: 'a', workstation: 'w', seq: 11 }]);
    expect(there.conflictOf({ id: 'b', workstation: 'w1', seq: 1 })).toBeNull();
    expect(there.conflictOf({ id: 'b', workstation: 'w', seq: 12 })).toBeNull();
  });

  it('changes nothing that is there', () => {
    const there = createRowSet([row('a', 1)]);
    unionOf(there, [row('b', 2)]);
    expect(there.has(row('b', 2))).toBe(false);
  });
});
