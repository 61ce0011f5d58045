/**
 * How long judging a laboratory takes, against what no program could do without: one pass over the same numbers, and reading
 * the same records from storage. All in one process; ratios of the quickest of many rounds, which other work on the machine
 * disturbs least. Prints a table and one line of JSON; exits with 1 when a budget is missed.
 */
import {
  assessRuns,
  defaultControlPolicy,
  evaluateSeries,
  type SeriesPoint,
  type SimulationRun,
} from '../../src/core/index.ts';
import { type Laboratory, laboratory } from './workload.ts';

const analyzers = 20;
const runCount = 100_000;
const rollingFromTheStart = [{ from: 0, policy: { ...defaultControlPolicy, limits: 'rolling' as const } }];

interface Measured {
  name: string;
  work: () => unknown;
  rounds: number;
  best: number;
}

/** Keeps results alive, so that nothing is found to be useless and left out. */
let kept: unknown;

/** Takes the works in turn, round after round, so that a disturbance meets all of them. */
function measure(works: readonly Measured[]): void {
  const most = Math.max(...works.map(({ rounds }) => rounds));
  for (let round = 0; round < most; round += 1) {
    for (const each of works) {
      if (round >= each.rounds) continue;
      const start = performance.now();
      kept = each.work();
      each.best = Math.min(each.best, performance.now() - start);
    }
  }
}

function work(name: string, rounds: number, what: () => unknown): Measured {
  return { name, work: what, rounds, best: Number.POSITIVE_INFINITY };
}

function sums(values: Float64Array): number {
  let sum = 0;
  let squares = 0;
  for (let index = 0; index < values.length; index += 1) {
    const value = values[index] ?? 0;
    sum += value;
    squares += value * value;
  }
  return sum + squares;
}

/** The values that the series are made of: simulated VA and DLCO of every run. */
function valuesOf({ runs, closures }: Laboratory): Float64Array {
  const values = new Float64Array(2 * runs.length);
  for (const [index, { numbers }] of [...assessRuns(runs, { closures }).values()].entries()) {
    values[2 * index] = numbers.simulatedVaL;
    values[2 * index + 1] = numbers.dlcoMlMinMmHg;
  }
  return values;
}

function seriesOf(runs: readonly SimulationRun[], values: Float64Array): SeriesPoint[][] {
  const series: SeriesPoint[][] = Array.from({ length: 2 * analyzers }, () => []);
  for (const [index, { id, at, epoch }] of runs.entries()) {
    for (const quantity of [0, 1]) {
      series[2 * (index % analyzers) + quantity]?.push({
        id,
        at,
        epoch,
        value: values[2 * index + quantity] ?? 0,
      });
    }
  }
  return series;
}

/** The time of judging one more run behind this many of its series, as at every key pressed on the bench. */
function oneMoreRun(length: number): Measured {
  const { runs, closures } = laboratory(length, 1);
  const assessments = assessRuns(runs, { closures, policyStepsFor: () => rollingFromTheStart });
  const [first] = runs;
  const newest = runs.at(-1);
  if (first === undefined || newest === undefined) throw new Error('the workload has no runs');
  const next = { ...first, id: 'next', at: newest.at + 1 };
  const batch = 1000;
  return work(`${batch} times one more run behind ${length.toLocaleString('en')}`, 60, () => {
    for (let index = 0; index < batch; index += 1) kept = assessments.oneMore(next);
    return kept;
  });
}

const small = laboratory(runCount, analyzers);
const large = laboratory(10 * runCount, analyzers);
const values = valuesOf(small);
const series = seriesOf(small.runs, values);
const rollingOptions = { closures: small.closures, policyStepsFor: () => rollingFromTheStart };

const floor = work(`sums and squares of ${values.length.toLocaleString('en')} numbers (the floor)`, 200, () =>
  sums(values),
);
const clone = work('structuredClone of the 100,000 runs', 5, () => structuredClone(small.runs));
const baselineWork = work('judging 100,000 runs, baseline limits', 60, () =>
  assessRuns(small.runs, { closures: small.closures }),
);
const rollingWork = work('judging 100,000 runs, rolling limits', 60, () =>
  assessRuns(small.runs, rollingOptions),
);
const objects = work('the same, and an object made of every run', 5, () => [
  ...assessRuns(small.runs, { closures: small.closures }).values(),
]);
const seriesWork = work('evaluateSeries of the same 40 series, objects and all', 20, () =>
  series.map((points) => evaluateSeries(points, defaultControlPolicy)),
);
const largeWork = work('judging 1,000,000 runs, baseline limits', 15, () =>
  assessRuns(large.runs, { closures: large.closures }),
);
const shortSeries = oneMoreRun(1000);
const longSeries = oneMoreRun(100_000);

measure([floor, baselineWork, rollingWork, seriesWork, objects, clone, largeWork, shortSeries, longSeries]);

const budgets = [
  { name: 'judging / floor', ratio: baselineWork.best / floor.best, budget: 150 },
  { name: 'judging / structuredClone', ratio: baselineWork.best / clone.best, budget: 0.2 },
  { name: '1,000,000 runs / 100,000 runs', ratio: largeWork.best / baselineWork.best, budget: 12 },
  { name: 'rolling / baseline', ratio: rollingWork.best / baselineWork.best, budget: 1.5 },
  { name: 'one more run on 100,000 / on 1,000', ratio: longSeries.best / shortSeries.best, budget: 1.5 },
];

const lines = [
  ...[floor, baselineWork, rollingWork, objects, seriesWork, clone, largeWork, shortSeries, longSeries].map(
    ({ name, best }) => `${name.padEnd(64)} ${best.toFixed(3).padStart(10)} ms`,
  ),
  '',
  ...budgets.map(({ name, ratio, budget }) => {
    const word = ratio <= budget ? 'kept' : 'MISSED';
    return `${name.padEnd(40)} ${ratio.toFixed(3).padStart(10)}   at most ${String(budget).padEnd(5)} ${word}`;
  }),
  '',
  JSON.stringify(Object.fromEntries(budgets.map(({ name, ratio }) => [name, Number(ratio.toFixed(4))]))),
];
process.stdout.write(`${lines.join('\n')}\n`);
process.exitCode = budgets.every(({ ratio, budget }) => ratio <= budget) && kept !== undefined ? 0 : 1;
