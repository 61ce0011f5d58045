// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { defaultControlPolicy } from '../../../src/core/index.ts';
import type { EntryDraft, RunContent } from '../../../src/journal/entries.ts';
import { closingOf } from '../../../src/views/closing.ts';
import { listFailures } from '../../../src/views/failures.ts';
import { assessOnTheBench } from '../../../src/views/runForm/assessOnTheBench.ts';
import { situationOf } from '../../../src/views/runForm/situation.ts';
import { whatToDo } from '../../../src/views/runForm/whatToDo.ts';
import {
  actionTaken,
  baseline,
  closure,
  draft,
  ids,
  opened,
  run,
  tenGoodRuns,
  theRun,
  week,
} from '../laboratory.ts';
import { content } from '../run/runFixtures.ts';

const { minimumSize } = defaultControlPolicy;

/** The situation of a run that is typed, as week `index` of a laboratory with these entries. */
async function whileTyped(entries: readonly EntryDraft[], typed: RunContent, now?: number) {
  const { logbook, assessments } = await opened(entries);
  const assessment = assessOnTheBench(typed, { logbook, assessments });
  const failures = listFailures(logbook, assessments);
  return situationOf(
    { run: typed, runId: null, assessment, minimumSize, now: now ?? Date.parse(typed.madeAt) },
    logbook,
    failures,
  );
}

/** The situation of a recorded run. */
async function recorded(entries: readonly EntryDraft[], index: number, now?: number) {
  const { logbook, assessments } = await opened(entries);
  const logged = theRun(logbook, index);
  const assessment = assessments.get(logged.id);
  if (!assessment) throw new Error('the run was not assessed');
  const failures = listFailures(logbook, assessments);
  return situationOf(
    {
      run: logged.body,
      runId: logged.id,
      assessment,
      minimumSize,
      now: now ?? Date.parse(logged.body.madeAt),
    },
    logbook,
    failures,
  );
}

const good = tenGoodRuns();
const failing = run(10, 3.37);
const builtIn = { route: 'built-in' as const };

describe('a failing run', () => {
  it('opens its own failure, which is none that was open before', async () => {
    const first = await recorded([...good, failing], 10);
    expect(first).toMatchObject({ failedBefore: [], openFailure: null, isOver: false, newerRunAt: null });
    expect(whatToDo(first).id).toBe('fails');
  });

  it('is confirmed by a repeat, whether that is typed or recorded', async () => {
    const repeat = content(11, 3.38);
    expect(await whileTyped([...good, failing], repeat)).toMatchObject({ failedBefore: ['va'] });
    const written = await recorded([...good, failing, run(11, 3.38)], 11);
    expect(written.failedBefore).toEqual(['va']);
    expect(whatToDo(written).id).toBe('fails-again');
  });

  it('names the other route where the analyzer has one, until that was run', async () => {
    const both = [...good, run(100, 3, { ...builtIn, madeAt: week(3) }), failing];
    const repeat = content(12, 3.38);
    expect((await whileTyped(both, repeat)).otherRoute).toBe('built-in');
    const ran = [...both, run(101, 3.01, { ...builtIn, madeAt: week(11) })];
    expect((await whileTyped(ran, repeat)).otherRoute).toBeNull();
    expect((await whileTyped([...good, failing], repeat)).otherRoute).toBeNull();
  });

  it('is over once it was closed or a new baseline began', async () => {
    const closed = await recorded([...good, failing, closure(10, week(10.5))], 10);
    expect(closed.isOver).toBe(true);
    expect(whatToDo(closed).id).toBe('failure-over');
    expect((await recorded([...good, failing, baseline(week(10.5))], 10)).isOver).toBe(true);
  });
});

