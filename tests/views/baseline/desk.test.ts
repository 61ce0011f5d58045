import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { acceptanceOf } from '../../../src/views/baseline/acceptance.ts';
import { buildDesk, epochBefore } from '../../../src/views/baseline/baselineRuns.ts';
import { baselineScale } from '../../../src/views/baseline/baselineScale.ts';
import { compareEpochs } from '../../../src/views/baseline/compareEpochs.ts';
import { compareLimits } from '../../../src/views/baseline/compareLimits.ts';
import { describeBaseline } from '../../../src/views/baseline/describeBaseline.ts';
import { evaluationOf } from '../../../src/views/failures.ts';
import { baseline, draft, ids, opened, run, theRun, week } from '../laboratory.ts';
import { policyWith } from '../settingDrafts.ts';

const series = {
  analyzerId: ids.analyzer,
  method: 'syringe',
  route: 'patient-test',
  quantity: 'va',
} as const;
const litres = baselineScale('va', 'mL/min/mmHg');

/** Twenty-five readings about 3 L of no order: 3 + 0.01 · the digits of π less 4.5, halved. */
const pi = [3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5, 8, 9, 7, 9, 3, 2, 3, 8, 4, 6, 2, 6, 4, 3];
const steady = (count = 25, from = 0, middle = 3) =>
  pi.slice(0, count).map((digit, index) => run(from + index, middle + (digit - 4.5) / 200));
const rolling = () =>
  draft('policy-set', {
    policyId: 'policy-rolling',
    analyzerId: ids.analyzer,
    policy: policyWith({ limits: 'rolling' }),
    from: '2025-01-01T00:00:00.000Z',
    reason: 'Trial.',
  });
const aside = (number: number, isSetAside = true) =>
  draft('run-set-aside', { runId: ids.run(number), isSetAside, reason: 'Trial of a new filter.' });
const voided = (number: number) =>
  draft('run-voided', { runId: ids.run(number), reason: 'Leak at the tap.' });

async function desk(drafts: readonly EntryDraft[], at = '2027-01-01T00:00:00.000Z') {
  const { logbook, assessments } = await opened(drafts);
  const built = buildDesk(logbook, assessments, series, at);
  const members = built.inForce.members.map(({ run: { id } }) => id);
  return {
    logbook,
    assessments,
    built,
    members,
    words: describeBaseline(built.inForce.members, built.policy, litres),
  };
}
const numbers = (from: number, to: number) =>
  Array.from({ length: to - from }, (_, index) => ids.run(from + index));

describe('buildDesk', () => {
  it('takes the first twenty accepted runs, with the mean and SD that a later run is judged by', async () => {
    const { members, words, assessments } = await desk(steady());
    expect(members).toEqual(numbers(0, 20));
    const judged = assessments.get(ids.run(24))?.va;
    expect(judged?.n).toBe(20);
    expect(words.mean).toBeCloseTo(judged?.mean ?? 0, 12);
    expect(words.sd).toBeCloseTo(judged?.sd ?? 0, 12);
  });

  it('takes the newest twenty where the limits roll, as the core does', async () => {
    const before = await desk([rolling(), ...steady(24)]);
    expect(before.members).toEqual(numbers(4, 24));
    const judged = (await desk([rolling(), ...steady(25)])).assessments.get(ids.run(24))?.va;
    expect(before.words.mean).toBeCloseTo(judged?.mean ?? 0, 12);
    expect(before.words.sd).toBeCloseTo(judged?.sd ?? 0, 12);
  });

  it('leaves out what failed, was voided or was set aside, and takes a run back in', async () => {
    const drafts = [...steady(12), run(12, 3.4), voided(2), aside(3), aside(4), aside(4, false)];
    const { members, built } = await desk(drafts);
    expect(members).toEqual(numbers(0, 12).filter((id) => id !== ids.run(2) && id !== ids.run(3)));
    expect(built.inForce.runs.map(({ run: { id } }) => id)).not.toContain(ids.run(2));
    expect(built.inForce.runs.map(({ run: { id } }) => id)).toContain(ids.run(3));
  });

  it('begins with the newest baseline, which may have no run yet, and knows the one before', async () => {
    const { built, members } = await desk([...steady(12), baseline(week(12))]);
    expect(members).toEqual([]);
    expect(built.inForce.start?.body.from).toBe(week(12));
    expect(epochBefore(built)?.members).toHaveLength(12);
    expect(epochBefore((await desk(steady(12))).built)).toBeNull();
  });

  it('does not look ahead: a baseline that begins later is not in force', async () => {
    const { built } = await desk([...steady(12), baseline(week(12))], week(11));
    expect(built.inForce.number).toBe(0);
  });
});

