import { describe, expect, it } from 'vitest';
import { defaultControlPolicy } from '../../../src/core/index.ts';
import { buildBudget } from '../../../src/views/notice/buildBudget.ts';
import {
  alarmsPerYear,
  buildFalseAlarms,
  falseAlarmQuestions,
  fleetOf,
} from '../../../src/views/notice/buildFalseAlarms.ts';
import { ownSpreads, type RouteSpreads } from '../../../src/views/notice/ownSpreads.ts';
import { policyNotes } from '../../../src/views/notice/policyNotes.ts';
import { howOften } from '../../../src/views/notice/runsPerWeek.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { scheduleSet } from '../checkDrafts.ts';
import { builtInRun, tenPairs } from '../compare/pairRuns.ts';
import { baseline, draft, ids, opened, run, tenGoodRuns, week } from '../laboratory.ts';
import { limitsAdopted, policySet, policyWith } from '../settingDrafts.ts';
import { answered, onlyRules, vaSpread } from './spreads.ts';

const now = Date.parse(week(20));
const asked = { inForce: defaultControlPolicy, whatIf: null, counting: 'signal', runsPerWeek: 1 } as const;

async function spreadsOf(drafts: Parameters<typeof opened>[0]): Promise<RouteSpreads[]> {
  const { logbook, assessments } = await opened(drafts);
  return ownSpreads(logbook, assessments, ids.analyzer, now);
}

const onlyOne = <T>(all: readonly T[]): T => {
  const [one, ...others] = all;
  if (one === undefined || others.length > 0) throw new Error(`${all.length} instead of one`);
  return one;
};

describe('own spreads', () => {
  it('are those that the next run is judged by, with the interval of the SD', async () => {
    const { route, va, dlco } = onlyOne(await spreadsOf(tenGoodRuns()));
    expect(route).toBe('patient-test');
    expect(va).toMatchObject({ n: 10, unit: 'L', published: { low: 2.7, high: 3.3 } });
    // By hand: squared deviations from 3.000 add up to 0.0042, over 9: 0.0216 L.
    expect(va.own?.mean).toBeCloseTo(3, 10);
    expect(va.own?.sd).toBeCloseTo(Math.sqrt(0.0042 / 9), 10);
    // Printed chi-square table, 9 degrees of freedom: 2.700 and 19.023.
    expect(va.own?.interval.lower).toBeCloseTo(Math.sqrt(0.0042 / 19.023), 5);
    expect(va.own?.interval.upper).toBeCloseTo(Math.sqrt(0.0042 / 2.7), 5);
    expect(dlco.unit).toBe('mL/min/mmHg');
  });

  it('are none before there are enough runs, after a new baseline, or where all are alike', async () => {
    const few = onlyOne(await spreadsOf(tenGoodRuns().slice(0, 9)));
    expect(few.va).toMatchObject({ n: 9, own: null });
    const anew = onlyOne(await spreadsOf([...tenGoodRuns(), baseline(week(11))]));
    expect(anew.va).toMatchObject({ n: 0, own: null });
    const alike = onlyOne(await spreadsOf(Array.from({ length: 12 }, (_, index) => run(index, 3))));
    expect(alike.va).toMatchObject({ n: 12, own: null });
  });

  it('are one of each route, and leave a voided run out', async () => {
    expect((await spreadsOf(tenPairs())).map(({ route }) => route)).toEqual(['patient-test', 'built-in']);
    const voided = draft('run-voided', { runId: ids.run(9), reason: 'Wrong analyzer.' });
    const { va, newest } = onlyOne(await spreadsOf([...tenGoodRuns(), voided]));
    expect(va).toMatchObject({ n: 9, own: null });
    expect(newest.id).toBe(ids.run(8));
    expect(await spreadsOf([])).toEqual([]);
  });

  it('take the published limits of today, and DLCO in the unit of the newest run', async () => {
    const adopted = limitsAdopted(week(12), { vaToleranceL: 0.2, dlcoMmolMinKPa: 0.15 });
    const reading = { vaL: 3, vaReportedAs: 'BTPS' as const, dlco: 0.01, dlcoUnit: 'mmol/min/kPa' as const };
    const { va, dlco } = onlyOne(await spreadsOf([...tenGoodRuns(), run(10, 3, { reading }), adopted]));
    expect(va.published).toEqual({ low: 2.8, high: 3.2, edition: 'House 2026' });
    expect(dlco).toMatchObject({ unit: 'mmol/min/kPa', published: { low: -0.15, high: 0.15 } });
  });
});

