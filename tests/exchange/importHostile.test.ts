import fc from 'fast-check';
import Papa from 'papaparse';
import { beforeAll, describe, expect, it } from 'vitest';
import { publishedLimits2017, reduceRun } from '../../src/core/index.ts';
import { importEntries } from '../../src/exchange/importEntries.ts';
import { type KnownLogbook, knownFrom } from '../../src/exchange/importKnown.ts';
import { outlineOf } from '../../src/exchange/importOutline.ts';
import { type ImportConstants, type ImportPlan, proposePlan } from '../../src/exchange/importPlan.ts';
import { type ImportJudgement, judgeImport, rowStates } from '../../src/exchange/importRuns.ts';
import { readImportTable } from '../../src/exchange/importTable.ts';
import { readImportText } from '../../src/exchange/importText.ts';
import { refusedRowsToCsv } from '../../src/exchange/refusedRows.ts';
import { sealEntry } from '../../src/journal/chain.ts';
import { readMeasured } from '../../src/views/runForm/readMeasured.ts';
import { ids } from '../journal/fixtures.ts';
import { bytesOf, knownLaboratory, logbookOf, now } from './importSteps.ts';

/** Ten thousand with ENDURANCE=1, a tenth of them in an ordinary run. */
const isEndurance = process.env.ENDURANCE === '1';
const inputs = isEndurance ? 10_000 : 1000;
const timeout = isEndurance ? 600_000 : 60_000;

let known: KnownLogbook;
beforeAll(async () => {
  known = await knownLaboratory();
});

/** What a cell of somebody's spreadsheet, or of somebody's malice, may hold. */
const nasty = fc.oneof(
  fc.constantFrom(
    '',
    ' ',
    '\0',
    '\uFEFF',
    '"',
    '""',
    '"""',
    "'",
    '\t',
    '\r',
    '\n',
    '\r\n',
    ',',
    ';',
    '=1+1',
    '=cmd|calc',
    '@SUM(A1)',
    '+1',
    '-2',
    '\u202E3.4\u202C',
    '\u200F',
    '__proto__',
    'constructor',
    'toString',
    'hasOwnProperty',
    '<script>',
    'NaN',
    'Infinity',
    '-Infinity',
    '1e999',
    '-0',
    '0',
    '0x10',
    '1_000',
    '3.4.5',
    '3,4,5',
    '٣٫٤',
    '½',
    '𝟛',
    '1.7976931348623157e308',
    '9'.repeat(400),
    '2026-03-02',
    '02.03.2026',
    '2026-13-45',
    '0000-00-00',
    '3.45',
    '3,45',
    '22',
    '760',
    '101.3',
    'null',
    'undefined',
    'true',
    '\uD800',
    '\u2028',
    'é'.normalize('NFD'),
  ),
  fc.string({ unit: 'binary', maxLength: 12 }),
  fc.double().map(String),
  fc.date().map(String),
);

const headerCell = fc.oneof(
  fc.constantFrom(
    'date',
    'Date',
    'date',
    'time',
    'VA (L)',
    'VA',
    'VA [mL]',
    'DLCO (mL/min/mmHg)',
    'TLCO (mmol/min/kPa)',
    'DLCO',
    'temp (°C)',
    'temp',
    'temp (°F)',
    'pressure',
    'pressure (hPa)',
    'PB (kPa)',
    'RH',
    'analyzer',
    'tech',
    'route',
    'comment',
    '__proto__',
    'constructor',
    'VI (L)',
    'BHT (s)',
    'volume check',
    'condition',
    'va condition',
    'run_id',
    'made_at',
    'voided',
  ),
  nasty,
);

/** Rows that could nearly be good: a hostile cell among honest ones finds more than noise does. */
const honest: Record<string, string> = {
  date: '2026-03-02 08:15',
  'VA (L)': '3.45',
  'DLCO (mL/min/mmHg)': '0.12',
  'temp (°C)': '22',
  'pressure (mmHg)': '760',
  comment: 'fine',
};
const nearlyGood = fc
  .record({
    delimiter: fc.constantFrom(',', ';', '\t'),
    rows: fc.array(
      fc.record({
        at: fc.nat({ max: 8 }),
        cell: nasty,
        quoted: fc.boolean(),
        day: fc.integer({ min: 1, max: 28 }),
      }),
      { minLength: 1, maxLength: 8 },
    ),
    ends: fc.array(fc.constantFrom('\n', '\r\n', '\r'), { minLength: 1, maxLength: 3 }),
  })
  .map(({ delimiter, rows, ends }) => {
    const lines = rows.map(({ at, cell, quoted, day }) =>
      Object.values(honest)
        .map((value, index) => {
          if (index === at) return quoted ? `"${cell.replaceAll('"', '""')}"` : cell;
          return index === 0 ? value.replace('03-02', `03-${String(day).padStart(2, '0')}`) : value;
        })
        .join(delimiter),
    );
    const all = [Object.keys(honest).join(delimiter), ...lines];
    return all.map((line, index) => line + (ends[index % ends.length] ?? '\n')).join('');
  });