describe('describeBaseline', () => {
  it('says how many runs there are, and how well mean and SD are known', async () => {
    // R 4.2.2, x <- 3 + (digits - 4.5)/200: mean 3.00175, sd 0.01350195, t.test(x)$conf.int 2.995431 to 3.008069,
    // sd(x) * sqrt(19/qchisq(c(.975, .025), 19)) 0.01026810 to 0.01972056
    const { words } = await desk(steady());
    expect(words.figures.map(({ value }) => value)).toEqual([
      '20, the first accepted since the baseline began',
      '3.002 L, true mean 2.995 to 3.008 (95 %)',
      '0.0135 L, true SD 0.0103 to 0.0197 (95 %)',
    ]);
    expect(words.hints.map(({ isWarning }) => isWarning)).toEqual([false, false, false]);
  });

  it('calls it provisional before it is full, and says when own limits begin', async () => {
    expect((await desk(steady(12))).words.figures[0]?.value).toBe('12 of 20, provisional');
    expect((await desk(steady(4))).words.figures[0]?.value).toBe('4 of 20: own limits begin at 10');
    expect((await desk([])).words).toMatchObject({ mean: null, sd: null, hints: [] });
  });

  it('names runs that stand apart, and leaves them in', async () => {
    // Below ten runs no own limit judges: 3.09 passes, and stands 4.7 robust SD from the middle.
    const { words, members } = await desk([...steady(8), run(8, 3.09)]);
    expect([...words.outlying]).toEqual([ids.run(8)]);
    expect(members).toContain(ids.run(8));
    expect(words.hints[0]).toMatchObject({
      isWarning: true,
      sentence: expect.stringMatching(/^1 run stands/),
    });
  });

  it('sees a step within the baseline: neighbours are alike', async () => {
    // Nine runs at either level, before own limits can notice.
    const { words } = await desk([...steady(5, 0, 2.97), ...steady(5, 5, 3.03)]);
    const hint = words.hints.find(({ name }) => name === 'Run after run');
    expect(hint).toMatchObject({
      isWarning: true,
      sentence: expect.stringMatching(/are alike.*drifts or steps/),
    });
  });

  it('says that two levels in turn swing, and that equal runs have no SD', async () => {
    const swinging = Array.from({ length: 9 }, (_, index) => run(index, index % 2 === 0 ? 3.02 : 2.98));
    const { words } = await desk(swinging);
    expect(words.hints.find(({ name }) => name === 'Run after run')?.sentence).toMatch(
      /swing from side to side/,
    );
    const equal = await desk(Array.from({ length: 6 }, (_, index) => run(index, 3)));
    expect(equal.words.figures[2]?.value).toBe('none: all runs read the same');
    expect(equal.words.sd).toBeNull();
  });
});

const accepted = (runIds: readonly string[]): EntryDraft =>
  draft('baseline-accepted', {
    acceptanceId: `acceptance-of-${runIds.length}`,
    analyzerId: ids.analyzer,
    series: { method: 'syringe', route: 'patient-test', quantity: 'va' },
    runIds: [...runIds],
    mean: 3.00175,
    sd: 0.01350195,
    reason: 'Two people, two syringes, no event.',
  });

describe('acceptanceOf', () => {
  const stateOf = async (...drafts: readonly EntryDraft[]) => {
    const { built, logbook } = await desk(drafts);
    return acceptanceOf(built, logbook);
  };

  it('is never, the same, or grown by the runs that came in since', async () => {
    expect(await stateOf(...steady(12))).toEqual({ state: 'never' });
    expect(await stateOf(...steady(12), accepted(numbers(0, 12)))).toMatchObject({ state: 'same' });
    expect(await stateOf(...steady(12), accepted(numbers(0, 10)))).toMatchObject({
      state: 'grown',
      added: 2,
    });
  });

  it('is of one series only', async () => {
    const other = draft('baseline-accepted', {
      acceptanceId: 'acceptance-of-dlco',
      analyzerId: ids.analyzer,
      series: { method: 'syringe', route: 'patient-test', quantity: 'dlco' },
      runIds: numbers(0, 12),
      mean: 0.01,
      sd: 0.02,
      reason: 'Good.',
    });
    expect(await stateOf(...steady(12), other)).toEqual({ state: 'never' });
  });

  it('says which of its runs were voided, set aside or amended since, and that others came in between', async () => {
    const allButThree = [...numbers(0, 3), ...numbers(4, 12)];
    const taken = await stateOf(...steady(12), aside(3), accepted(allButThree), aside(3, false), voided(5));
    expect(taken).toMatchObject({
      state: 'changed',
      changes: ['The run of 9 Feb 2026, 09:00 was voided.', '1 run came in between.'],
    });
    const set = await stateOf(...steady(12), accepted(numbers(0, 12)), aside(0));
    expect(set).toMatchObject({ changes: ['The run of 5 Jan 2026, 09:00 was set aside.'] });
  });

  it('is of a former baseline once a new one has begun', async () => {
    expect(await stateOf(...steady(12), accepted(numbers(0, 12)), baseline(week(12)))).toMatchObject({
      state: 'former',
    });
  });

  it('is not changed by a rolling window that moves on', async () => {
    expect(await stateOf(rolling(), ...steady(24), accepted(numbers(0, 20)))).toMatchObject({
      state: 'grown',
      added: 4,
    });
  });
});

