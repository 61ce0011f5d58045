import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectRoot } from '../../.scripts/command.mjs';
import { guessColumn } from '../../src/exchange/importFields.ts';
import { outlineOf } from '../../src/exchange/importOutline.ts';
import { missingChoices, proposePlan } from '../../src/exchange/importPlan.ts';
import { readImportTable } from '../../src/exchange/importTable.ts';
import { importLimits, readImportText } from '../../src/exchange/importText.ts';
import { bytesOf, tableOf } from './importSteps.ts';

const sentenceOf = (file: string | Uint8Array) => {
  const text = readImportText(typeof file === 'string' ? bytesOf(file) : file);
  if (text.state === 'refused') return text.sentence;
  const table = readImportTable(text.text);
  return table.state === 'refused' ? table.sentence : null;
};

const utf16 = (text: string, littleEndian: boolean, withMark = true) => {
  const units = [...(withMark ? '\uFEFF' : ''), ...text].map((letter) => letter.charCodeAt(0));
  const bytes = new Uint8Array(units.length * 2);
  const view = new DataView(bytes.buffer);
  for (const [index, unit] of units.entries()) view.setUint16(index * 2, unit, littleEndian);
  return bytes;
};

describe('readImportText', () => {
  const text = 'date,temperature (°C)\n2026-03-02,22\n';

  it.each([
    ['UTF-8', bytesOf(text)],
    ['UTF-16', utf16(text, true)],
    ['UTF-16', utf16(text, false)],
    ['UTF-16', utf16(text, true, false)],
    ['UTF-16', utf16(text, false, false)],
    // In Windows-1252 the degree sign is the one byte B0.
    ['Windows-1252', Uint8Array.from(text, (letter) => letter.charCodeAt(0))],
  ])('reads %s', (encoding, bytes) => {
    expect(readImportText(bytes)).toEqual({ state: 'text', text, encoding });
  });

  it.each([
    ['an empty file', new Uint8Array(), /empty/],
    ['blanks', bytesOf(' \n\t\n'), /blanks/],
    ['a workbook', bytesOf('PK\u0003\u0004rest'), /save the sheet as CSV/],
    [
      'noise',
      Uint8Array.from({ length: 5000 }, (_, index) => ((index * 7919) % 251) & (index % 3 ? 255 : 0)),
      /not a text file/,
    ],
    ['too much', new Uint8Array(importLimits.fileBytes + 1), /51 MB; at most 50 MB/],
  ])('refuses %s in words', (_what, bytes, words) => {
    expect(sentenceOf(bytes)).toMatch(words);
  });
});

