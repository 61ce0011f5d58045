import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assessRuns, publishedLimits2017 } from '../../src/core/index.ts';
import { attachedCell, readAttachedCell } from '../../src/exchange/attachedCell.ts';
import { importEntries } from '../../src/exchange/importEntries.ts';
import { knownFrom } from '../../src/exchange/importKnown.ts';
import { outlineOf } from '../../src/exchange/importOutline.ts';
import { proposePlan } from '../../src/exchange/importPlan.ts';
import { judgeImport } from '../../src/exchange/importRuns.ts';
import { runsToCsv } from '../../src/exchange/runsCsv.ts';
import { chainHeads } from '../../src/journal/chain.ts';
import type { EntryBody, EntryDraft } from '../../src/journal/entries.ts';
import { foldJournal, seriesClosures } from '../../src/journal/fold.ts';
import type { Logbook } from '../../src/journal/logbook.ts';
import { readMeasured } from '../../src/views/runForm/readMeasured.ts';
import { draft, ids, laboratoryDrafts, runRecorded, sealChain } from '../journal/fixtures.ts';
import { logbookOf, now, tableOf } from './importSteps.ts';

const zone = 'Europe/Oslo';

/** The failed run, and the repeat that looks into it. */
const failed = runRecorded(1, { madeAt: '2026-03-02T07:45:00.000Z' });
const repeat = runRecorded(2, {
  madeAt: '2026-03-02T07:54:00.000Z',
  reason: 'repeat',
  reading: { vaL: 3.46, vaReportedAs: 'BTPS', dlco: 0.13, dlcoUnit: 'mL/min/mmHg' },
  investigates: { runId: ids.run(1), check: 'repeat' },
});
const recorded = (...bodies: EntryBody<'run-recorded'>[]) =>
  bodies.map((body) => draft('run-recorded', body));

async function exportOf(drafts: readonly EntryDraft[]): Promise<string> {
  const entries = await sealChain([...laboratoryDrafts(), ...drafts], { zone });
  const logbook = foldJournal(entries);
  const runs = logbook.runs.map(({ simulation }) => simulation);
  const assessments = assessRuns(runs, { closures: seriesClosures(logbook) });
  return runsToCsv(logbook, assessments, { heads: chainHeads(entries) });
}

function judgeOwn(csv: string, logbook: Logbook) {
  const table = tableOf(csv);
  const { plan } = proposePlan(outlineOf(table));
  expect(plan.isOwnExport).toBe(true);
  const known = knownFrom(logbook, { now, zone, limits: publishedLimits2017 });
  return judgeImport(table, plan, known, readMeasured);
}

async function importInto(logbook: Logbook, csv: string) {
  let made = 0;
  const judgement = judgeOwn(csv, logbook);
  const written = await importEntries(
    judgement,
    { fileName: 'export.csv', fileHash: 'c'.repeat(64) },
    {
      by: ids.supervisor,
      newId: () => `new-identity-${++made}`,
      isTaken: (runId) => logbook.runs.some(({ id }) => id === runId),
    },
  );
  const runs = written.flatMap((one) => (one.kind === 'run-recorded' ? [one.body] : []));
  return { runs, rows: judgement.rows };
}

const withoutRow = (csv: string, row: number) =>
  csv
    .split('\r\n')
    .filter((_, index) => index !== row)
    .join('\r\n');

describe('the run that an imported one looks into', () => {
  it('is the one taken from the same file, under the id that it gets here', async () => {
    const { runs } = await importInto(await logbookOf(), await exportOf(recorded(failed, repeat)));
    const [first, second] = runs;
    expect(first?.runId).not.toBe(ids.run(1));
    expect(second?.investigates).toEqual({ runId: first?.runId, check: 'repeat' });
  });

  it('is the one that the logbook has, in the file or not', async () => {
    const csv = await exportOf(recorded(failed, repeat));
    const logbook = await logbookOf(recorded(failed));
    for (const file of [csv, withoutRow(csv, 1)]) {
      const { runs } = await importInto(logbook, file);
      expect(runs.map(({ investigates }) => investigates)).toEqual([{ runId: ids.run(1), check: 'repeat' }]);
    }
  });

  it('is its twin where the logbook has it from an earlier import, under another id', async () => {
    const csv = await exportOf(recorded(failed, repeat));
    const { runId: _, ...content } = failed;
    const logbook = await logbookOf(recorded({ ...content, runId: 'another-identity' }));
    const { runs } = await importInto(logbook, csv);
    expect(runs.map(({ investigates }) => investigates?.runId)).toEqual(['another-identity']);
  });

  it('is its twin where the file has the run twice, of which one is taken', async () => {
    const twin = { ...failed, runId: ids.run(3) };
    const ofTwin = { ...repeat, investigates: { runId: ids.run(3), check: 'repeat' as const } };
    const { runs, rows } = await importInto(
      await logbookOf(),
      await exportOf(recorded(failed, twin, ofTwin)),
    );
    expect(rows.map(({ state }) => state)).toEqual(['accepted', 'there', 'accepted']);
    expect(runs.map(({ investigates }) => investigates?.runId)).toEqual([undefined, runs[0]?.runId]);
  });

  it('is left out, and said, where it is neither in the file nor here, or was struck out there', async () => {
    const csv = await exportOf(recorded(failed, repeat));
    const voided = await exportOf([
      ...recorded(failed, repeat),
      draft('run-voided', { runId: ids.run(1), reason: 'Syringe not connected.' }),
    ]);
    for (const file of [withoutRow(csv, 1), voided]) {
      const { runs, rows } = await importInto(await logbookOf(), file);
      expect(runs.map(({ investigates }) => investigates)).toEqual([undefined]);
      const row = rows.find(({ state }) => state === 'warning');
      expect(row?.reasons).toEqual([
        'It looks into a run that is neither taken from this file nor in the logbook: the link is left out.',
      ]);
    }
  });

  it('is left out, and said, where its check is none', async () => {
    const csv = (await exportOf(recorded(failed, repeat))).replace(
      'run-number-1,repeat,',
      'run-number-1,guess,',
    );
    const { runs, rows } = await importInto(await logbookOf(), csv);
    expect(runs[1]?.investigates).toBeUndefined();
    expect(rows[1]?.reasons).toEqual([
      'Which run it looks into, and how, cannot be read: the link is left out.',
    ]);
  });
});

