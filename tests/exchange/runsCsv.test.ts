import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { assessRuns } from '../../src/core/index.ts';
import { runColumns } from '../../src/exchange/runColumns.ts';
import { runsToCsv } from '../../src/exchange/runsCsv.ts';
import { chainHeads } from '../../src/journal/chain.ts';
import type { EntryBody, EntryDraft } from '../../src/journal/entries.ts';
import { foldJournal, seriesClosures } from '../../src/journal/fold.ts';
import { analyzerAdded, draft, ids, laboratoryDrafts, runRecorded, sealChain } from '../journal/fixtures.ts';

async function exported(drafts: readonly EntryDraft[], options: { zone?: string; analyzerId?: string } = {}) {
  const { zone = 'Europe/Oslo', ...selection } = options;
  const entries = await sealChain([...laboratoryDrafts(), ...drafts], { zone });
  const logbook = foldJournal(entries);
  const heads = chainHeads(entries);
  const runs = logbook.runs.map(({ simulation }) => simulation);
  return runsToCsv(logbook, assessRuns(runs, { closures: seriesClosures(logbook) }), { heads, ...selection });
}

/** The file as another program reads it: every cell a text. */
function readBack(csv: string): Record<string, string>[] {
  const { data, errors } = Papa.parse<Record<string, string>>(csv.replace(/\r\n$/, ''), { header: true });
  expect(errors).toEqual([]);
  return data;
}

async function rowOf(changes: Partial<EntryBody<'run-recorded'>>, options?: { zone?: string }) {
  const [row] = readBack(await exported([draft('run-recorded', runRecorded(1, changes))], options));
  if (!row) throw new Error('the export has no row');
  return row;
}

function judgedOf({ judged }: EntryBody<'run-recorded'>) {
  if (judged === null) throw new Error('the fixture is a run that was judged');
  return judged;
}