describe('how often runs are made', () => {
  it('is the usual week, the own schedule, or a week where none is made', async () => {
    const words = async (...drafts: Parameters<typeof scheduleSet>[]) =>
      howOften((await opened(drafts.map((given) => scheduleSet(...given)))).logbook);
    expect(await words()).toEqual({
      runsPerWeek: 1,
      words: 'Reckoned for one run a week by each route: the usual schedule.',
    });
    expect(await words(['simulation', { every: { unit: 'days', count: 14 } }])).toEqual({
      runsPerWeek: 0.5,
      words: 'Reckoned for one run every 14 days by each route: your schedule.',
    });
    expect((await words(['simulation', { every: { unit: 'months', count: 1 } }])).runsPerWeek).toBeCloseTo(
      0.23,
      2,
    );
    expect((await words(['simulation', { isMade: false, every: null }])).runsPerWeek).toBe(1);
  });
});

describe('false alarms', () => {
  const only13 = onlyRules(['1-3s']);

  it('of six analyzers with two series each under 1-3s are 1.7 a year', () => {
    // 6 · 2 · 52.18 / 370.4, by hand.
    const fleet = Array.from({ length: 6 }, () => ({ series: 2, policy: only13 }));
    const known = answered(falseAlarmQuestions(fleet, { ...asked, inForce: only13 }));
    expect(alarmsPerYear(fleet, asked, known)).toBeCloseTo(1.69, 2);
    expect(
      buildFalseAlarms({ series: 2, policy: only13 }, fleet, { ...asked, inForce: only13 }, known),
    ).toEqual([
      { of: 'This analyzer, 2 series', inForce: '1 in 4 years', whatIf: null },
      { of: 'Fleet: 6 analyzers, 12 series', inForce: '1.7 a year', whatIf: null },
    ]);
  });

  it('are added up by each analyzer’s own policy, and by the rules tried on all of them', () => {
    const fleet = [
      { series: 2, policy: only13 },
      { series: 4, policy: onlyRules([]) },
    ];
    const question = { ...asked, inForce: only13, whatIf: onlyRules(['1-2s']) };
    const known = answered(falseAlarmQuestions(fleet, question));
    const [, all] = buildFalseAlarms({ series: 2, policy: only13 }, fleet, question, known);
    // 2 · 52.18 / 370.4 = 0.28; 6 · 52.18 / 21.98 = 14.2.
    expect(all).toMatchObject({ inForce: '1 in 4 years', whatIf: '14 a year' });
    expect(buildFalseAlarms({ series: 4, policy: onlyRules([]) }, fleet, question, known)[0]?.inForce).toBe(
      'none',
    );
    expect(buildFalseAlarms({ series: 2, policy: only13 }, fleet, question, new Map())[1]?.inForce).toBe(
      'computing…',
    );
  });

  it('come from analyzers in use that have been run, by each route', async () => {
    const other = { ...analyzerAdded, label: 'Room 5' };
    const { logbook } = await opened([
      ...tenPairs(),
      draft('analyzer-added', { ...other, analyzerId: 'analyzer-never-run' }),
      draft('analyzer-added', { ...other, analyzerId: 'analyzer-retired' }),
      run(90, 3, { analyzerId: 'analyzer-retired' }),
      draft('analyzer-retired', { analyzerId: 'analyzer-retired', reason: 'Worn out.' }),
      policySet(week(5), policyWith({ severity: { '1-2s': 'off' } })),
    ]);
    const fleet = fleetOf(logbook, week(20));
    expect(fleet.map(({ series }) => series)).toEqual([4]);
    expect(fleet[0]?.policy.severity['1-2s']).toBe('off');
  });
});

