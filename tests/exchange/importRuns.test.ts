import { describe, expect, it } from 'vitest';
import { publishedLimits2017 } from '../../src/core/index.ts';
import { importEntries } from '../../src/exchange/importEntries.ts';
import type { ImportJudgement } from '../../src/exchange/importRuns.ts';
import { reasonColumn, refusedRowsToCsv } from '../../src/exchange/refusedRows.ts';
import { type EntryDraft, entrySchema } from '../../src/journal/entries.ts';
import { analyzerAdded, draft, ids, runRecorded, sealChain, technologistAdded } from '../journal/fixtures.ts';
import { judge, knownLaboratory, logbookOf, now, planOf, tableOf } from './importSteps.ts';

const header = 'date,VA (L BTPS),DLCO (mL/min/mmHg),temperature (°C),pressure (mmHg)';
const file = (...rows: string[]) => [header, ...rows].join('\n');
const good = '2026-03-02 08:45,3.45,0.12,22,760';

const only = ({ rows }: ImportJudgement) => {
  const [row, ...others] = rows;
  if (!row || others.length > 0) throw new Error(`${rows.length} rows where one was expected`);
  return row;
};

let made = 0;
const newId = () => `invented-id-${++made}`;
const source = { fileName: 'history.csv', fileHash: 'a'.repeat(64) };
const draftsOf = (judgement: ImportJudgement, taken: readonly string[] = []) =>
  importEntries(judgement, source, { by: ids.supervisor, newId, isTaken: (id) => taken.includes(id) });