describe('runsToCsv', () => {
  it('has a header of unique snake_case names even without a run', async () => {
    const names = (await exported([])).replace(/\r\n$/, '').split(',');
    expect(names).toEqual(runColumns.map(({ name }) => name));
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^[a-z][a-z0-9]*(_[a-z0-9]+)*$/);
    for (const { meaning } of runColumns) expect(meaning).not.toBe('');
  });

  it('ends every line with CR LF, the last one too, and begins without a byte order mark', async () => {
    const csv = await exported([1, 2, 3].map((number) => draft('run-recorded', runRecorded(number))));
    expect(csv.endsWith('\r\n')).toBe(true);
    expect(csv.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(csv.startsWith('run_id,')).toBe(true);
  });

  it('writes what was read digit for digit and what was computed with six decimals', async () => {
    const row = await rowOf({
      ambient: { temperatureC: 22, barometricMmHg: 760.0021, relativeHumidity: 0.4 },
      pressureAsTyped: { value: 101.325, unit: 'kPa' },
      reading: { vaL: 3.45, vaReportedAs: 'BTPS', dlco: -0.004, dlcoUnit: 'mmol/min/kPa', breathHoldS: 10.2 },
    });
    expect(row).toMatchObject({
      temperature_c: '22',
      pressure_as_typed: '101.325',
      pressure_unit: 'kPa',
      barometric_mmhg: '760.002100',
      relative_humidity_fraction: '0.4',
      reported_va_l: '3.45',
      reported_va_condition: 'BTPS',
      reported_dlco: '-0.004',
      dlco_unit: 'mmol/min/kPa',
      breath_hold_s: '10.2',
      reported_inspired_volume_l: '',
      syringe_dead_space_l: '0.11',
      plunger_start_l: '0',
      conversion_kind: 'computed',
      conversion_assumed_condition: 'ATPD',
    });
    // Dry factor at 22 °C and 760 mmHg: (760 − 47)/310.15 · 295.15/760 = 0.89279, by hand from the gas law.
    expect(Number(row.conversion_factor)).toBeCloseTo((713 / 310.15) * (295.15 / 760), 5);
    expect(row.conversion_factor).toMatch(/^0\.\d{6}$/);
    // 3.45 · 0.89279 = 3.08012 L; less 3 L and the dead space of 110 mL leaves −29.9 mL.
    expect(Number(row.va_off_target_ml)).toBeCloseTo(-29.9, 1);
  });

  it('lets a reader compute z again from value, mean and SD', async () => {
    const series = { n: 20, mean: 3.1171, sd: 0.0357, z: 2.044817927, signals: [] };
    const judged = judgedOf(runRecorded(1));
    const row = await rowOf({ judged: { ...judged, va: { ...series, value: 3.1901 } } });
    const again = (Number(row.va_judged_l) - Number(row.va_mean_l)) / Number(row.va_sd_l);
    expect(Math.abs(again - Number(row.va_z))).toBeLessThan(0.001);
    expect(row.va_n).toBe('20');
  });

  it('never writes an exponent, a locale’s comma or a negative zero', async () => {
    const { reading } = runRecorded(1);
    const judged = judgedOf(runRecorded(1));
    const tiny = { n: 10, mean: -1e-9, sd: 1e-7, z: 12_345_678.9, signals: [] };
    const row = await rowOf({
      reading: { ...reading, dlco: -1.5e-7 },
      judged: { ...judged, dlco: { ...tiny, value: 2.5e22 } },
    });
    expect(row).toMatchObject({
      reported_dlco: '-0.00000015',
      dlco_mean_ml_min_mmhg: '0.000000',
      dlco_sd_ml_min_mmhg: '0.000000',
      dlco_z: '12345678.900000',
      dlco_judged_ml_min_mmhg: '25000000000000000000000',
    });
  });

  it('shows the verdict of the day beside the verdict of now', async () => {
    const judged = judgedOf(runRecorded(1));
    const signals = [
      { rule: '2-2s' as const, severity: 'action' as const },
      { rule: 'EWMA' as const, severity: 'warning' as const },
    ];
    const row = await rowOf({
      judged: { ...judged, word: 'fail', failureOpen: true, va: { ...judged.va, signals } },
    });
    expect(row).toMatchObject({
      verdict: 'fail',
      verdict_recomputed: 'pass',
      failure_open: 'true',
      va_signals: '2-2s EWMA',
      dlco_signals: '',
    });
  });

  it('carries the head of the journal in every row, that of a later entry too', async () => {
    const drafts = [draft('run-recorded', runRecorded(1)), draft('run-recorded', runRecorded(2))];
    const last = draft('run-voided', { runId: ids.run(2), reason: 'Typed twice.' });
    const rows = readBack(await exported([...drafts, last]));
    expect(rows.map(({ seq, chain_head_seq }) => [seq, chain_head_seq])).toEqual([
      ['4', '6'],
      ['5', '6'],
    ]);
    const heads = new Set(rows.map(({ chain_head_hash }) => chain_head_hash));
    expect([...heads]).toEqual([expect.stringMatching(/^[0-9a-f]{64}$/)]);
    expect(heads).not.toContain(rows[1]?.entry_hash);
  });

  it('keeps voided runs, marked with who, when and why', async () => {
    const rows = readBack(
      await exported([
        draft('run-recorded', runRecorded(1)),
        draft('run-voided', { runId: ids.run(1), reason: 'wrong analyzer' }),
        draft('run-recorded', runRecorded(2)),
      ]),
    );
    expect(rows).toMatchObject([
      {
        voided: 'true',
        voided_at: '2026-03-02T09:04:00.000+01:00',
        voided_by: 'IM, Ilse Marong',
        void_reason: 'wrong analyzer',
        verdict: 'pass',
        verdict_recomputed: '',
      },
      { voided: 'false', voided_at: '', voided_by: '', void_reason: '', verdict_recomputed: 'pass' },
    ]);
  });

  it('lists one analyzer, or all, in the order the runs were made', async () => {
    const other = 'analyzer-room-3';
    const drafts = [
      draft('analyzer-added', { ...analyzerAdded, analyzerId: other, label: 'Room 3' }),
      draft('run-recorded', runRecorded(1, { madeAt: '2026-03-02T07:00:00.000Z' })),
      draft('run-recorded', runRecorded(2, { madeAt: '2026-02-23T07:00:00.000Z', analyzerId: other })),
      draft('run-recorded', runRecorded(3, { madeAt: '2026-02-16T07:00:00.000Z' })),
    ];
    const runsIn = async (options: { analyzerId?: string }) =>
      readBack(await exported(drafts, options)).map((row) => row.run_id);
    expect(await runsIn({})).toEqual([3, 2, 1].map(ids.run));
    expect(await runsIn({ analyzerId: other })).toEqual([ids.run(2)]);
  });

  it('carries the hash by which the entry is found in the journal', async () => {
    const logbook = foldJournal(
      await sealChain([...laboratoryDrafts(), draft('run-recorded', runRecorded(1))]),
    );
    const [row] = readBack(runsToCsv(logbook, new Map(), { heads: new Map() }));
    expect(row?.entry_hash).toBe(logbook.runs[0]?.entry.hash);
    expect(row).toMatchObject({ seq: '4', workstation: 'workstation-a', conversion_factor: '' });
  });
});

