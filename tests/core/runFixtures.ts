import { publishedLimits2017, type SimulationRun } from '../../src/core/index.ts';
import { week } from './seriesFixtures.ts';

/** A good weekly run: dry factor 0.8928, simulated VA 2.970 L, DLCO 0.02 mL/min/mmHg. */
export const goodRun: SimulationRun = Object.freeze({
  id: 'r1',
  at: 0,
  analyzerId: 'north',
  method: 'syringe',
  route: 'patient-test',
  epoch: 0,
  ambient: Object.freeze({ temperatureC: 22, barometricMmHg: 760 }),
  conversion: Object.freeze({ kind: 'computed', assumed: 'ATPD' }),
  reading: Object.freeze({ vaL: 3.45, vaReportedAs: 'BTPS', dlco: 0.02, dlcoUnit: 'mL/min/mmHg' }),
  syringe: Object.freeze({ strokeL: 3, volumeInsideL: 0, deadSpaceL: 0.11 }),
  analyzerDeadSpaceL: 0,
  limits: publishedLimits2017,
});

/** Good runs a week apart that scatter about 3.45 L and 0.02 mL/min/mmHg, named by the analyzer and their number. */
export function steadyRuns(count: number, change: Partial<SimulationRun> = {}): SimulationRun[] {
  return Array.from({ length: count }, (_, index) => {
    const side = index % 2 === 0 ? 1 : -1;
    const run = { ...goodRun, ...change };
    return {
      ...run,
      id: `${run.analyzerId} ${run.route} ${index + 1}`,
      at: index * week,
      reading: { ...run.reading, vaL: 3.45 + side * 0.03, dlco: 0.02 + side * 0.05 },
    };
  });
}