describe('compareEpochs', () => {
  const compared = async (drafts: readonly EntryDraft[]) => {
    const { built } = await desk(drafts);
    const before = epochBefore(built);
    if (before === null) throw new Error('no epoch before');
    return compareEpochs(before, built.inForce, litres);
  };

  it('says how far the mean moved, with Welch’s interval', async () => {
    // R 4.2.2: a <- 3 + (digits[1:12] - 4.5)/200; t.test(a + 0.04, a)$conf.int 0.0292703 to 0.0507297
    const { rows, sentences } = await compared([...steady(12), baseline(week(12)), ...steady(12, 12, 3.04)]);
    expect(rows.map(({ count }) => count)).toEqual([12, 12]);
    expect(sentences[0]).toBe('The mean moved by +40 mL, between +29 mL and +51 mL with 95 % confidence.');
    expect(sentences[1]).toMatch(
      /^The SD is 1\.00 times what it was, .*: no sure change, of 12 runs on one side/,
    );
  });

  it('says that no movement is as good an explanation, and that the new runs scatter more widely', async () => {
    const wide = pi.slice(0, 9).map((digit, index) => run(12 + index, 3 + (digit - 4.5) / 40));
    const { sentences } = await compared([...steady(12), baseline(week(12)), ...wide]);
    expect(sentences[0]).toMatch(/that it did not move at all is as good an explanation/);
    expect(sentences[1]).toMatch(/scatter more widely than before/);
  });

  it('needs two runs', async () => {
    const { sentences } = await compared([...steady(12), baseline(week(12)), run(12, 3)]);
    expect(sentences).toEqual(['Two runs at least are needed on either side to compare.']);
  });
});

describe('compareLimits', () => {
  it('says of a frozen baseline what the logbook says, where that is in force', async () => {
    const { built, logbook, assessments } = await desk([...steady(24), run(24, 3.05)]);
    const { rows = [] } = compareLimits(built, logbook) ?? {};
    expect(rows).toHaveLength(8);
    for (const { run: one, baseline: says } of rows) {
      const assessment = assessments.get(theRun(logbook, pi.length - 1).id === one.id ? ids.run(24) : one.id);
      const z = assessment && evaluationOf(assessment, 'va').z;
      expect(says.z.replace('−', '-')).toBe(`${(z ?? 0) > 0 ? '+' : ''}${(z ?? 0).toFixed(2)}`);
    }
    expect(rows[0]?.baseline.rules).toContain('1-3s');
  });

  it('warns that a rolling mean has followed a drift, which the frozen baseline marks more often', async () => {
    const drifting = Array.from({ length: 40 }, (_, index) =>
      run(20 + index, 3 + ((pi[index % 25] ?? 4.5) - 4.5) / 200 + 0.0009 * index),
    );
    const quiet = draft('policy-set', {
      policyId: 'policy-quiet',
      analyzerId: ids.analyzer,
      // Warnings only: no failure opens, so that every run may enter a mean.
      policy: policyWith({
        severity: {
          '1-3s': 'warning',
          '2-2s': 'warning',
          'R-4s': 'off',
          '4-1s': 'warning',
          '10x': 'warning',
        },
      }),
      from: '2025-01-01T00:00:00.000Z',
      reason: 'Trial.',
    });
    const { built, logbook } = await desk([quiet, ...steady(20), ...drifting]);
    const comparison = compareLimits(built, logbook);
    expect(comparison?.hasWalked).toBe(true);
    expect(comparison?.drift).toMatch(
      /^A rolling mean would have walked \d\.\d SD up from the first baseline, beyond 1 SD/,
    );
    expect(comparison?.summary).toMatch(/a frozen baseline would have marked 8 and rolling limits [0-7]\./);
  });

  it('does not know of a walk before the first baseline is full, and is none without a run', async () => {
    const { built, logbook } = await desk(steady(12));
    expect(compareLimits(built, logbook)).toMatchObject({
      hasWalked: false,
      drift: expect.stringMatching(/is known once/),
    });
    const empty = await desk([]);
    expect(compareLimits(empty.built, empty.logbook)).toBeNull();
  });
});