describe('runsToCsv on times', () => {
  // Offsets in force on the day: IANA time zone database.
  it.each([
    ['Europe/Oslo', '2026-03-28T07:45:00.000Z', '2026-03-28T08:45:00.000+01:00'],
    ['Europe/Oslo', '2026-03-29T07:45:00.000Z', '2026-03-29T09:45:00.000+02:00'],
    ['Asia/Kathmandu', '2026-03-02T07:45:00.000Z', '2026-03-02T13:30:00.000+05:45'],
    ['America/St_Johns', '2026-07-02T01:15:30.250Z', '2026-07-01T22:45:30.250-02:30'],
    ['Pacific/Kiritimati', '2026-12-31T10:00:00.000Z', '2027-01-01T00:00:00.000+14:00'],
    ['UTC', '2026-03-02T07:45:00.000Z', '2026-03-02T07:45:00.000+00:00'],
    ['Nowhere/Unknown', '2026-03-02T07:45:00.000Z', '2026-03-02T07:45:00.000+00:00'],
  ])('writes local time with its offset in %s', async (zone, madeAt, written) => {
    const row = await rowOf({ madeAt }, { zone });
    expect(row.made_at).toBe(written);
    expect(Date.parse(written)).toBe(Date.parse(madeAt));
    expect(row.time_zone).toBe(zone);
  });
});

describe('runsToCsv on texts', () => {
  it.each([
    ['quotes', 'said "3.3", I think'],
    ['commas and semicolons', 'a, b; c'],
    ['line breaks', 'first\nsecond\r\nthird'],
    ['outer spaces', '  kept  '],
    ['right-to-left text and marks', '\u200Fבדיקה\u202E 3.3 L\u202C'],
    ['letters beyond the basic plane', 'µ – ✓ 𝛌'],
    ['a formula character that is not in front', 'valve = worn, +2 mL, a@b'],
    ['a negative number inside', 'about -3 %'],
    ['nothing', ''],
  ])('keeps %s', async (_, comment) => {
    expect((await rowOf({ comment })).comment).toBe(comment);
  });

  it.each(['=HYPERLINK("x")', '+1', '-2+3', '@SUM(A1)', '\t=1', '\r=1'])(
    'puts an apostrophe before what a spreadsheet would run: %j',
    async (comment) => {
      expect((await rowOf({ comment })).comment).toBe(`'${comment}`);
    },
  );

  it('guards every text that somebody has typed, and no number', async () => {
    const csv = await exported([
      draft('analyzer-changed', { ...analyzerAdded, label: '=1+1', serial: '@x', reason: 'renamed' }),
      draft('run-recorded', runRecorded(1, { reading: { ...runRecorded(1).reading, dlco: -0.12 } })),
      draft('run-voided', { runId: ids.run(1), reason: '-typed twice' }),
    ]);
    expect(readBack(csv)).toMatchObject([
      { analyzer: "'=1+1", analyzer_serial: "'@x", void_reason: "'-typed twice", reported_dlco: '-0.12' },
    ]);
  });

  it('puts the replacement character for a NUL, at which many programs stop reading', async () => {
    expect((await rowOf({ comment: 'a\0b' })).comment).toBe('a\uFFFDb');
  });
});