describe('judgeImport', () => {
  it('makes of a good row the run that the bench would have recorded', async () => {
    const { run, state, simulatedVaL } = only(judge(file(good), await knownLaboratory()));
    expect(state).toBe('accepted');
    // 8:45 in Oslo in March is 7:45 UTC: IANA time zone database.
    const { runId: _, judged: __, origin: ___, limits: ____, ...typed } = runRecorded(1);
    expect(run).toMatchObject(typed);
    // 3.45 L BTPS dry at 22 °C and 760 mmHg, 110 mL of dead space: 2.970 L, by hand from the gas law.
    expect(simulatedVaL).toBeCloseTo(3.45 * (713 / 310.15) * (295.15 / 760) - 0.11, 6);
  });

  it('judges each row by the limits that were in force when its run was made', async () => {
    const limits = { ...publishedLimits2017, edition: 'House 2026', source: 'Procedure', vaToleranceL: 0.2 };
    const from = '2026-03-05T00:00:00.000Z';
    const adopted = draft('limits-adopted', { adoptionId: 'adoption-1', limits, from, reason: 'Tighter.' });
    const later = good.replace('2026-03-02', '2026-03-09');
    const { rows } = judge(file(good, later), await knownLaboratory([adopted]));
    expect(rows.map(({ run }) => run?.limits)).toEqual([publishedLimits2017, limits]);
  });

  it.each([
    [
      'mL, °F and hPa',
      'date,VA (mL),DLCO (mL/min/mmHg),temp (°F),pressure (hPa)',
      '2026-03-02,3450,0.12,71.6,1013.25',
    ],
    [
      'a decimal comma',
      'date;VA (L);DLCO (mL/min/mmHg);temp (°C);pressure (mmHg)',
      '2026-03-02;3,45;0,12;22,0;760',
    ],
    [
      'units in the cells',
      'date,VA (L),DLCO (mL/min/mmHg),temp (°C),pressure (mmHg)',
      '2026-03-02,3.45 L,0.12,22 °C,760 mmHg',
    ],
    [
      'a fraction of humidity',
      'date,VA (L),DLCO (mL/min/mmHg),temp (°C),pressure (kPa),humidity',
      '2026-03-02,3.45,0.12,22,101.325,0.07',
    ],
  ])('reads %s', async (_what, names, row) => {
    const { run, reasons } = only(judge(`${names}\n${row}`, await knownLaboratory()));
    expect(reasons).toEqual([]);
    expect(run?.reading).toMatchObject({ vaL: 3.45, dlco: 0.12 });
    expect(run?.ambient.temperatureC).toBe(22);
    // 1013.25 hPa is the standard atmosphere, 760 mmHg: NIST SP 811.
    expect(run?.ambient.barometricMmHg).toBeCloseTo(760, 3);
    expect(run?.ambient.relativeHumidity ?? 0.07).toBe(0.07);
  });

  it.each([
    ['2026-03-02,3450,0.12,22,760', /VA: 3450 L cannot be: it looks like mL/],
    ['2026-03-02,34.5,0.12,22,760', /Was 3\.45 meant\?/],
    ['2026-03-02,3.45,,22,760', /DLCO is missing/],
    ['2026-03-02,3.45,<0.5,22,760', /“<0\.5” is not a number: the DLCO was expected/],
    ['2026-03-02,3.45,0.12,72,760', /Temperature: 72 °C cannot be: it looks like °F/],
    ['2026-03-02,3.45,0.12,22,1013', /Barometric pressure: 1013 mmHg cannot be: it looks like hPa/],
    ['2026-03-02,3.45,0.12,22,101 kPa', /“101 kPa” is not the barometric pressure in mmHg/],
    ['2026-02-31,3.45,0.12,22,760', /no day of the calendar/],
    ['03.02.2026,3.45,0.12,22,760', /no date in the order year, month, day/],
    [',3.45,0.12,22,760', /The date is missing/],
    ['2026-03-02,"3,45",0.12,22,760', /has a comma, where the decimal mark of this file is the point/],
    ['2026-03-02,1e1,0.12,22,760', /“1e1” is not/],
    ['2026-03-02,3,45,0.12,22,760', /6 cells where the header has 5/],
  ])('refuses %j with its reason', async (row, reason) => {
    const judged = judge(file(good, row), await knownLaboratory(), { decimalMark: '.', dateOrder: 'YMD' });
    const [, refused] = judged.rows;
    const { state, run, reasons = [] } = refused ?? {};
    expect({ state, run }).toEqual({ state: 'refused', run: null });
    expect(reasons.join(' ')).toMatch(reason);
  });

  it('names all that is wrong with a row at once', async () => {
    const { reasons } = only(judge(file('someday,x,y,z,'), await knownLaboratory()));
    expect(reasons).toHaveLength(5);
  });

  it('reads nothing by a decimal mark or an order that nobody has chosen', async () => {
    const known = await knownLaboratory();
    const row = '02.03.2026,3.45,0.12,22,760';
    expect(only(judge(file(row), known)).reasons.join()).toMatch(/which number is the day/);
    expect(only(judge(file(row), known, { dateOrder: 'MDY' })).run?.madeAt).toBe('2026-02-03T11:00:00.000Z');
    const comma = file(good).replaceAll(',', ';').replaceAll('.', ',');
    const { reasons } = only(judge(comma, known, { decimalMark: null }));
    expect(reasons.join()).toMatch(/the decimal mark has not been chosen/);
  });

  it.each([
    ['a date to come', '2026-07-02 08:45,3.45,0.12,22,760', /still to come/],
    ['a spring hour that there was not', '2026-03-29 02:30,3.45,0.12,22,760', /clocks were put forward/],
  ])('warns of %s', async (_what, row, reason) => {
    const { state, reasons } = only(judge(file(row), await knownLaboratory()));
    expect(state).toBe('warning');
    expect(reasons.join(' ')).toMatch(reason);
  });

  it('warns of a jump in pressure against the run before, in the file or in the logbook', async () => {
    const rows = file(
      '2026-03-23 08:00,3.45,0.12,22,690',
      '2026-03-16 08:00,3.45,0.12,22,755',
      '2026-03-30 08:00,3.45,0.12,22,700',
    );
    const known = await knownLaboratory([draft('run-recorded', runRecorded(1))]);
    const { rows: judged, counts } = judge(rows, known);
    expect(counts).toEqual({ accepted: 2, warning: 1, refused: 0, there: 0 });
    expect(judged[0]?.reasons).toEqual(['The pressure jumps from 755 to 690 mmHg since the run before.']);
    const far = only(judge(file('2026-03-09 08:00,3.45,0.12,22,680'), known));
    expect(far.reasons.join()).toMatch(/jumps from 760 to 680/);
  });

  it('warns of two runs of a series in one minute, both of them', async () => {
    const { rows } = judge(file(good, good.replace('3.45', '3.46')), await knownLaboratory());
    expect(rows.map(({ state }) => state)).toEqual(['warning', 'warning']);
    const known = await knownLaboratory([draft('run-recorded', runRecorded(1))]);
    expect(only(judge(file(good.replace('3.45', '3.46')), known)).reasons.join()).toMatch(/same minute/);
  });

  it('warns of a run after its analyzer was retired, and not of one before', async () => {
    const known = await knownLaboratory([
      draft('analyzer-retired', { analyzerId: ids.analyzer, reason: 'replaced' }),
    ]);
    const { rows } = judge(file(good, good.replace('03-02', '04-02')), known);
    expect(rows.map(({ state }) => state)).toEqual(['accepted', 'warning']);
  });

  it('takes a constant for an empty cell with a warning, and for a column that is not there without one', async () => {
    const known = await knownLaboratory();
    const constants = { pressure: '758' };
    const [, empty] = judge(file(good, '2026-03-09,3.45,0.12,22,'), known, { constants }).rows;
    expect(empty).toMatchObject({ state: 'warning', run: { pressureAsTyped: { value: 758, unit: 'mmHg' } } });
    const table = tableOf('date,VA (L),DLCO (mL/min/mmHg),temp (°C)\n2026-03-02,3.45,0.12,22\n');
    const units = new Map(planOf(table).units).set('pressure', 'kPa');
    const none = judge('date,VA (L),DLCO (mL/min/mmHg),temp (°C)\n2026-03-02,3.45,0.12,22\n', known, {
      units,
      constants: { pressure: '101.3' },
    });
    expect(only(none)).toMatchObject({
      state: 'accepted',
      run: { pressureAsTyped: { value: 101.3, unit: 'kPa' } },
    });
  });

  it('reads either decimal mark in what a person types beside the file, and no cell by another than the file’s', async () => {
    const known = await knownLaboratory();
    const text = 'date,VA (L),DLCO (mL/min/mmHg)\n2026-03-02,3.45,0.12\n';
    // 71.6 °F is 22 °C: (71.6 − 32) / 1.8.
    const units = new Map(planOf(tableOf(text)).units).set('pressure', 'kPa').set('temperature', '°F');
    const constants = {
      pressure: '101,3',
      temperature: '71,6',
      conversion: 'fixed',
      fixedFactor: '0,91',
      syringeDeadSpace: '110,5',
    };
    const expected = {
      pressureAsTyped: { value: 101.3, unit: 'kPa' },
      ambient: { temperatureC: 22 },
      conversion: { kind: 'fixed', factor: 0.91 },
      syringe: { deadSpaceL: 0.1105 },
    };
    const { run } = only(judge(text, known, { units, constants }));
    expect(run).toMatchObject(expected);
    const pointed = Object.entries(constants).map(([name, typed]) => [name, typed.replace(',', '.')]);
    expect(only(judge(text, known, { units, constants: Object.fromEntries(pointed) })).run).toEqual(run);
    const cell = text.replace('3.45', '"3,45"');
    expect(only(judge(cell, known, { units, constants, decimalMark: '.' })).reasons.join()).toMatch(
      /has a comma, where the decimal mark of this file is the point/,
    );
  });

  it('does not take an empty fixed factor for a number', async () => {
    const constants = { conversion: 'fixed', fixedFactor: ' ' };
    expect(only(judge(file(good), await knownLaboratory(), { constants })).reasons.join()).toMatch(
      /fixed factor/,
    );
  });

  it('finds analyzers and people by their labels, and others only where a person has said so', async () => {
    const known = await knownLaboratory([
      draft('analyzer-added', {
        ...analyzerAdded,
        analyzerId: 'analyzer-room-3',
        label: 'Room 3',
        serial: 'SN-3',
      }),
    ]);
    const text = [
      `analyzer,tech,${header}`,
      `room 3,im,${good}`,
      `SN-3,Ilse Marong,${good.replace('03-02', '03-09')}`,
      `the old one,IM,${good}`,
      `Room 3,nobody,${good.replace('03-02', '03-16')}`,
    ].join('\n');
    const before = judge(text, known);
    expect(before.rows.map(({ state }) => state)).toEqual(['accepted', 'accepted', 'refused', 'refused']);
    expect(before.rows[2]?.reasons).toEqual(['“the old one” is not an analyzer of this logbook.']);
    const names = new Map([['analyzer' as const, new Map([['the old one', ids.analyzer]])]]);
    expect(judge(text, known, { names }).rows[2]?.run?.analyzerId).toBe(ids.analyzer);
  });

  it('refuses a name that two of the logbook share', async () => {
    const known = await knownLaboratory([
      draft('technologist-added', {
        ...technologistAdded,
        technologistId: 'technologist-two',
        name: 'Ivo Madsen',
      }),
    ]);
    expect(only(judge(`tech,${header}\nIM,${good}`, known)).state).toBe('refused');
    expect(only(judge(`tech,${header}\nIvo Madsen,${good}`, known)).run?.technologistId).toBe(
      'technologist-two',
    );
  });

  it.each([
    [{ conversion: 'fixed', fixedFactor: '0.91' }, { conversion: { kind: 'fixed', factor: 0.91 } }],
    [{ conversion: 'ATPS' }, { conversion: { kind: 'computed', assumed: 'ATPS' } }],
    [{ vaCondition: 'ATPD' }, { reading: { vaReportedAs: 'ATPD' } }],
    [{ syringeDeadSpace: '150' }, { syringe: { deadSpaceL: 0.15 } }],
    [{ analyzerDeadSpace: '70' }, { analyzerDeadSpaceL: 0.07 }],
    [{ route: 'built-in' }, { route: 'built-in' }],
    [
      {},
      {
        conversion: { kind: 'computed', assumed: 'ATPD' },
        syringe: { deadSpaceL: 0.11 },
        route: 'patient-test',
      },
    ],
  ])('takes for the whole file %o', async (constants, expected) => {
    expect(only(judge(file(good), await knownLaboratory(), { constants })).run).toMatchObject(expected);
  });

  it.each([
    [{ conversion: 'fixed', fixedFactor: 'x' }, /fixed factor chosen/],
    [{ analyzerDeadSpace: '-5' }, /dead space chosen/],
    [{ analyzerDeadSpace: '990', vaCondition: 'ATP' }, /needs the room’s humidity/],
    [{ technologist: '' }, /person who made the run is missing/],
    [{ analyzer: 'nowhere' }, /analyzer is not in this logbook/],
  ])('refuses rows where what was chosen cannot be: %o', async (constants, reason) => {
    expect(only(judge(file(good), await knownLaboratory(), { constants })).reasons.join(' ')).toMatch(reason);
  });

  it('refuses a comment that would have to be cut', async () => {
    const known = await knownLaboratory();
    const withComment = (text: string) => judge(`${header},comment\n${good},${text}`, known);
    expect(only(withComment('x'.repeat(2000))).run?.comment).toHaveLength(2000);
    expect(only(withComment('x'.repeat(2001))).reasons.join()).toMatch(/2001 letters; 2000 are kept/);
  });

  it('judges 100,000 rows in seconds', async () => {
    const start = Date.UTC(1990, 0, 1);
    const rows = Array.from({ length: 100_000 }, (_, index) => {
      const madeAt = new Date(start + index * 3 * 3_600_000).toISOString();
      return `${madeAt},3.${400 + (index % 90)},0.${10 + (index % 9)},22,760`;
    });
    const known = await knownLaboratory();
    const startedAt = performance.now();
    const { counts } = judge(file(...rows), known);
    expect(counts.accepted).toBe(100_000);
    // Some five seconds on one core of a small computer that has other work; a quadratic step would take hours.
    expect(performance.now() - startedAt).toBeLessThan(40_000);
  }, 60_000);
});

