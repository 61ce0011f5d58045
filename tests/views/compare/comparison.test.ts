import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { buildAnalyzerChoices } from '../../../src/views/compare/buildAnalyzerChoices.ts';
import { buildDifferenceChart, mostPairsDrawn } from '../../../src/views/compare/buildDifferenceChart.ts';
import { buildPairRows } from '../../../src/views/compare/buildPairRows.ts';
import { compareRoutes, daysWithOneRoute, routeToRunToday } from '../../../src/views/compare/comparison.ts';
import { differenceScale } from '../../../src/views/compare/differenceScale.ts';
import { baseline, draft, ids, opened, run, week } from '../laboratory.ts';
import { builtInRun, later, pairRuns, tenPairs, zone } from './pairRuns.ts';

async function compared(drafts: readonly EntryDraft[]) {
  const { logbook, assessments } = await opened(drafts);
  return compareRoutes(logbook, assessments, ids.analyzer, zone);
}

const voidOf = (number: number) =>
  draft('run-voided', { runId: ids.run(number), reason: 'The hose was off.' });
const vaScale = differenceScale('va', 'mL/min/mmHg');

describe('compareRoutes', () => {
  it('pairs the runs of one analyzer and judges the newest pair by those before', async () => {
    const { pairs } = await compared([...tenPairs(), ...pairRuns(10, 3.04, 3)]);
    expect(pairs).toHaveLength(11);
    const newest = pairs.at(-1);
    expect(newest?.va.n).toBe(10);
    expect(newest?.va.mean).toBeCloseTo(0.01, 9);
    // By hand, see tenPairs: (40 − 10) / 10.54.
    expect(newest?.va.z).toBeCloseTo(2.846, 3);
  });

  it('leaves out voided runs, other gas and other analyzers', async () => {
    const other = draft('analyzer-added', {
      analyzerId: 'analyzer-room-9',
      label: 'Room 9',
      place: '',
      serial: '',
      syringeId: ids.syringe,
      route: 'patient-test',
      conversion: { kind: 'fixed', factor: 1 },
      vaReportedAs: 'BTPS',
      analyzerDeadSpaceL: 0,
      volumeInsideL: 0,
      pressureUnit: 'mmHg',
      dlcoUnit: 'mL/min/mmHg',
    });
    const { pairs, alone } = await compared([
      other,
      ...pairRuns(0, 3.01, 3),
      voidOf(500),
      run(1, 3),
      builtInRun(1, 3, { method: 'precision-gas' }),
      run(2, 3),
      builtInRun(2, 3, { analyzerId: 'analyzer-room-9' }),
    ]);
    expect(pairs).toEqual([]);
    expect(alone.map(({ id }) => id)).toEqual([0, 1, 2].map(ids.run));
  });

  it('does not let a failing run make a fault usual', async () => {
    // The patient test of week 9 breaks the published 300 mL; the failure it opens stays open.
    const runs = tenPairs().slice(0, 18);
    const { pairs } = await compared([...runs, ...pairRuns(9, 3.4, 3), ...pairRuns(10, 3.4, 3)]);
    expect(pairs.slice(-2).map(({ va }) => [va.n, va.accepted])).toEqual([
      [9, false],
      [9, false],
    ]);
  });
});

describe('routeToRunToday', () => {
  const now = Date.parse(later(week(1), 120));

  it('is the other one where today has one', async () => {
    const patientTest = await compared([...pairRuns(0, 3, 3), run(1, 3)]);
    expect(routeToRunToday(patientTest, now, zone)).toBe('built-in');
    expect(routeToRunToday(await compared([builtInRun(1, 3)]), now, zone)).toBe('patient-test');
  });

  it('is none where today has both, or neither', async () => {
    const repeated = await compared([...pairRuns(1, 3, 3), run(2, 3, { madeAt: later(week(1), 30) })]);
    expect(routeToRunToday(repeated, now, zone)).toBeNull();
    expect(routeToRunToday(await compared([run(0, 3)]), now, zone)).toBeNull();
    expect(routeToRunToday(await compared([]), now, zone)).toBeNull();
  });
});

describe('daysWithOneRoute', () => {
  it('counts days, not runs, and none that has a pair', async () => {
    const comparison = await compared([
      ...pairRuns(0, 3, 3),
      run(20, 3, { madeAt: later(week(0), 40) }),
      run(1, 3),
      run(21, 3, { madeAt: later(week(1), 40) }),
      builtInRun(2, 3),
      run(3, 3),
    ]);
    expect(daysWithOneRoute(comparison)).toEqual({ 'patient-test': 2, 'built-in': 1 });
  });
});