const table = fc
  .record({
    delimiter: fc.constantFrom(',', ';', '\t', '|'),
    header: fc.array(headerCell, { maxLength: 12 }),
    rows: fc.array(fc.array(nasty, { maxLength: 14 }), { maxLength: 8 }),
    end: fc.constantFrom('\n', '\r\n', '\r', '\n\r'),
    front: fc.constantFrom('', '\uFEFF', 'sep=;\n', '\0', 'A title\n\n'),
  })
  .map(
    ({ delimiter, header, rows, end, front }) =>
      front + [header, ...rows].map((cells) => cells.join(delimiter)).join(end),
  );

const wide = (text: string) => {
  const bytes = new Uint8Array(text.length * 2 + 2);
  const view = new DataView(bytes.buffer);
  view.setUint16(0, 0xfeff, true);
  for (let index = 0; index < text.length; index++)
    view.setUint16(index * 2 + 2, text.charCodeAt(index), true);
  return bytes;
};

const file = fc.oneof(
  { weight: 5, arbitrary: nearlyGood.map(bytesOf) },
  { weight: 4, arbitrary: table.map(bytesOf) },
  { weight: 1, arbitrary: table.map(wide) },
  { weight: 1, arbitrary: fc.uint8Array({ maxLength: 300 }) },
  {
    weight: 1,
    arbitrary: nearlyGood.map((text) => Uint8Array.from(text, (letter) => letter.charCodeAt(0) & 255)),
  },
);

/** What a person might choose: all of it sensible, or none. */
interface Choices extends Partial<Omit<ImportConstants, 'analyzer' | 'technologist'>> {
  decimalMark: ImportPlan['decimalMark'];
  dateOrder: ImportPlan['dateOrder'];
  isGuessTaken: boolean;
}

const anyChoices: fc.Arbitrary<Choices> = fc.record({
  decimalMark: fc.constantFrom<ImportPlan['decimalMark']>('.', ',', null),
  dateOrder: fc.constantFrom<ImportPlan['dateOrder']>('DMY', 'MDY', 'YMD', null),
  temperature: fc.oneof(fc.constant(''), fc.constant('22'), nasty),
  pressure: fc.oneof(fc.constant(''), fc.constant('760'), nasty),
  conversion: fc.constantFrom('', 'ATPD', 'ATPS', 'fixed', 'nonsense'),
  fixedFactor: fc.oneof(fc.constant('0.91'), nasty),
  syringeDeadSpace: fc.oneof(fc.constant(''), nasty),
  analyzerDeadSpace: fc.oneof(fc.constant(''), nasty),
  vaCondition: fc.constantFrom('', 'BTPS', 'ATP', 'STPD', 'constructor'),
  isGuessTaken: fc.boolean(),
});

const choices = fc.oneof(
  { weight: 1, arbitrary: anyChoices },
  {
    weight: 2,
    arbitrary: anyChoices.map(({ decimalMark, dateOrder, isGuessTaken }) => ({
      decimalMark,
      dateOrder,
      isGuessTaken,
    })),
  },
);

function importAll(bytes: Uint8Array, chosen: Choices) {
  const text = readImportText(bytes);
  if (text.state === 'refused') return text.sentence;
  const read = readImportTable(text.text);
  if (read.state === 'refused') return read.sentence;
  const { plan } = proposePlan(outlineOf(read.table));
  const { decimalMark, dateOrder, isGuessTaken, ...constants } = chosen;
  const judgement = judgeImport(
    read.table,
    {
      ...plan,
      ...(isGuessTaken ? {} : { decimalMark, dateOrder }),
      constants: { ...plan.constants, ...constants, analyzer: ids.analyzer, technologist: ids.supervisor },
    },
    known,
    readMeasured,
  );
  return { table: read.table, judgement };
}

async function draftsOf(judgement: ImportJudgement) {
  let made = 0;
  return importEntries(
    judgement,
    { fileName: 'hostile.csv', fileHash: 'c'.repeat(64) },
    { by: ids.supervisor, newId: () => `invented-id-${++made}`, isTaken: () => false },
  );
}

