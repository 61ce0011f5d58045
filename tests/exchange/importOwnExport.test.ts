import Papa from 'papaparse';
import { beforeAll, describe, expect, it } from 'vitest';
import { assessRuns, publishedLimits2017, type RunAssessment } from '../../src/core/index.ts';
import { demonstrationEntries } from '../../src/demo/laboratory.ts';
import { importEntries } from '../../src/exchange/importEntries.ts';
import { knownFrom } from '../../src/exchange/importKnown.ts';
import { outlineOf } from '../../src/exchange/importOutline.ts';
import { missingChoices, proposePlan } from '../../src/exchange/importPlan.ts';
import { judgeImport } from '../../src/exchange/importRuns.ts';
import { runsToCsv } from '../../src/exchange/runsCsv.ts';
import { chainHeads, sealEntry } from '../../src/journal/chain.ts';
import type { Entry, EntryDraft } from '../../src/journal/entries.ts';
import { foldJournal, seriesClosures } from '../../src/journal/fold.ts';
import type { Logbook } from '../../src/journal/logbook.ts';
import { policyStepsOf } from '../../src/journal/standing.ts';
import { readMeasured } from '../../src/views/runForm/readMeasured.ts';
import { draft, laboratoryDrafts, runRecorded, sealChain, technologistAdded } from '../journal/fixtures.ts';
import { tableOf } from './importSteps.ts';
import { opened, packageOf } from './package/packages.ts';

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

const ofARun: readonly Entry['kind'][] = ['run-recorded', 'run-voided', 'run-amended', 'run-set-aside'];

/** Sets aside an early run that stands, so that every later mean of its series rests on others. */
async function withOneSetAside(demonstration: readonly Entry[]): Promise<readonly Entry[]> {
  const { runs, technologists } = foldJournal(demonstration);
  const supervisor = [...technologists.values()].find(({ role }) => role === 'supervisor');
  const [early] = runs.filter(({ voided, setAside }) => voided === null && setAside === null).slice(4);
  const last = demonstration.at(-1);
  if (!supervisor || !early || !last) throw new Error('the demonstration lacks a supervisor or runs');
  const body = { runId: early.id, isSetAside: true, reason: '=The syringe was not pushed home.' };
  const { workstation, seq, hash, at } = last;
  const place = { workstation, seq: seq + 1, prev: hash, at, zone };
  const draft = { id: 'set-aside-afterwards', by: supervisor.id, kind: 'run-set-aside' as const, body };
  return [...demonstration, await sealEntry(draft, place)];
}

/** The export by itself, and as it lies in an assessor's package, where every number stands in full. */
const exports: readonly { name: string; csvOf: (entries: readonly Entry[]) => Promise<string> }[] = [
  {
    name: 'the export',
    csvOf: async (entries) => {
      const logbook = foldJournal(entries);
      return runsToCsv(logbook, assess(logbook), { heads: chainHeads(entries) });
    },
  },
  {
    name: 'the package',
    csvOf: async (entries) => {
      const { written } = await packageOf(entries);
      const inside = await opened(written.bytes);
      const content = await inside.resource('runs').rawRead();
      await inside.dispose();
      return content.toString('utf8');
    },
  },
];

