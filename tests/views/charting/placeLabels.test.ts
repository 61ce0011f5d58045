import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  estimatedWidth,
  placeFlags,
  placeInRows,
  placeLabels,
  spreadApart,
} from '../../../src/views/charting/placeLabels.ts';

const paper = { left: 0, right: 400, top: 0, bottom: 300 };

describe('placeLabels', () => {
  it('stands above or below its point as wished, without a leader', () => {
    const [above, below] = placeLabels(
      [
        { key: 'a', x: 100, y: 150, text: '1-3s', side: 'above' },
        { key: 'b', x: 300, y: 150, text: '1-2s', side: 'below' },
      ],
      paper,
    );
    expect(above?.y).toBeLessThan(150);
    expect(below?.y).toBeGreaterThan(150);
    expect([above?.leader, below?.leader]).toEqual([null, null]);
  });

  it('moves further out, with a leader, where another word stands already', () => {
    const wish = { x: 100, y: 150, text: '1-3s', side: 'above' as const };
    const [first, second] = placeLabels(
      [
        { key: 'a', ...wish },
        { key: 'b', ...wish },
      ],
      paper,
    );
    expect(second?.y).toBe((first?.y ?? 0) - 15);
    expect(second?.leader).toMatchObject({ x: 100 });
  });

  it('stays on the paper at its edges', () => {
    const [label] = placeLabels([{ key: 'a', x: 398, y: 5, text: '1-3s 2-2s', side: 'above' }], paper);
    expect(label?.x).toBe(400 - estimatedWidth('1-3s 2-2s') / 2);
    expect(label?.y).toBeGreaterThan(5);
  });

  it('gives way entirely where there is no room', () => {
    const wall = { left: 0, right: 400, top: 0, bottom: 300 };
    expect(placeLabels([{ key: 'a', x: 100, y: 150, text: '1-3s', side: 'above' }], paper, [wall])).toEqual(
      [],
    );
  });

  it('never lets two words overlap', () => {
    const wish = fc.record({ x: fc.integer({ min: 0, max: 400 }), y: fc.integer({ min: 0, max: 300 }) });
    fc.assert(
      fc.property(fc.array(wish, { maxLength: 25 }), (points) => {
        const placed = placeLabels(
          points.map((point, index) => ({
            key: String(index),
            ...point,
            text: '1-3s',
            side: 'above' as const,
          })),
          paper,
        );
        for (const [index, one] of placed.entries()) {
          for (const other of placed.slice(index + 1)) {
            const apart =
              Math.abs(one.x - other.x) >= estimatedWidth('1-3s') || Math.abs(one.y - other.y) >= 15;
            expect(apart).toBe(true);
          }
        }
      }),
    );
  });
});

describe('placeInRows', () => {
  it('uses the next row where the word before is still in the way, and leaves out what fits in none', () => {
    const wishes = [10, 20, 30, 200].map((x, index) => ({ key: String(index), x, text: 'new baseline' }));
    expect(placeInRows(wishes, { rows: 2, right: 400 }).map(({ key, row }) => [key, row])).toEqual([
      ['0', 0],
      ['1', 1],
      ['3', 0],
    ]);
  });
});

describe('placeFlags', () => {
  it('hangs the earlier of two close flags lower, so that its pole crosses no word', () => {
    const flags = placeFlags(
      [
        { key: 'early', x: 100, text: 'Cylinder' },
        { key: 'late', x: 120, text: 'Sensor' },
      ],
      { rows: 2, right: 400 },
    );
    expect(flags.map(({ key, row }) => [key, row])).toEqual([
      ['late', 0],
      ['early', 1],
    ]);
  });

  it('keeps every flag, and drops a word that fits in no row', () => {
    const flags = placeFlags(
      [100, 105, 110].map((x) => ({ key: String(x), x, text: 'Cylinder' })),
      { rows: 2, right: 400 },
    );
    expect(flags).toHaveLength(3);
    expect(flags.find(({ key }) => key === '100')?.text).toBe('');
  });
});

describe('spreadApart', () => {
  it('keeps order and distance between top and bottom', () => {
    const spread = spreadApart([{ y: 100 }, { y: 96 }, { y: 290 }, { y: 299 }], {
      height: 30,
      top: 0,
      bottom: 300,
    });
    expect(spread.map(({ y }) => y)).toEqual([96, 126, 255, 285]);
  });

  it('leaves alone what is apart already', () => {
    expect(spreadApart([{ y: 50 }, { y: 150 }], { height: 30, top: 0, bottom: 300 })).toEqual([
      { y: 50 },
      { y: 150 },
    ]);
  });
});
