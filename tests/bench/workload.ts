import {
  defaultControlPolicy,
  evaluateSeries,
  publishedLimits2017,
  type Quantity,
  reduceRun,
  type SeriesClosure,
  type SeriesPoint,
  type SimulationRun,
} from '../../src/core/index.ts';
import { seededRandom } from '../../src/core/runLengthSimulation.ts';

const week = 7 * 24 * 3600 * 1000;
const minute = 60_000;

export interface Laboratory {
  runs: SimulationRun[];
  closures: SeriesClosure[];
}

/**
 * Weekly good runs of many analyzers, read off a display, one in a thousand far out; every failure is closed a minute after
 * the run that opened it. Two series (VA, DLCO) an analyzer. The same each time.
 */
export function laboratory(runCount: number, analyzers: number): Laboratory {
  const random = seededRandom(2026);
  // The sum of twelve uniform numbers is near enough to normal for a workload.
  const scatter = () => {
    let sum = -6;
    for (let part = 0; part < 12; part += 1) sum += random();
    return sum;
  };
  const runs: SimulationRun[] = [];
  for (let index = 0; index < runCount; index += 1) {
    const analyzer = index % analyzers;
    const run: SimulationRun = {
      id: `run-${index}`,
      at: Math.floor(index / analyzers) * week + analyzer * 2 * minute,
      analyzerId: `analyzer-${analyzer}`,
      method: 'syringe',
      route: 'patient-test',
      epoch: 0,
      ambient: {
        temperatureC: 22 + Math.round(scatter() * 10) / 10,
        barometricMmHg: 755 + Math.round(scatter() * 50) / 10,
      },
      conversion: { kind: 'computed', assumed: 'ATPD' },
      reading: {
        vaL: Math.round((3.48 + scatter() * 0.035 + (random() < 0.001 ? 0.5 : 0)) * 100) / 100,
        vaReportedAs: 'BTPS',
        dlco: Math.round(scatter() * 12) / 100,
        dlcoUnit: 'mL/min/mmHg',
      },
      syringe: { strokeL: 3, volumeInsideL: 0, deadSpaceL: 0.11 },
      analyzerDeadSpaceL: 0,
      limits: { ...publishedLimits2017 },
    };
    runs.push(run);
  }
  const ownRuns = Array.from({ length: analyzers }, (_, analyzer) =>
    runs.filter((_run, index) => index % analyzers === analyzer),
  );
  return { runs, closures: ownRuns.flatMap(closuresOf) };
}

/** One after every run closes the same failures as one after each run that opens one: the others find none open. */
function closuresOf(own: readonly SimulationRun[]): SeriesClosure[] {
  const soonAfter = own.map(({ at }) => at + minute);
  const series: Record<Quantity, SeriesPoint[]> = { va: [], dlco: [] };
  for (const run of own) {
    const { id, at, epoch } = run;
    const { simulatedVaL, vaWithinPublished, dlcoMlMinMmHg, dlcoWithinPublished } = reduceRun(run);
    series.va.push({ id, at, epoch, value: simulatedVaL, breached: !vaWithinPublished });
    series.dlco.push({ id, at, epoch, value: dlcoMlMinMmHg, breached: !dlcoWithinPublished });
  }
  return (['va', 'dlco'] as const).flatMap((quantity) =>
    evaluateSeries(series[quantity], defaultControlPolicy, soonAfter).flatMap(({ failureOpen }, index) => {
      const run = own[index];
      if (!failureOpen || run === undefined) return [];
      const { analyzerId, method, route, at } = run;
      return [{ analyzerId, method, route, quantity, at: at + minute }];
    }),
  );
}