describe('a run that is there already', () => {
  it('is known by analyzer, method, route, instant and reported VA and DLCO, and by nothing else', async () => {
    const known = await knownLaboratory([draft('run-recorded', runRecorded(1))]);
    const state = (row: string, names = header) => only(judge(`${names}\n${row}`, known)).state;
    expect(state(good)).toBe('there');
    expect(state('2026-03-02 08:45,3.450,0.120,19,745')).toBe('there');
    expect(state(`${good},another`, `${header},comment`)).toBe('there');
    expect(state(`${good},built-in`, `${header},route`)).not.toBe('there');
    expect(state(good.replace('3.45', '3.46'))).not.toBe('there');
    expect(state(good.replace('0.12', '-0.12'))).not.toBe('there');
    expect(state(good.replace('08:45', '08:46'))).not.toBe('there');
  });

  it('is still there once it was amended, by what it was and by what it is', async () => {
    const { runId: _, origin: __, judged, ...content } = runRecorded(1);
    if (judged === null) throw new Error('the fixture is judged');
    const run = { ...content, reading: { ...content.reading, vaL: 3.41 } };
    const known = await knownLaboratory([
      draft('run-recorded', runRecorded(1)),
      draft('run-amended', { amendmentId: 'amendment-1', runId: ids.run(1), run, judged, reason: 'misread' }),
    ]);
    expect(only(judge(file(good), known)).state).toBe('there');
    expect(only(judge(file(good.replace('3.45', '3.41')), known)).state).toBe('there');
  });

  it('is taken once of two rows in one file', async () => {
    const { rows, counts } = judge(file(good, good), await knownLaboratory());
    expect(counts).toMatchObject({ accepted: 1, there: 1 });
    expect(rows[1]?.reasons).toEqual(['The same run as row 2 of this file: it is taken once.']);
  });

  it('stays out when it was struck out for itself, and can come again when its whole import was', async () => {
    const drafts = await draftsOf(judge(file(good, good.replace('03-02', '03-09')), await knownLaboratory()));
    const [batch] = drafts;
    if (batch?.kind !== 'runs-imported') throw new Error('the batch comes first');
    const voided: EntryDraft[] = [
      ...drafts,
      draft('run-voided', { runId: runIdOf(drafts[1]), reason: 'a practice run' }),
      draft('import-voided', { batchId: batch.body.batchId, reason: 'wrong analyzer' }),
    ];
    const { rows } = judge(file(good, good.replace('03-02', '03-09')), await knownLaboratory(voided));
    expect(rows[0]).toMatchObject({ state: 'there', reasons: [expect.stringContaining('struck out')] });
    expect(rows[1]).toMatchObject({
      state: 'warning',
      reasons: [expect.stringContaining('that import was voided')],
    });
  });
});