describe('a hostile file', () => {
  it(
    `gives a message or a clean import, ${inputs} times`,
    async () => {
      let clean = 0;
      let refused = 0;
      await fc.assert(
        fc.asyncProperty(file, choices, async (bytes, chosen) => {
          const outcome = importAll(bytes, chosen);
          if (typeof outcome === 'string') {
            refused += 1;
            expect(outcome).toMatch(/^\S.{8,400}\.$/su);
            return;
          }
          const { judgement, table: rows } = outcome;
          expect(rowStates.reduce((sum, state) => sum + judgement.counts[state], 0)).toBe(rows.rows.length);
          for (const { state, reasons, run } of judgement.rows) {
            expect(run === null).toBe(state === 'refused');
            if (state === 'refused') expect(reasons.length).toBeGreaterThan(0);
            for (const reason of reasons) expect(reason.length).toBeLessThan(700);
            if (run) expect(Number.isFinite(reduceRun(run).simulatedVaL)).toBe(true);
          }
          // No cell of the file of refused rows is a formula.
          const csv = refusedRowsToCsv(rows, judgement.rows);
          for (const cell of Papa.parse<string[]>(csv, { delimiter: rows.delimiter }).data.flat()) {
            if (!/^[+\-−]?[\d.,]+$/.test(cell.trim())) expect(cell).not.toMatch(/^[=+\-@\t\r]/);
          }
          const { accepted, warning } = judgement.counts;
          if (accepted + warning === 0) return;
          clean += 1;
          // Sealed as the store does it: what the schemas or the hash cannot take would throw.
          let prev = '';
          for (const [index, draft] of (await draftsOf(judgement)).entries()) {
            const place = {
              workstation: 'workstation-a',
              seq: index + 1,
              prev,
              at: '2026-06-01T00:00:00.000Z',
              zone: 'UTC',
            };
            ({ hash: prev } = await sealEntry(draft, place));
          }
        }),
        { numRuns: inputs, seed: 20_170_103 },
      );
      // A generator that made only noise, or only good files, would prove nothing.
      expect(clean).toBeGreaterThan(inputs / 10);
      expect(refused).toBeGreaterThan(inputs / 50);
    },
    timeout,
  );

  it.each([
    ['one cell of 10 MB', `date,VA,DLCO\n2026-03-02,${'x'.repeat(10_000_000)},0.1\n`],
    ['a quoted cell of 10 MB', `date,VA,DLCO,comment\n2026-03-02,3.4,0.1,"${'a\n'.repeat(5_000_000)}"\n`],
    ['a name of 10 MB', `date,VA,${'D'.repeat(10_000_000)}\n2026-03-02,3.4,0.1\n`],
    ['10 MB of digits', `date,VA,DLCO\n${'1'.repeat(10_000_000)},3.4,0.1\n`],
    ['10 MB of quotes', `date,VA,DLCO\n${'"'.repeat(10_000_000)},3.4,0.1\n`],
    ['10 MB of delimiters', `date,VA,DLCO\n${','.repeat(10_000_000)}\n`],
    ['10 MB of line ends', `date,VA,DLCO\n${'\r\n'.repeat(5_000_000)}2026-03-02,3.4,0.1\n`],
    ['fifty thousand columns', `${Array.from({ length: 50_000 }, (_, index) => `c${index}`).join()}\n1,2\n`],
  ])(
    'of %s is answered in time',
    (_what, text) => {
      const startedAt = performance.now();
      const outcome = importAll(bytesOf(text), { decimalMark: '.', dateOrder: 'DMY', isGuessTaken: true });
      if (typeof outcome !== 'string') expect(outcome.judgement.counts.accepted).toBe(0);
      // A second or so; a pattern that tries again from every letter would take years.
      expect(performance.now() - startedAt).toBeLessThan(15_000);
    },
    30_000,
  );

  it('leaves Object as it was, whatever its columns and names are called', async () => {
    const text =
      '__proto__,constructor,analyzer,date,VA (L),DLCO (mL/min/mmHg)\nx,y,__proto__,2026-03-02,3.4,0.1\n';
    const before = Object.getOwnPropertyNames(Object.prototype);
    importAll(bytesOf(text), { decimalMark: '.', dateOrder: 'YMD', isGuessTaken: true });
    expect(Object.getOwnPropertyNames(Object.prototype)).toEqual(before);
    expect({}).not.toHaveProperty('x');
    const logbook = await logbookOf();
    expect(knownFrom(logbook, { now, zone: 'UTC', limits: publishedLimits2017 }).presence.size).toBe(0);
  });
});