describe('the temperature as it was typed', () => {
  // 71.6 °F is 22 °C: nine degrees for five, from 32.
  const inFahrenheit = { ...failed, temperatureAsTyped: { value: 71.6, unit: '°F' as const } };

  it('comes back, in its unit', async () => {
    const { runs } = await importInto(await logbookOf(), await exportOf(recorded(inFahrenheit)));
    expect(runs[0]?.temperatureAsTyped).toEqual({ value: 71.6, unit: '°F' });
    expect(runs[0]?.ambient.temperatureC).toBe(22);
  });

  it('is left out, and said, where somebody changed one of the two in the file', async () => {
    const csv = (await exportOf(recorded(inFahrenheit))).replace(',71.6,°F,', ',17.6,°F,');
    const { runs, rows } = await importInto(await logbookOf(), csv);
    expect(runs[0]?.temperatureAsTyped).toBeUndefined();
    expect(rows[0]?.reasons).toEqual(['Typed as “17.6 °F”, which is not 22 °C: as typed it is left out.']);
  });
});

describe('what was left on the syringe', () => {
  const attached = [
    { name: 'Filter; the small one', volumeL: 0.04 },
    { name: '=Hose (85 mL) \\ old', volumeL: 0.0855 },
  ];
  const withHose = { ...failed, syringe: { ...failed.syringe, deadSpaceL: 0.2355 }, attached };

  it('comes back with its names and volumes, whatever the names hold', async () => {
    const { runs } = await importInto(await logbookOf(), await exportOf(recorded(withHose)));
    expect(runs[0]?.attached).toEqual(attached);
    expect(runs[0]?.syringe.deadSpaceL).toBe(0.2355);
  });

  it('is left out, and said, where the cell cannot be read; the dead space stays', async () => {
    const only = { ...withHose, attached: [{ name: 'Filter', volumeL: 0.1255 }] };
    const csv = (await exportOf(recorded(only))).replace('Filter (125.5 mL)', 'Filter about 126');
    const { runs, rows } = await importInto(await logbookOf(), csv);
    expect(runs[0]?.attached).toBeUndefined();
    expect(runs[0]?.syringe.deadSpaceL).toBe(0.2355);
    expect(rows[0]?.reasons).toEqual([
      'What was left on the syringe cannot be read, and is left out: “Filter about 126”.',
    ]);
  });

  it('reads as a person would write it', () => {
    const hose = { name: 'Hose, 30 cm', volumeL: 0.085 };
    expect(attachedCell([{ name: 'Filter', volumeL: 0.04 }, hose])).toBe(
      'Filter (40 mL); Hose, 30 cm (85 mL)',
    );
    expect(attachedCell(undefined)).toBeUndefined();
    expect(readAttachedCell('')).toBeUndefined();
  });

  it('survives being written and read, with any names', () => {
    const name = fc
      .string({ minLength: 1, maxLength: 40, unit: 'binary' })
      .filter((text) => text.trim() === text && text !== '');
    const volumeL = fc.integer({ min: 1, max: 5000 }).map((tenths) => tenths / 10_000);
    fc.assert(
      fc.property(fc.array(fc.record({ name, volumeL }), { minLength: 1, maxLength: 6 }), (one) => {
        expect(readAttachedCell(attachedCell(one) ?? '')).toEqual(one);
      }),
    );
  });
});

describe('the published limits of an imported run', () => {
  const house = { ...publishedLimits2017, edition: 'House 2026', source: 'Procedure', vaToleranceL: 0.2 };
  const strict = { ...house, breathHoldS: { target: 10, tolerance: 1 }, volumeCheckFraction: 0.02 };
  const adopted = draft('limits-adopted', {
    adoptionId: 'adoption-1',
    limits: strict,
    from: '2026-01-01T00:00:00.000Z',
    reason: 'Tighter.',
  });

  it('are the whole edition that the file names, where the logbook knows it, whatever is in force', async () => {
    const csv = await exportOf(recorded({ ...failed, limits: publishedLimits2017 }));
    const { runs } = await importInto(await logbookOf([adopted]), csv);
    expect(runs[0]?.limits).toEqual(publishedLimits2017);
  });

  it('are the file’s numbers, where an edition of the same name has others here', async () => {
    const csv = await exportOf(recorded({ ...failed, limits: { ...house, vaToleranceL: 0.25 } }));
    const { runs } = await importInto(await logbookOf([adopted]), csv);
    expect(runs[0]?.limits).toMatchObject({ edition: 'House 2026', vaToleranceL: 0.25 });
    // The file names its source itself.
    expect(runs[0]?.limits.source).toBe('Procedure');
  });

  it('are those in force on the day, where the file says nothing', async () => {
    const csv = (await exportOf(recorded({ ...failed, limits: house }))).replace('House 2026,0.2,', ',,');
    const { runs } = await importInto(await logbookOf([adopted]), csv);
    expect(runs[0]?.limits).toEqual(strict);
  });
});