describe('buildPairRows', () => {
  it('writes every cell, newest first', async () => {
    const rows = buildPairRows(await compared([...tenPairs(), ...pairRuns(10, 3.05, 3)]));
    expect(rows.map(({ day }) => day).slice(0, 2)).toEqual(['16 Mar 2026', '9 Mar 2026']);
    const { finding, ...cells } = rows[0]?.va ?? {};
    expect(cells).toEqual({
      patientTest: '3.050',
      builtIn: '3.000',
      difference: '+50',
      usual: '10 ± 11',
      // (50 − 10) / 10.54
      z: '+3.79',
    });
    expect(finding).toBe('parted');
    expect(rows[1]?.va).toMatchObject({ difference: '0', usual: '–', z: '–', finding: 'unknown' });
    expect(rows[0]?.dlco).toMatchObject({ patientTest: '0.01', difference: '0.00', z: '–' });
    expect(rows[0]?.patientTest.id).toBe(ids.run(10));
  });

  it('writes DLCO in the unit of the newest run throughout', async () => {
    const reading = { vaL: 3, vaReportedAs: 'BTPS', dlco: 0.1, dlcoUnit: 'mmol/min/kPa' } as const;
    const [row] = buildPairRows(
      await compared([run(0, 3, { dlco: 0.2987 * 2 }), builtInRun(0, 3, { reading })]),
    );
    // 1 mmol/min/kPa is 2.987 mL/min/mmHg: 2017 ERS/ATS DLCO standard, recalled.
    expect(row?.dlco).toMatchObject({ patientTest: '0.200', builtIn: '0.100', difference: '+0.100' });
  });
});

describe('buildDifferenceChart', () => {
  const chart = async (drafts: readonly EntryDraft[]) =>
    buildDifferenceChart((await compared(drafts)).pairs, vaScale);

  it('is none without a pair, and holds one in its middle', async () => {
    expect(await chart([])).toBeNull();
    const one = await chart(pairRuns(0, 3.02, 3));
    expect(one?.points.map(({ x }) => x)).toEqual([50]);
    expect([one?.hairlines, one?.bands]).toEqual([[], []]);
  });

  it('stands in real time, with 0 on its axis, and marks what has parted', async () => {
    const model = await chart([...tenPairs(), ...pairRuns(10, 3.05, 3), ...pairRuns(20, 3.01, 3)]);
    const points = model?.points ?? [];
    expect(points[0]?.x).toBe(0);
    expect(points[10]?.x).toBeCloseTo(50, 9);
    expect(points.at(-1)?.x).toBe(100);
    expect(points.map(({ mark }) => mark).filter((mark) => mark !== null)).toEqual(['fail']);
    expect(points.map(({ judged }) => judged)).toEqual([...Array(10).fill(false), true, true]);
    // 0 mL is read by the second pair, 20 by the first.
    expect(points[1]?.y).toBeCloseTo(model?.zeroY ?? Number.NaN, 6);
    expect(points[0]?.y).toBeLessThan(model?.zeroY ?? 0);
    expect(model?.bands).toHaveLength(2);
    for (const { y } of points) expect(y > 0 && y < 100).toBe(true);
    expect(model?.description).toBe(
      '12 pairs from 5 Jan 2026 to 25 May 2026: patient test less built-in routine lies between 0 and +50 mL, newest +10 mL. The pair table has the same numbers.',
    );
  });

  it('draws its band from mean less to mean plus 2 SD', async () => {
    const model = await chart([...tenPairs(), ...pairRuns(10, 3.01, 3)]);
    const [band] = model?.bands ?? [];
    // Per mL on the axis, by the pairs of 0 and 20 mL; 4 · 10.54 mL high about 10 mL.
    const perMl = ((model?.zeroY ?? 0) - (model?.points[0]?.y ?? 0)) / 20;
    expect((band?.height ?? 0) / perMl).toBeCloseTo(42.16, 2);
    expect(((model?.zeroY ?? 0) - (band?.meanY ?? 0)) / perMl).toBeCloseTo(10, 6);
  });

  it('breaks its line where a new baseline began', async () => {
    const model = await chart([...tenPairs().slice(0, 8), baseline(later(week(2), -60))]);
    expect(model?.points).toHaveLength(4);
    expect(model?.hairlines).toHaveLength(2);
    expect(model?.epochs).toHaveLength(1);
  });

  it('draws the newest of very many', async () => {
    const many = Array.from({ length: mostPairsDrawn + 4 }, (_, index) => pairRuns(index, 3.02, 3)).flat();
    const model = await chart(many);
    expect(model?.points).toHaveLength(mostPairsDrawn);
    expect(model?.firstDay).toBe('2 Feb 2026');
  });
});

describe('buildAnalyzerChoices', () => {
  it('says by which routes each was run', async () => {
    const routes = async (drafts: readonly EntryDraft[]) =>
      buildAnalyzerChoices((await opened(drafts)).logbook).map((choice) => choice.routes);
    expect(await routes([])).toEqual(['no syringe run yet']);
    expect(await routes([run(0, 3)])).toEqual(['patient test only']);
    expect(await routes([builtInRun(0, 3)])).toEqual(['built-in routine only']);
    expect(await routes([...pairRuns(0, 3, 3), voidOf(0)])).toEqual(['built-in routine only']);
    expect(await routes(pairRuns(0, 3, 3))).toEqual(['both routes']);
  });
});
