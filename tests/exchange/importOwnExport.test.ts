import Papa from 'papaparse';
import { beforeAll, describe, expect, it } from 'vitest';
import { assessRuns, publishedLimits2017 } from '../../src/core/index.ts';
import { demonstrationEntries } from '../../src/demo/laboratory.ts';
import { importEntries } from '../../src/exchange/importEntries.ts';
import { knownFrom } from '../../src/exchange/importKnown.ts';
import { outlineOf } from '../../src/exchange/importOutline.ts';
import { missingChoices, proposePlan } from '../../src/exchange/importPlan.ts';
import { judgeImport } from '../../src/exchange/importRuns.ts';
import { runsToCsv } from '../../src/exchange/runsCsv.ts';
import { chainHeads } from '../../src/journal/chain.ts';
import type { Entry, EntryDraft } from '../../src/journal/entries.ts';
import { foldJournal, seriesClosures } from '../../src/journal/fold.ts';
import type { Logbook } from '../../src/journal/logbook.ts';
import { policyStepsOf } from '../../src/journal/standing.ts';
import { readMeasured } from '../../src/views/runForm/readMeasured.ts';
import { sealChain } from '../journal/fixtures.ts';
import { tableOf } from './importSteps.ts';

const zone = 'Europe/Oslo';
const now = Date.UTC(2026, 5, 1);
const surroundings = { now, zone, limits: publishedLimits2017 };

const assess = (logbook: Logbook) =>
  assessRuns(
    logbook.runs.map(({ simulation }) => simulation),
    {
      closures: seriesClosures(logbook),
      policyStepsFor: (analyzerId) => policyStepsOf(logbook, analyzerId),
    },
  );

function draftOf({ id, by, kind, body }: Entry): EntryDraft {
  // The pair of kind and body is right: it was an entry's.
  return { id, by, kind, body } as EntryDraft;
}

describe('the export of the demonstration', () => {
  let entries: readonly Entry[];
  let original: Logbook;
  let csv: string;
  beforeAll(async () => {
    entries = await demonstrationEntries({ seed: 7, endAt: now, zone });
    original = foldJournal(entries);
    csv = runsToCsv(original, assess(original), { heads: chainHeads(entries) });
  });

  function judgeExport(logbook: Logbook, file = csv) {
    const table = tableOf(file);
    const outline = outlineOf(table);
    const { plan } = proposePlan(outline);
    expect(plan.isOwnExport).toBe(true);
    expect(missingChoices(plan, outline)).toEqual([]);
    return judgeImport(table, plan, knownFrom(logbook, surroundings), readMeasured);
  }

  /** All but the runs and what refers to one of them alone. */
  const besideTheRuns = () =>
    entries
      .filter(({ kind }) => kind !== 'run-recorded' && kind !== 'run-voided' && kind !== 'run-amended')
      .map(draftOf);

  it('is recognised whole, and adds nothing to the logbook it came from', () => {
    const { counts } = judgeExport(original);
    const voided = original.runs.filter((run) => run.voided !== null).length;
    expect(counts).toEqual({
      accepted: 0,
      warning: 0,
      refused: voided,
      there: original.runs.length - voided,
    });
  });

  it('imported beside the same equipment, events and closures, gives every number and verdict again', async () => {
    const withoutRuns = besideTheRuns();
    const judgement = judgeExport(foldJournal(await sealChain(withoutRuns, { zone })));
    const { counts } = judgement;
    const kept = original.runs.filter((run) => run.voided === null);
    expect(counts.accepted + counts.warning).toBe(kept.length);
    let made = 0;
    const imported = await importEntries(
      judgement,
      { fileName: 'export.csv', fileHash: 'b'.repeat(64) },
      { by: 'somebody', newId: () => `new-identity-${++made}`, isTaken: () => false },
    );
    const again = foldJournal(await sealChain([...withoutRuns, ...imported], { zone }));
    const before = assess(original);
    const after = assess(again);
    expect(again.runs).toHaveLength(kept.length);
    const formerId = new Map(again.runs.map(({ id }, index) => [id, kept[index]?.id]));
    /** With the runs under the ids they had. */
    const renamed = (value: unknown): unknown =>
      JSON.parse(JSON.stringify(value, (_, part) => formerId.get(part) ?? part));
    for (const [index, run] of kept.entries()) {
      const twin = again.runs[index];
      if (!twin) throw new Error(`run ${index} has no twin`);
      const { runId: _, origin: __, judged: ___, ...content } = run.body;
      expect(renamed(twin.body)).toMatchObject(content);
      // Numbers, both series with mean, SD, z and signals, findings and verdict.
      expect(renamed(after.get(twin.id))).toEqual(renamed(before.get(run.id)));
    }
  });

  it('holds hoses and filters, temperatures in °F and investigations, so that the above has seen them', () => {
    const bodies = original.runs.map(({ body }) => body);
    expect(bodies.filter(({ attached }) => attached !== undefined).length).toBeGreaterThan(10);
    expect(
      bodies.filter(({ temperatureAsTyped }) => temperatureAsTyped !== undefined).length,
    ).toBeGreaterThan(10);
    expect(bodies.filter(({ investigates }) => investigates !== undefined).length).toBeGreaterThan(2);
    expect(original.runs.some(({ amendments }) => amendments.length > 0)).toBe(true);
  });

  it('is taken as well without the columns that earlier releases did not write, which then stay empty', async () => {
    const later = [
      'investigates_run_id',
      'investigates_check',
      'temperature_as_typed',
      'temperature_unit',
      'attached',
    ];
    const { data, meta } = Papa.parse<Record<string, string>>(csv, { header: true, skipEmptyLines: true });
    const earlier = (meta.fields ?? []).filter((name) => !later.includes(name));
    expect(earlier).toHaveLength((meta.fields ?? []).length - later.length);
    const old = Papa.unparse(data, { columns: earlier });
    const { rows, counts } = judgeExport(foldJournal(await sealChain(besideTheRuns(), { zone })), old);
    const kept = original.runs.filter((run) => run.voided === null);
    expect(counts.accepted + counts.warning).toBe(kept.length);
    const runs = rows.flatMap(({ run }) => (run === null ? [] : [run]));
    for (const [index, run] of runs.entries()) {
      const { attached, temperatureAsTyped, investigates, ...content } = run;
      expect([attached, temperatureAsTyped, investigates]).toEqual([undefined, undefined, undefined]);
      // The dead space holds what was attached: no verdict rests on the columns that are missing.
      expect(kept[index]?.body).toMatchObject(content);
    }
  });
});