describe('readImportTable', () => {
  const header = ['date', 'VA (L)', 'DLCO', 'temperature', 'pressure'];
  const row = ['2026-03-02', '3.4', '0.1', '22', '760'];

  it.each([',', ';', '\t'] as const)('finds %j between the cells and says in how many rows', (delimiter) => {
    const table = tableOf([header, row, row].map((cells) => cells.join(delimiter)).join('\n'));
    expect(table).toMatchObject({ delimiter, header, headerRow: 1, units: [] });
    expect(table.rows.map(({ cells }) => cells)).toEqual([row, row]);
    const count = table.delimiterCounts.find((each) => each.delimiter === delimiter);
    expect(count).toEqual({ delimiter, columns: 5, agreeing: 3, rows: 3 });
  });

  it('is not misled by the commas of decimal numbers', () => {
    const table = tableOf('Datum;VA (L);DLCO\n02.03.2026;3,42;0,11\n09.03.2026;3,40;0,09\n');
    expect(table.delimiter).toBe(';');
    expect(table.rows[0]?.cells).toEqual(['02.03.2026', '3,42', '0,11']);
  });

  it('counts rows as a spreadsheet does: titles, empty rows and line breaks in cells', () => {
    const text =
      'Syringe checks\n\nall rooms,\ndate,VA,DLCO,comment\n,L,mL/min/mmHg,\n2026-03-02,3.4,0.1,"two\nlines"\n\n2026-03-09,3.4,0.1,\n';
    const table = tableOf(text);
    expect(table).toMatchObject({ headerRow: 4, header: ['date', 'VA', 'DLCO', 'comment'] });
    expect(table.units).toEqual(['', 'L', 'mL/min/mmHg', '']);
    expect(table.rows.map(({ row: number }) => number)).toEqual([6, 8]);
    expect(table.rows[0]?.cells[3]).toBe('two\nlines');
  });

  it.each(['\n', '\r\n', '\r'])('takes %j for an end of line, mixed with the others too', (end) => {
    const text = `date,VA${end}2026-03-02,3.4\n2026-03-09,3.5\r\n2026-03-16,3.6\r`;
    expect(tableOf(text).rows.map(({ cells }) => cells[1])).toEqual(['3.4', '3.5', '3.6']);
  });

  it('follows a line that names the delimiter', () => {
    expect(tableOf('sep=;\ndate;VA\n2026-03-02;3,4\n')).toMatchObject({ delimiter: ';', headerRow: 2 });
  });

  it('refuses a row with more cells than there are names', () => {
    const [first] = tableOf('date,VA,DLCO\n02.03.2026,3,42,0,11\n').rows;
    expect(first?.broken).toMatch(/has 5 cells where the header has 3/);
  });

  it.each([
    [
      'a cell that never ends',
      'date,VA\n"2026-03-02,3.4\n2026-03-09,3.5\n',
      /quotation mark opens a cell in row 2/,
    ],
    ['no names', 'only\none\ncolumn\n', /No row with names of columns/],
    ['no rows', 'date,VA,DLCO\n', /no rows/],
    ['thousands of columns', `${'a,'.repeat(5000)}b\n1,2\n`, /5001 columns; at most 250/],
  ])('refuses %s in words', (_what, text, words) => {
    expect(sentenceOf(text)).toMatch(words);
  });

  it('replaces half a character, of which no hash can be made', () => {
    const read = readImportTable('date,comment\n2026-03-02,\uD800\n');
    expect(read.state === 'table' && read.table.rows[0]?.cells[1]).toBe('\uFFFD');
  });
});

describe('guessColumn', () => {
  it.each([
    ['VA (L BTPS)', { field: 'va', unit: 'L', condition: 'BTPS' }],
    ['VA [mL]', { field: 'va', unit: 'mL' }],
    ['Alveolar Volume, L', { field: 'va', unit: 'L' }],
    ['reported_va_l', { field: 'va', unit: 'L' }],
    ['DLCO (ml/min/mm Hg)', { field: 'dlco', unit: 'mL/min/mmHg' }],
    ['TLCO [mmol·min⁻¹·kPa⁻¹]', { field: 'dlco', unit: 'mmol/min/kPa' }],
    ['TLCO (mmol/(min*kPa))', { field: 'dlco', unit: 'mmol/min/kPa' }],
    ['Room temp (°F)', { field: 'temperature', unit: '°F' }],
    ['temperature_c', { field: 'temperature', unit: '°C' }],
    ['Barometric Pressure [mmHg]', { field: 'pressure', unit: 'mmHg' }],
    ['Luftdruck in hPa', { field: 'pressure', unit: 'hPa' }],
    ['PB (mbar)', { field: 'pressure', unit: 'hPa' }],
    ['Datum', { field: 'madeAt', unit: null }],
    ['Test date', { field: 'madeAt' }],
    ['RH %', { field: 'humidity', unit: '%' }],
    ['Breath-hold time (s)', { field: 'breathHold', unit: 's' }],
    ['VI (L)', { field: 'inspiredVolume' }],
    ['Device', { field: 'analyzer' }],
    ['Tested by', { field: 'technologist' }],
    ['\u200FVA\u202C (L)', { field: 'va', unit: 'L' }],
    // Not what the analyzer reported, and not taken for it.
    ['Simulated VA', { field: null }],
    ['VA % predicted', { field: null }],
    ['KCO', { field: null }],
    ['VA (kPa)', { field: 'va', unit: null }],
    ['__proto__', { field: null, unit: null, condition: null }],
    ['constructor', { field: null }],
    ['', { field: null }],
  ])('takes %j for %o', (name, expected) => {
    expect(guessColumn(name)).toMatchObject(expected);
  });

  it('reads the unit from the row below the names', () => {
    expect(guessColumn('VA', 'mL')).toMatchObject({ field: 'va', unit: 'mL' });
  });
});

