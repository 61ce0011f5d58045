/** What a large file is read by, held against the plain way of reading: shortcuts may save time and nothing else. */
import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { outlineOf } from '../../src/exchange/importOutline.ts';
import { readImportTable } from '../../src/exchange/importTable.ts';
import { trimmed } from '../../src/exchange/trimmed.ts';

const cell = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.constantFrom('', ' ', '1', '2,5', '2.5', '20260302', '2026-03-02', '3/4/2026', 'AB'),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom('"', '""', 'a"b', '"a', '"a"', '"a,b"', '"a\nb"', '\u00A0x', '\0', '\u2028'),
  },
  {
    weight: 1,
    arbitrary: fc.string({ unit: 'binary', maxLength: 6 }).filter((text) => !/\p{Cs}|[\r\uFEFF]/u.test(text)),
  },
);
const table = fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 8 });

describe('readImportTable', () => {
  it('parts rows and cells as the CSV library parts the whole text at once, and finds the same bad quotes', () => {
    fc.assert(
      fc.property(table, fc.constantFrom('\n', ''), (rows, end) => {
        const text = `date,VA (L)\n${rows.map((cells) => cells.join(',')).join('\n')}${end}`;
        const { data, errors } = Papa.parse<string[]>(text, { delimiter: ',', newline: '\n' });
        const unclosed = errors.find(({ code }) => code === 'MissingQuotes');
        const read = readImportTable(text, ',');
        if (unclosed) {
          const sentence = read.state === 'refused' ? read.sentence : '';
          expect(sentence).toContain(`opens a cell in row ${(unclosed.row ?? 0) + 1} `);
          return;
        }
        const bad = new Set(errors.map(({ row }) => row));
        const expected = data
          .map((cells, index) => ({ row: index + 1, cells, isBroken: bad.has(index) }))
          .filter(({ row, cells }) => row > 1 && cells.some((each) => each.trim() !== ''));
        const found = read.state === 'refused' ? [] : read.table.rows;
        // Below the header a row of units may stand, and a row that is too wide is broken for another reason.
        const skipped = expected.length - found.length;
        expect(skipped).toBeLessThanOrEqual(read.state === 'refused' ? expected.length : 1);
        for (const [index, { row, cells, broken }] of found.entries()) {
          expect({ row, cells }).toEqual({
            row: expected[index + skipped]?.row,
            cells: expected[index + skipped]?.cells,
          });
          if (expected[index + skipped]?.isBroken) expect(broken).toContain('quotation mark');
          else expect(broken ?? '').not.toContain('inside a quoted cell');
        }
      }),
      { numRuns: 2000 },
    );
  });
});

describe('outlineOf', () => {
  it('counts the same whatever row follows which', () => {
    const shuffled = fc
      .array(fc.tuple(cell, cell), { minLength: 2, maxLength: 30 })
      .chain((rows) =>
        fc.tuple(
          fc.constant(rows),
          fc.shuffledSubarray(rows, { minLength: rows.length, maxLength: rows.length }),
        ),
      );
    const countsOf = (rows: readonly (readonly string[])[]) => {
      const found = {
        delimiter: ',',
        delimiterCounts: [],
        header: ['a', 'b'],
        headerRow: 1,
        units: [],
      } as const;
      const { columns } = outlineOf({
        ...found,
        rows: rows.map((cells, index) => ({ row: index + 2, cells, broken: null })),
      });
      return columns.map(({ filled, numbers, dates, middle, names }) => {
        return { filled, numbers, dates, middle, names: names && [...names].sort() };
      });
    };
    fc.assert(
      fc.property(shuffled, ([rows, others]) => {
        expect(countsOf(others)).toEqual(countsOf(rows));
      }),
      { numRuns: 1000 },
    );
  });
});

describe('trimmed', () => {
  it('is what `trim` gives', () => {
    const blank = fc.constantFrom(
      ' ',
      '\t',
      '\n',
      '\r',
      '\v',
      '\f',
      '\u00A0',
      '\u2003',
      '\u2028',
      '\uFEFF',
      '\u200B',
      '\0',
    );
    const text = fc.array(fc.oneof(blank, fc.string({ unit: 'binary', maxLength: 2 })), { maxLength: 6 });
    fc.assert(
      fc.property(text, (parts) => {
        expect(trimmed(parts.join(''))).toBe(parts.join('').trim());
      }),
      { numRuns: 2000 },
    );
  });
});