describe('the uncertainty budget', () => {
  // Fixed factor 1 and no dead space in these runs: syringe 8.66, dead space 5.77, display 2.89 mL, together 10.8.
  it('lists every source with its share, and what it comes to', async () => {
    const table = buildBudget(await spreadsOf(tenGoodRuns()));
    expect(table?.rows).toEqual([
      { source: 'Stroke of the syringe', knownTo: '± 15 mL', addsMl: '8.7', sharePercent: '64' },
      { source: 'Temperature', knownTo: '± 1 °C', addsMl: '0.0', sharePercent: '0' },
      { source: 'Pressure', knownTo: '± 19 mmHg', addsMl: '0.0', sharePercent: '0' },
      { source: 'Dead space', knownTo: '± 10 mL', addsMl: '5.8', sharePercent: '29' },
      { source: 'Display of VA', knownTo: '± 5 mL', addsMl: '2.9', sharePercent: '7' },
    ]);
    expect(table?.standard).toBe('Standard uncertainty 10.8 mL; expanded (k = 2, about 95 %) 21.6 mL.');
    expect(table?.thresholds).toMatch(
      /^Expected: an SD from 2\.9 mL .* to 54\.0 mL \(five times the budget\)/,
    );
    expect(buildBudget([])).toBeNull();
  });

  it('says of each route whether its runs scatter as expected', async () => {
    const [patientTest] = await spreadsOf(tenGoodRuns());
    if (patientTest === undefined) throw new Error('no route');
    const said = (sd: number | null, n = 20) => {
      const va = vaSpread(sd === null ? null : { mean: 3, sd }, { n });
      return buildBudget([{ ...patientTest, va }])?.comparisons;
    };
    expect(said(0.0216)).toEqual(['Patient test: the SD of 20 runs is 21.6 mL, as the budget lets expect.']);
    expect(said(0.001)?.[0]).toMatch(
      /1\.0 mL, much smaller than the budget lets expect: are values copied or rounded\?$/,
    );
    expect(said(null)?.[0]).toMatch(/0\.0 mL, much smaller/);
    expect(said(0.2)?.[0]).toMatch(
      /200\.0 mL, much larger than the budget lets expect: technique, or a fault\?$/,
    );
    expect(said(null, 7)?.[0]).toBe('Patient test: 7 accepted runs, too few to compare.');
  });

  it('is none where the newest run lies at the edge of what can be', async () => {
    // 4 mL, and 5 mL of them unknown.
    expect(buildBudget(await spreadsOf([run(0, 0.004)]))).toBeNull();
    const frozen = run(0, 3, {
      ambient: { temperatureC: 0.5, barometricMmHg: 760 },
      conversion: { kind: 'computed', assumed: 'ATPS' },
    });
    expect(buildBudget(await spreadsOf([frozen]))).toBeNull();
  });

  it('is that of the newest run of either route', async () => {
    const spreads = await spreadsOf([...tenPairs(), builtInRun(15, 3)]);
    expect(buildBudget(spreads)?.of).toBe('Of a simulated VA such as that of 20 Apr 2026.');
  });
});

describe('what the figures do not tell of a policy', () => {
  it('is nothing of the usual one, and how far few runs widen the limits', async () => {
    const spreads = await spreadsOf(tenGoodRuns());
    expect(policyNotes(defaultControlPolicy, spreads)).toEqual([]);
    // Prediction factors at n = 10: 4.294 for 3 SD; 2.4 for 2 SD from t(9; 0.97725) = 2.32 · √1.1.
    expect(policyNotes({ ...defaultControlPolicy, smallSample: true }, spreads)[0]).toMatch(
      /with 10 of them 2 and 3 SD stand at 2\.4 and 4\.3 SD\./,
    );
    expect(policyNotes({ ...defaultControlPolicy, limits: 'rolling' }, spreads)[0]).toMatch(
      /^The own limits are rolling/,
    );
  });
});