describe('proposePlan', () => {
  const propose = (text: string) => {
    const outline = outlineOf(tableOf(text));
    return { outline, ...proposePlan(outline) };
  };

  it.each([
    ['13.01.2026\n02.03.2026', 'DMY'],
    ['01/13/2026\n03/02/2026', 'MDY'],
    ['2026-01-13\n2026-03-02', 'YMD'],
    ['02.03.2026\n09.03.2026', null],
    ['13.01.2026\n01/13/2026', null],
    ['2026-01-13\n02.03.2026', null],
  ])('proposes for the dates %j the order %s', (dates, order) => {
    expect(propose(`date,x\n${dates.replaceAll('\n', ',\n')},`).plan.dateOrder).toBe(order);
  });

  it.each([
    ['3.42', '3.40', '.'],
    ['3,42', '3,40', ','],
    ['3.42', '3,40', null],
    ['3420', '3400', '.'],
  ])('proposes for %s and %s the decimal mark %j', (one, other, mark) => {
    expect(propose(`date;VA\n2026-01-13;${one}\n2026-01-20;${other}\n`).plan.decimalMark).toBe(mark);
  });

  it('proposes units by the numbers only where one unit fits, and says so', () => {
    const { plan, unitSources } = propose(
      'date,VA,DLCO,temperature,pressure\n2026-01-13,3420,0.1,71.6,758\n2026-01-20,3400,0.1,72,756\n',
    );
    expect(Object.fromEntries(plan.units)).toEqual({ va: 'mL', temperature: '°F' });
    expect(unitSources.get('va')).toBe('values');
  });

  it('names what a person has to choose', () => {
    const { plan, outline } = propose('date,VA,DLCO,temperature,pressure\n02.03.2026,3.4,0.1,22,758\n');
    expect(missingChoices(plan, outline)).toEqual([
      { of: 'dateOrder' },
      { of: 'field', field: 'analyzer' },
      { of: 'field', field: 'technologist' },
      { of: 'unit', field: 'dlco' },
      { of: 'unit', field: 'pressure' },
    ]);
  });

  it('takes the first of two columns that could be one field and names the other', () => {
    const { plan, rivals } = propose('date,VA (L),VA (mL),DLCO\n2026-03-02,3.4,3400,0.1\n');
    expect(plan.columns.get('va')).toBe(1);
    expect(rivals.get('va')).toEqual(['VA (mL)']);
  });
});

describe('the template and the example', () => {
  const text = (name: string) => readFileSync(path.join(projectRoot, 'public', name), 'utf8');

  it('have only columns that are recognised, in units that are', () => {
    for (const name of ['import-template.csv', 'import-example.csv']) {
      const filled = name.includes('template') ? `${text(name)}${'x,'.repeat(14)}x\n` : text(name);
      const { header, units } = tableOf(filled);
      for (const [index, column] of header.entries()) {
        expect(guessColumn(column, units[index]).field, `${name}: ${column}`).not.toBeNull();
      }
    }
  });

  it('are described column by column', () => {
    const [names = ''] = text('import-template.csv').split('\r\n');
    const described = text('import-template.md').matchAll(/^\| ([a-zA-Z -]+) \| (?!needed)/gm);
    expect([...described].map(([, name]) => name)).toEqual(expect.arrayContaining(names.split(',')));
  });
});