describe('the first run after a repair', () => {
  /** Nine in a row above the mean, the last of which fails by its fourth beyond 1 SD; the tenth breaks 10x with their help. */
  const high = [3.01, 3.01, 3.01, 3.01, 3.01, 3.03, 3.03, 3.03, 3.03].map((va, index) =>
    run(10 + index, va, { dlco: index % 2 === 0 ? 0.02 : -0.02 }),
  );
  const failed = [...good, ...high];
  const repaired = [...failed, actionTaken(18, week(18.5))];
  /** What the bench says of it while it is typed and once it is recorded, and whether Review takes it for a proof. */
  async function said(entries: readonly EntryDraft[], vaL: number) {
    const typed = whatToDo(await whileTyped(entries, content(19, vaL))).id;
    const written = whatToDo(await recorded([...entries, run(19, vaL)], 19)).id;
    expect(written).toBe(typed);
    const { logbook, assessments } = await opened([...entries, run(19, vaL)]);
    const [failure] = listFailures(logbook, assessments);
    if (failure === undefined) throw new Error('nothing failed');
    const isProof = closingOf(failure, { logbook, assessments }).proof.runs.some(
      ({ id }) => id === ids.run(19),
    );
    return [typed, isProof];
  }

  it('is told from a failure that goes on, as Review tells it', async () => {
    expect(await said(repaired, 3.01)).toEqual(['fails-by-the-past', true]);
    expect(await said(repaired, 3.2)).toEqual(['fails-again', false]);
    // Beyond 2 SD of 3.000 ± 0.0216 L it proves nothing, though the rules that fail it reach back.
    expect(await said(repaired, 3.05)).toEqual(['fails-again', false]);
  });

  it('fails again as long as nothing was done, or only about another quantity', async () => {
    expect((await said(failed, 3.01))[0]).toBe('fails-again');
    const ofDlco = actionTaken(18, week(18.5), { quantities: ['dlco'] });
    expect((await said([...failed, ofDlco], 3.01))[0]).toBe('fails-again');
  });
});

describe('a good run', () => {
  it('of the same route does not give the analyzer back while the failure is open', async () => {
    const passed = await recorded([...good, failing, run(11, 3.01)], 11);
    expect(passed.openFailure).toBe('this-route');
    expect(whatToDo(passed).action).toBe('stop');
    const closed = await whileTyped([...good, failing, closure(10, week(10.5))], content(12, 3));
    expect(closed.openFailure).toBeNull();
  });

  it('of the other route neither', async () => {
    const other = await whileTyped([...good, failing], content(11, 3, builtIn));
    expect(other).toMatchObject({ openFailure: 'other-route', failedBefore: [] });
    expect(whatToDo(other).id).toBe('open-on-the-other-route');
  });

  it('of another analyzer is free of it', async () => {
    const elsewhere = await whileTyped([...good, failing], content(11, 3, { analyzerId: 'analyzer-room-5' }));
    expect(elsewhere.openFailure).toBeNull();
  });

  it('dated before the newest run does not speak for the analyzer', async () => {
    const late = await whileTyped(good, content(50, 3, { madeAt: week(4.5) }));
    expect(late.newerRunAt).toBe(week(9));
    expect((await recorded(good, 9)).newerRunAt).toBeNull();
  });

  it('says of today what it may only for the week after it, and nothing before its time', async () => {
    // Simulations are made weekly: ERS/ATS standard 2017, equipment table.
    const typed = content(10, 3);
    const at = Date.parse(week(10));
    const hour = 3_600_000;
    const ofAnotherWeek = async (now: number) => (await whileTyped(good, typed, now)).ofAnotherWeek;
    expect(await ofAnotherWeek(at)).toBeNull();
    expect(await ofAnotherWeek(at + 7 * 24 * hour)).toBeNull();
    expect(await ofAnotherWeek(at + 9 * 24 * hour)).toBe(week(10));
    expect(await ofAnotherWeek(at - hour)).toBe(week(10));
    expect(whatToDo(await whileTyped(good, typed, at + 9 * 24 * hour)).action).toBe('run-again');
  });

  it('does not put an analyzer back that is out of service', async () => {
    const out = draft('service-set', {
      serviceId: 'service-out-1',
      analyzerId: ids.analyzer,
      inService: false,
      from: week(9.5),
      reason: 'Waits for a valve.',
    });
    expect((await whileTyped([...good, out], content(10, 3))).inService).toBe(false);
    expect((await recorded([...good, out], 9)).inService).toBe(true);
    // Made while it was in service, and written down after.
    expect((await recorded([...good, out], 9, Date.parse(week(10)))).inService).toBe(false);
  });

  it('that was imported was judged by nobody on its day', async () => {
    const origin = { kind: 'import' as const, batchId: 'batch-number-1', row: 3 };
    const imported = await recorded([...good, run(10, 3, { origin, judged: null })], 10);
    expect(imported.isImported).toBe(true);
  });
});

describe('own limits', () => {
  it('judge, wait for more runs, or cannot judge runs that never differ', async () => {
    expect((await whileTyped(good, content(10, 3))).ownLimits).toBe('judge');
    expect((await whileTyped(good.slice(0, 4), content(4, 3))).ownLimits).toBe('too-few-runs');
    const same = Array.from({ length: 10 }, (_, index) => run(index, 3));
    expect((await whileTyped(same, content(10, 3))).ownLimits).toBe('no-spread');
  });
});
