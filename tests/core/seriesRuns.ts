import { publishedLimits2017, type SeriesPoint, type SimulationRun } from '../../src/core/index.ts';
import { goodRun } from './runFixtures.ts';

/** A litre for each unit of a point's value: far from 0, and exact in binary for the eighths that points are made of. */
const offsetL = 64;

/**
 * A series as runs whose simulated VA is a point's value and 64 L, to the last digit: nothing is converted and nothing taken off.
 * The limits of each run are so wide, or so narrow, that it is breached or not as its point says. DLCO is 0 and never judged.
 */
export function runsOfSeries(points: readonly SeriesPoint[]): SimulationRun[] {
  return points.map(({ id, at, value, epoch, excluded, breached }) => ({
    ...goodRun,
    id,
    at,
    epoch,
    excluded,
    conversion: { kind: 'fixed', factor: 1 },
    reading: { vaL: offsetL + value, vaReportedAs: 'BTPS', dlco: 0, dlcoUnit: 'mL/min/mmHg' },
    syringe: { strokeL: 2, volumeInsideL: 0, deadSpaceL: 0 },
    limits: { ...publishedLimits2017, vaToleranceL: breached === true ? 0.001 : 1000 },
  }));
}
