import {
  createSeriesEvaluator,
  defaultControlPolicy,
  publishedLimits2017,
  type Quantity,
  reduceRun,
  type SeriesClosure,
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
  const evaluators = Array.from({ length: analyzers }, () => ({
    va: createSeriesEvaluator(defaultControlPolicy),
    dlco: createSeriesEvaluator(defaultControlPolicy),
  }));
  const runs: SimulationRun[] = [];
  const closures: SeriesClosure[] = [];
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
    const numbers = reduceRun(run);
    const { id, at, epoch, analyzerId, method, route } = run;
    const closeIfOpen = (quantity: Quantity, value: number, isWithin: boolean) => {
      const evaluator = evaluators[analyzer]?.[quantity];
      if (!evaluator?.next({ id, at, epoch, value, breached: !isWithin }).failureOpen) return;
      evaluator.close(at + minute);
      closures.push({ analyzerId, method, route, quantity, at: at + minute });
    };
    closeIfOpen('va', numbers.simulatedVaL, numbers.vaWithinPublished);
    closeIfOpen('dlco', numbers.dlcoMlMinMmHg, numbers.dlcoWithinPublished);
  }
  return { runs, closures };
}
