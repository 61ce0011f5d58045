// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { defaultControlPolicy, publishedLimits2017 } from '../../src/core/index.ts';
import { limitsInForce, limitWidths, policyInForce } from '../../src/views/judgedBy.ts';
import { assessOnTheBench } from '../../src/views/runForm/assessOnTheBench.ts';
import { buildVerdictPage } from '../../src/views/runForm/buildVerdictPage.ts';
import { closure, ids, opened, run, tenGoodRuns, theRun, week } from './laboratory.ts';
import { limitsAdopted, policySet, policyWith } from './settingDrafts.ts';

/** Above the ten good runs' mean of 3.000 L by 3.2 of their SD of 0.0216 L. */
const far = 3.07;
const between = (index: number) => week(index + 0.5);

async function signalsOf(drafts: Parameters<typeof opened>[0], ...indices: readonly number[]) {
  const { assessments } = await opened(drafts);
  return indices.map((index) =>
    assessments.get(ids.run(index))?.va.signals.map(({ rule, severity }) => `${rule} ${severity}`),
  );
}

describe('two policies in time', () => {
  const without13s = policyWith({ severity: { '1-3s': 'off' } });

  it('leave a run its signals of before, and judge the next one by the new rules', async () => {
    const drafts = [
      ...tenGoodRuns(),
      run(10, far),
      closure(10, between(10)),
      policySet(between(11), without13s),
      run(12, far),
    ];
    expect(await signalsOf(drafts, 10, 12)).toEqual([['1-2s warning', '1-3s action'], ['1-2s warning']]);
  });

  it('leave a failure open that a rule opened which is off by now', async () => {
    const { assessments } = await opened([
      ...tenGoodRuns(),
      run(10, far),
      policySet(between(10), without13s),
      run(11, 3.0),
    ]);
    expect(assessments.outline(ids.run(11))).toMatchObject({ failureOpen: true });
  });

  it('count for their analyzer alone', async () => {
    const elsewhere = policySet(week(0), without13s, 'another-analyzer');
    expect(await signalsOf([...tenGoodRuns(), elsewhere, run(10, far)], 10)).toEqual([
      ['1-2s warning', '1-3s action'],
    ]);
  });

  it('judge a run on the bench as it will be judged when it is recorded', async () => {
    const before = [...tenGoodRuns(), policySet(between(9), without13s)];
    const { logbook, assessments } = await opened(before);
    const { logbook: after, assessments: afterwards } = await opened([...before, run(10, far)]);
    const typed = theRun(after, 10).body;
    const live = assessOnTheBench({ ...typed }, { logbook, assessments });
    expect(live.va.signals.map(({ rule }) => rule)).toEqual(['1-2s']);
    expect(afterwards.get(ids.run(10))?.va.signals.map(({ rule }) => rule)).toEqual(['1-2s']);
  });

  it('tell of a fewer number of runs where own limits begin earlier', async () => {
    const early = policySet(week(0), policyWith({ minimumSize: 5 }));
    const { logbook, assessments } = await opened([early, ...tenGoodRuns()]);
    const sentence = (index: number) => {
      const { body, id } = theRun(logbook, index);
      const assessment = assessments.get(id);
      if (!assessment) throw new Error(`run ${index} is not assessed`);
      return buildVerdictPage(body, assessment, policyInForce(logbook, body)).found[0];
    };
    expect(sentence(4)).toContain('No own limits yet (4 of 5 runs)');
    expect(sentence(5)).toContain('Inside your 2 SD');
  });
});

describe('policyInForce', () => {
  it('is the usual one before the first, and from its own instant on the new one', async () => {
    const policy = policyWith({ limits: 'rolling' });
    const { logbook } = await opened([policySet(week(3), policy)]);
    const at = (madeAt: string) => policyInForce(logbook, { analyzerId: ids.analyzer, madeAt });
    expect(at(week(2))).toEqual(defaultControlPolicy);
    expect(at(week(3))).toEqual(policy);
    expect(at(week(40))).toEqual(policy);
  });
});

describe('limitsInForce', () => {
  it('is the built-in edition up to the adoption of another', async () => {
    const { logbook } = await opened([limitsAdopted(week(3), { vaToleranceL: 0.2 })]);
    expect(limitsInForce(logbook, week(2))).toEqual(publishedLimits2017);
    expect(limitsInForce(logbook, week(3))).toMatchObject({ edition: 'House 2026', vaToleranceL: 0.2 });
  });
});

describe('limits widened for few runs', () => {
  // t(n − 1; 1 − α/2)·√(1 + 1/n) for α/2 = 0.00135: scipy and R agree on 4.294 at n = 10, 3.532 at 20 and 3.093 at 100.
  it.each([
    [10, 4.294],
    [20, 3.532],
    [100, 3.093],
  ])('of %i runs stand %f SD from the mean', (n, sd) => {
    expect(limitWidths({ smallSample: true }, n).outer).toBeCloseTo(sd, 3);
    expect(limitWidths({ smallSample: false }, n)).toEqual({ inner: 2, outer: 3 });
  });

  it('are said beside the verdict, and pass what the plain ones fail', async () => {
    const widened = policySet(week(0), policyWith({ smallSample: true }));
    const { logbook, assessments } = await opened([widened, ...tenGoodRuns(), run(10, far)]);
    const { body, id } = theRun(logbook, 10);
    const assessment = assessments.get(id);
    if (!assessment) throw new Error('the run is not assessed');
    expect(assessment.verdict.word).toBe('warn');
    expect(buildVerdictPage(body, assessment, policyInForce(logbook, body)).found[0]).toContain(
      'Outside your 2 SD, widened for 10 runs, 70 mL above your mean, inside the published 300 mL.',
    );
  });
});