const runIdOf = (one: EntryDraft | undefined) => {
  if (one?.kind !== 'run-recorded') throw new Error('no run');
  return one.body.runId;
};

describe('importEntries', () => {
  it('writes one entry for the batch and one for each run, in the order they were made', async () => {
    const rows = file('2026-03-16,3.45,0.12,22,760', 'bad,,,,', '2026-03-02,3.45,0.12,22,760');
    const drafts = await draftsOf(judge(rows, await knownLaboratory()));
    const [batch, ...runs] = await sealChain(drafts);
    expect(batch).toMatchObject({
      kind: 'runs-imported',
      body: { rowsRead: 3, accepted: 2, refused: 1, ...source },
    });
    const batchId = batch?.kind === 'runs-imported' ? batch.body.batchId : '';
    expect(runs.map(({ body }) => body)).toMatchObject([
      { madeAt: '2026-03-02T11:00:00.000Z', origin: { kind: 'import', batchId, row: 4 }, judged: null },
      { madeAt: '2026-03-16T11:00:00.000Z', origin: { kind: 'import', batchId, row: 2 }, judged: null },
    ]);
    for (const entry of runs) expect(entrySchema.safeParse(entry).success).toBe(true);
  });

  // U+1F4C8 is two halves in UTF-16; RFC 8785, section 3.2.2.2, has no canonical form for one alone.
  it.each([
    ['a lone half of a character', 'old\ud83d.csv', 'old\ufffd.csv'],
    ['a character that the cut would halve', `${'x'.repeat(254)}\u{1f4c8}`, `${'x'.repeat(254)}\ufffd`],
  ])('of a file whose name has %s can be hashed', async (_, fileName, kept) => {
    const judgement = judge(file(good), await knownLaboratory());
    const writing = { by: ids.supervisor, newId, isTaken: () => false };
    const [batch] = await sealChain(await importEntries(judgement, { ...source, fileName }, writing));
    expect(batch).toMatchObject({ kind: 'runs-imported', body: { fileName: kept } });
  });

  it('keeps runs of one instant in the order of time when the file has the newest first', async () => {
    const same = (va: string) => `2026-03-02,${va},0.12,22,760`;
    const newestFirst = file(
      '2026-03-09,3.4,0.12,22,760',
      same('3.42'),
      same('3.41'),
      '2026-02-23,3.4,0.12,22,760',
    );
    const drafts = await draftsOf(judge(newestFirst, await knownLaboratory()));
    const read = drafts.flatMap((one) => (one.kind === 'run-recorded' ? [one.body.reading.vaL] : []));
    expect(read).toEqual([3.4, 3.41, 3.42, 3.4]);
  });

  it('gives a run the same id on every workstation, and another one where that is taken', async () => {
    const judgement = judge(file(good), await knownLaboratory());
    const id = runIdOf((await draftsOf(judgement))[1]);
    expect(runIdOf((await draftsOf(judgement))[1])).toBe(id);
    const other = runIdOf((await draftsOf(judgement, [id]))[1]);
    expect(other).not.toBe(id);
    expect(runIdOf((await draftsOf(judgement, [id]))[1])).toBe(other);
  });

  it('adds nothing to a logbook that has the file already', async () => {
    const rows = file(good, good.replace('03-02', '03-09'), 'x,y,z');
    const drafts = await draftsOf(judge(rows, await knownLaboratory()));
    expect((await logbookOf(drafts)).runs).toHaveLength(2);
    const again = judge(rows, await knownLaboratory(drafts));
    expect(again.counts).toEqual({ accepted: 0, warning: 0, refused: 1, there: 2 });
    expect(now).toBeGreaterThan(0);
  });
});

describe('refusedRowsToCsv', () => {
  it('gives the rows back with their reasons, to be read again', async () => {
    const text = `${header},comment\n${good},fine\n=1+1,3.45,-0.12,22,760,@x\n2026-03-09,3.45,0.12,22,760,a,b\n`;
    const known = await knownLaboratory();
    const table = tableOf(text);
    const { rows } = judge(text, known);
    const csv = refusedRowsToCsv(table, rows);
    expect(csv.split('\r\n')[0]).toBe(`${header},comment,row in the file,${reasonColumn}`);
    // What a spreadsheet would run is guarded; a negative number is none.
    expect(csv).toContain("'=1+1,3.45,-0.12,22,760,'@x,3,");
    const again = judge(csv.replace("'=1+1", '2026-03-16'), known);
    expect(again.rows[0]?.run).toMatchObject({ reading: { dlco: -0.12 } });
  });
});