describe.each(exports)('$name of the demonstration', ({ csvOf }) => {
  let entries: readonly Entry[];
  let original: Logbook;
  let csv: string;
  beforeAll(async () => {
    entries = await withOneSetAside(await demonstrationEntries({ seed: 7, endAt: now, zone }));
    original = foldJournal(entries);
    csv = await csvOf(entries);
  }, 60_000);

  function judgeExport(logbook: Logbook, file = csv) {
    const table = tableOf(file);
    const outline = outlineOf(table);
    const { plan } = proposePlan(outline);
    expect(plan.isOwnExport).toBe(true);
    expect(missingChoices(plan, outline)).toEqual([]);
    return judgeImport(table, plan, knownFrom(logbook, surroundings), readMeasured);
  }

  /** All but the runs and what refers to one of them alone. */
  const besideTheRuns = () => entries.filter(({ kind }) => !ofARun.includes(kind)).map(draftOf);

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
      expect(twin.setAside === null).toBe(run.setAside === null);
      // Numbers, both series with mean, SD, z and signals, findings and verdict.
      expect(renamed(after.get(twin.id))).toEqual(renamed(before.get(run.id)));
    }
  });

  it('imported beside the equipment and people alone, gives the same numbers, published limits and conduct', async () => {
    // No baseline, closure, policy or edition of limits: what rests on the run itself must not need them.
    const setUp = entries
      .filter(({ kind }) => /^(technologist|syringe|analyzer)-(added|changed)$/.test(kind))
      .map(draftOf);
    const judgement = judgeExport(foldJournal(await sealChain(setUp, { zone })));
    let made = 0;
    const imported = await importEntries(
      judgement,
      { fileName: 'export.csv', fileHash: 'b'.repeat(64) },
      { by: 'somebody', newId: () => `new-identity-${++made}`, isTaken: () => false },
    );
    const again = foldJournal(await sealChain([...setUp, ...imported], { zone }));
    const [before, after] = [assess(original), assess(again)];
    const kept = original.runs.filter((run) => run.voided === null);
    expect(again.runs).toHaveLength(kept.length);
    const onItsOwn = (assessment: RunAssessment | undefined) => ({
      numbers: assessment?.numbers,
      findings: assessment?.verdict.findings.filter(({ kind }) => kind !== 'signal'),
    });
    for (const [index, run] of kept.entries()) {
      expect(again.runs[index]?.body.limits).toEqual(run.body.limits);
      expect(onItsOwn(after.get(again.runs[index]?.id ?? ''))).toEqual(onItsOwn(before.get(run.id)));
    }
  });

  it('says of each run what the logbook says today, and what was said on the day', () => {
    const { data } = Papa.parse<Record<string, string>>(csv, { header: true, skipEmptyLines: true });
    const today = assess(original);
    let changed = 0;
    for (const [index, run] of original.runs.entries()) {
      const row = data[index];
      expect(row?.run_id).toBe(run.id);
      expect(row?.verdict).toBe(run.entry.body.judged?.word ?? '');
      const recomputed = run.voided === null ? today.get(run.id)?.verdict.word : '';
      expect(row?.verdict_recomputed).toBe(recomputed);
      if (recomputed !== '' && row?.verdict !== '' && row?.verdict !== recomputed) changed += 1;
    }
    // A run amended or set aside since moves what comes out today: both columns are needed.
    expect(changed).toBeGreaterThan(0);
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
      'technologist_id',
      'investigates_run_id',
      'investigates_check',
      'temperature_as_typed',
      'temperature_unit',
      'attached',
      'limit_volume_check_fraction',
      'limit_breath_hold_target_s',
      'limit_breath_hold_tolerance_s',
      'limits_source',
      'set_aside',
      'set_aside_at',
      'set_aside_by',
      'set_aside_reason',
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

describe('the export of a run that was judged by limits of its own day', () => {
  it('carries every one of them, with its source, into a logbook that never adopted them', async () => {
    const limits = {
      edition: '=House rules 7',
      source: '-laboratory procedure, chapter "4"',
      vaToleranceL: 0.15,
      dlcoMlMinMmHg: 0.4,
      dlcoMmolMinKPa: 0.133,
      volumeCheckFraction: 0.025,
      breathHoldS: { target: 9.5, tolerance: 0.75 },
    };
    const entries = await sealChain([
      ...laboratoryDrafts(),
      draft('run-recorded', runRecorded(1, { limits })),
    ]);
    const from = foldJournal(entries);
    const table = tableOf(runsToCsv(from, assess(from), { heads: chainHeads(entries) }));
    const { plan } = proposePlan(outlineOf(table));
    const into = foldJournal(await sealChain(laboratoryDrafts()));
    const { rows } = judgeImport(table, plan, knownFrom(into, surroundings), readMeasured);
    expect(rows.map(({ run }) => run?.limits)).toEqual([limits]);
  });
});

describe('the export of runs that two people with the same initials made', () => {
  const namesake = { ...technologistAdded, technologistId: 'technologist-namesake', name: 'Ivo Martens' };
  const people = () => [...laboratoryDrafts(), draft('technologist-added', namesake)];
  const made = async () => {
    const entries = await sealChain([
      ...people(),
      draft('run-recorded', runRecorded(1)),
      draft(
        'run-recorded',
        runRecorded(2, { technologistId: namesake.technologistId, madeAt: '2026-03-03T07:45:00.000Z' }),
      ),
    ]);
    const from = foldJournal(entries);
    return tableOf(runsToCsv(from, assess(from), { heads: chainHeads(entries) }));
  };
  const judgedIn = async (drafts: readonly EntryDraft[]) => {
    const table = await made();
    const into = knownFrom(foldJournal(await sealChain(drafts)), surroundings);
    return judgeImport(table, proposePlan(outlineOf(table)).plan, into, readMeasured).rows;
  };

  it('keeps them apart by their ids', async () => {
    expect((await judgedIn(people())).map(({ run }) => run?.technologistId)).toEqual([
      technologistAdded.technologistId,
      namesake.technologistId,
    ]);
  });

  it('takes no id for a person whose initials are others, but asks by the initials', async () => {
    // In another logbook the id belongs to somebody else.
    const stranger = {
      ...technologistAdded,
      technologistId: namesake.technologistId,
      initials: 'XX',
      name: 'Xenia',
    };
    const rows = await judgedIn([...laboratoryDrafts(), draft('technologist-added', stranger)]);
    expect(rows.map(({ run }) => run?.technologistId)).toEqual([
      technologistAdded.technologistId,
      technologistAdded.technologistId,
    ]);
  });
});
