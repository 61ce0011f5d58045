import { TZDate } from '@date-fns/tz';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computedNumber, recordedNumber, textCell, timeCell } from '../../src/exchange/csvCells.ts';

const zones = [...Intl.supportedValuesOf('timeZone'), 'UTC', '+05:45', 'Atlantis/Capital', ''];
const dayMs = 86_400_000;

/** What the date library itself makes of an instant, one at a time. */
function byTheLibrary(instant: string, zone: string): string {
  const local = new TZDate(Date.parse(instant), zone);
  return Number.isNaN(local.getTime()) ? instant.replace(/Z$/, '+00:00') : local.toISOString();
}

describe('timeCell', () => {
  it('writes the hours around a change of the clocks by the rules of the day', () => {
    // Central European time ended its summer on 26 October 2025 at 01:00 UTC (EU directive 2000/84/EC, article 3).
    expect(timeCell('2025-10-26T00:59:59.999Z', 'Europe/Oslo')).toBe('2025-10-26T02:59:59.999+02:00');
    expect(timeCell('2025-10-26T01:00:00.000Z', 'Europe/Oslo')).toBe('2025-10-26T02:00:00.000+01:00');
    // Lord Howe Island puts its clocks by half an hour: on 5 April 2026 at 15:00 UTC of the day before (tz database 2025b).
    expect(timeCell('2026-04-04T14:59:00.000Z', 'Australia/Lord_Howe')).toBe('2026-04-05T01:59:00.000+11:00');
    expect(timeCell('2026-04-04T15:00:00.000Z', 'Australia/Lord_Howe')).toBe('2026-04-05T01:30:00.000+10:30');
    // St. John's changed a minute after midnight until 2011: on 13 March 2011 at 03:31 UTC (tz database 2025b).
    expect(timeCell('2011-03-13T03:30:59.000Z', 'America/St_Johns')).toBe('2011-03-13T00:00:59.000-03:30');
    expect(timeCell('2011-03-13T03:31:00.000Z', 'America/St_Johns')).toBe('2011-03-13T01:01:00.000-02:30');
  });

  it('says the instant in UTC where the zone is unknown, and an instant that is none as it stands', () => {
    expect(timeCell('2026-03-02T08:45:00.000Z', 'Atlantis/Capital')).toBe('2026-03-02T08:45:00.000+00:00');
    expect(timeCell('no instant', 'Europe/Oslo')).toBe('no instant');
  });

  it('is what the date library says, in every zone', () => {
    const first = Date.UTC(1970, 0, 1);
    const last = Date.UTC(2040, 0, 1);
    // Neighbouring instants fall on one day, whose answer is asked for once.
    const near = fc.tuple(
      fc.integer({ min: first / dayMs, max: last / dayMs }),
      fc.array(fc.integer({ min: -dayMs, max: 2 * dayMs }), { minLength: 4, maxLength: 12 }),
    );
    fc.assert(
      fc.property(fc.constantFrom(...zones), near, (zone, [day, distances]) => {
        for (const distance of distances) {
          const instant = new Date(day * dayMs + distance).toISOString();
          expect(timeCell(instant, zone)).toBe(byTheLibrary(instant, zone));
        }
      }),
      { numRuns: 1500 },
    );
  });

  it('is what the date library says at every hour of a year in which the clocks change', () => {
    const wrong: string[] = [];
    for (const zone of ['Europe/Oslo', 'America/St_Johns', 'Australia/Lord_Howe', 'Africa/Casablanca']) {
      for (let hour = 0; hour < 365 * 24; hour += 1) {
        const instant = new Date(Date.UTC(2011, 0, 1, hour, 31)).toISOString();
        wrong.push(
          ...(timeCell(instant, zone) === byTheLibrary(instant, zone) ? [] : [`${instant} ${zone}`]),
        );
      }
    }
    expect(wrong).toEqual([]);
  });

  it('is what the date library says in years that no run was made in', () => {
    for (const year of ['0001', '1850', '1900', '1969', '1972', '1973', '9999', '+010000', '-000001']) {
      for (const day of ['-01-01T00:00:00.000Z', '-12-31T23:59:59.999Z']) {
        for (const zone of [
          'UTC',
          'Africa/Monrovia',
          'Europe/Amsterdam',
          'Pacific/Kiritimati',
          'Pacific/Pago_Pago',
        ]) {
          expect(timeCell(year + day, zone)).toBe(byTheLibrary(year + day, zone));
        }
      }
    }
  });
});

describe('recordedNumber', () => {
  it('writes the number and no other, without an exponent', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const text = recordedNumber(value);
        expect(text).toMatch(/^-?\d+(\.\d+)?$/);
        expect(Number(text)).toBe(value === 0 ? 0 : value);
      }),
      { numRuns: 2000 },
    );
  });

  it('moves the point to where an exponent says, by hand', () => {
    expect([1.5e-7, -1.5e-7, 1e21, 2.5e22].map(recordedNumber)).toEqual([
      '0.00000015',
      '-0.00000015',
      '1000000000000000000000',
      '25000000000000000000000',
    ]);
  });

  it('writes what is infinite or no number as Table Schema has it, and nothing where there is none', () => {
    // Table Schema, "number": NaN, INF and -INF.
    expect([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY].map(recordedNumber)).toEqual([
      'NaN',
      'INF',
      '-INF',
    ]);
    expect([recordedNumber(undefined), recordedNumber(null)]).toEqual(['', '']);
  });
});

describe('computedNumber', () => {
  it('has six decimals and is within half of the sixth of the number', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e9, max: 1e9, noNaN: true }), (value) => {
        const text = computedNumber(value);
        expect(text).toMatch(/^-?\d+\.\d{6}$/);
        // Half a unit of the sixth decimal, and what a double of this size cannot tell apart.
        expect(Math.abs(Number(text) - value)).toBeLessThanOrEqual(0.5e-6 + Math.abs(value) * 2 ** -52);
      }),
      { numRuns: 2000 },
    );
  });

  it('has no negative zero and no exponent', () => {
    expect(computedNumber(-0)).toBe('0.000000');
    expect(computedNumber(-4e-7)).toBe('0.000000');
    expect(computedNumber(-5.1e-7)).toBe('-0.000001');
    expect(computedNumber(-2.5e22)).toBe('-25000000000000000000000');
    expect(computedNumber(undefined)).toBe('');
  });
});

describe('textCell', () => {
  it('puts an apostrophe before what a spreadsheet would run, and leaves every other text as it is', () => {
    for (const start of ['=', '+', '-', '@', '\t', '\r']) expect(textCell(`${start}1`)).toBe(`'${start}1`);
    for (const text of ['', 'a=1', ' =1', '1-1', "'=1"]) expect(textCell(text)).toBe(text);
  });

  it('writes the replacement character for every NUL', () => {
    expect(textCell('\0a\0')).toBe('\uFFFDa\uFFFD');
    expect(textCell('=\0')).toBe("'=\uFFFD");
  });
});
