import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addressOf,
  afterMove,
  dragged,
  fitted,
  gripAt,
  lastMonths,
  moveOfKey,
  readAddress,
  type Span,
  shownOf,
  type WindowMove,
  zoomed,
} from '../../../src/views/charting/chartWindow.ts';

const day = 86_400_000;
const local = (year: number, month: number, dayOfMonth: number) =>
  new Date(year, month - 1, dayOfMonth).getTime();
const whole: Span = { from: local(2025, 1, 1), to: local(2026, 1, 1) };
const march: Span = { from: local(2025, 3, 1), to: local(2025, 4, 1) };
const moves: readonly WindowMove[] = ['closer', 'wider', 'earlier', 'later', 'first', 'last', 'all'];

describe('the part of the time that is shown', () => {
  it('stays within the whole and two weeks long at least, whatever is done to it', () => {
    const step = fc.oneof(
      fc.constantFrom(...moves).map((move) => (shown: Span | null) => afterMove(move, shown, whole)),
      fc
        .tuple(
          fc.constantFrom('from' as const, 'to' as const, 'whole' as const, 'new' as const),
          fc.integer({ min: whole.from, max: whole.to }),
          fc.integer({ min: whole.from, max: whole.to }),
        )
        .map(
          ([grip, began, now]) =>
            (shown: Span | null) =>
              dragged(grip, began, now, shown, whole),
        ),
    );
    fc.assert(
      fc.property(fc.array(step, { maxLength: 20 }), (steps) => {
        let shown: Span | null = null;
        for (const take of steps) {
          shown = take(shown);
          if (shown === null) continue;
          // A millisecond for sums of fractions.
          expect(shown.from).toBeGreaterThanOrEqual(whole.from - 1);
          expect(shown.to).toBeLessThanOrEqual(whole.to + 1);
          expect(shown.to - shown.from).toBeGreaterThanOrEqual(14 * day - 1);
        }
      }),
    );
  });

  it('is all of it where nothing would be left out', () => {
    expect(fitted({ from: whole.from - day, to: whole.to + day }, whole)).toBeNull();
    expect(zoomed(march, whole, 100)).toBeNull();
    expect(lastMonths(whole, 12)).toBeNull();
    expect(lastMonths(march, 3)).toBeNull();
  });

  it('ends with the last hour there is, though the address names its whole day', () => {
    const untilNoon = { from: whole.from, to: local(2025, 4, 1) + day / 2 };
    expect(shownOf({ from: march.from, to: local(2025, 4, 2) }, untilNoon)).toEqual({
      from: march.from,
      to: untilNoon.to,
    });
    expect(shownOf({ from: whole.to + day, to: whole.to + 99 * day }, whole)).toBeNull();
    expect(shownOf(null, whole)).toBeNull();
  });

  it('is the last three months by the calendar', () => {
    expect(lastMonths(whole, 3)).toEqual({ from: local(2025, 10, 1), to: whole.to });
  });

  it('halves around its middle and doubles back', () => {
    const closer = afterMove('closer', march, whole);
    expect(closer && closer.to - closer.from).toBe((march.to - march.from) / 2);
    expect(afterMove('wider', closer, whole)).toEqual(march);
  });

  it('goes to both ends with its length kept', () => {
    const length = march.to - march.from;
    expect(afterMove('first', march, whole)).toEqual({ from: whole.from, to: whole.from + length });
    expect(afterMove('last', march, whole)).toEqual({ from: whole.to - length, to: whole.to });
    expect(afterMove('earlier', null, whole)).toBeNull();
  });

  it('has a key for every move', () => {
    expect(new Set(Object.values(moveOfKey))).toEqual(new Set(moves));
  });
});

describe('a hand on the strip', () => {
  it('takes the edge it is near to, else the window it is in, else draws a new one', () => {
    expect(gripAt(march.from + day, march, 2 * day)).toBe('from');
    expect(gripAt(march.to - day, march, 2 * day)).toBe('to');
    expect(gripAt(march.from + 10 * day, march, 2 * day)).toBe('whole');
    expect(gripAt(march.to + 10 * day, march, 2 * day)).toBe('new');
    expect(gripAt(march.from, null, 2 * day)).toBe('new');
  });

  it('draws leftwards as well as rightwards', () => {
    const [one, other] = [local(2025, 5, 1), local(2025, 7, 1)];
    expect(dragged('new', one, other, null, whole)).toEqual({ from: one, to: other });
    expect(dragged('new', other, one, march, whole)).toEqual({ from: one, to: other });
  });

  it('moves one edge and leaves the other', () => {
    expect(dragged('to', march.to, local(2025, 6, 1), march, whole)).toEqual({
      from: march.from,
      to: local(2025, 6, 1),
    });
  });
});

describe('the address of a part of the time', () => {
  const path = '/charts/analyzer-one/patient-test/va';

  it('names whole days and is read back', () => {
    const address = addressOf(path, march);
    expect(address).toBe(`${path}/between/2025-03-01/2025-03-31`);
    expect(readAddress(address)).toEqual({ path, days: march });
  });

  it('is the bare one for all of the time', () => {
    expect(addressOf(path, null)).toBe(path);
    expect(readAddress(path)).toEqual({ path, days: null });
  });

  it('shows all where its days cannot be', () => {
    for (const days of ['2025-13-45/2025-14-01', '2025-04-01/2025-03-01']) {
      expect(readAddress(`${path}/between/${days}`)).toEqual({ path, days: null });
    }
  });
});
