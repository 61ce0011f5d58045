import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { csvLine } from '../../src/exchange/csvLine.ts';

/** Whatever a cell can hold, with what matters to a reader of CSV far more often than chance would have it. */
const piece = fc.constantFrom(
  ',',
  '"',
  '""',
  '\r',
  '\n',
  '\r\n',
  ' ',
  '\t',
  ';',
  '\uFEFF',
  '\0',
  "'=1",
  'é',
  '\uD83D',
);
const cell = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 8 }),
  fc.array(fc.oneof(piece, fc.string({ maxLength: 3 })), { maxLength: 5 }).map((pieces) => pieces.join('')),
);
const table = fc.array(fc.array(cell, { minLength: 2, maxLength: 6 }), { minLength: 1, maxLength: 6 });

describe('csvLine', () => {
  it('quotes as RFC 4180 has it: section 2, rules 5 to 7', () => {
    expect(csvLine(['aaa', 'b CR LF \r\nbb', 'ccc'])).toBe('aaa,"b CR LF \r\nbb",ccc\r\n');
    expect(csvLine(['aaa', 'b"bb', 'c,c'])).toBe('aaa,"b""bb","c,c"\r\n');
    expect(csvLine(['', 'b b', ''])).toBe(',b b,\r\n');
  });

  it('keeps blanks at the ends and a byte order mark from being cut off', () => {
    expect(csvLine([' a', 'a ', '\uFEFFa'])).toBe('" a","a ","\uFEFFa"\r\n');
  });

  it('writes any table to the letter as the CSV library writes it', () => {
    fc.assert(
      fc.property(table, (rows) => {
        expect(rows.map(csvLine).join('')).toBe(`${Papa.unparse(rows, { newline: '\r\n' })}\r\n`);
      }),
      { numRuns: 2000 },
    );
  });

  it('is read back by the CSV library as what was written', () => {
    fc.assert(
      fc.property(table, (rows) => {
        const { data, errors } = Papa.parse(rows.map(csvLine).join('').slice(0, -2), {
          delimiter: ',',
          newline: '\r\n',
        });
        expect(errors).toEqual([]);
        expect(data).toEqual(rows);
      }),
      { numRuns: 500 },
    );
  });
});
