import { publishedLimits2017, type SimulationRun } from '../../src/core/index.ts';

const week = 7 * 24 * 3600 * 1000;
const minute = 60_000;

/** A small generator with a seed, so that every benchmark judges the same runs (mulberry32, public domain). */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * Runs of a laboratory of `analyzers` analyzers in time order: plain good runs as an analyzer displays them, one in a
 * thousand far out, and a closure a week after each. Two series (VA, DLCO) an analyzer.
 */
export function laboratory(
  runCount: number,
  analyzers: number,
): { runs: SimulationRun[]; closeEvery: number } {
  const random = seededRandom(20_26);
  // The sum of twelve uniform numbers: near enough to normal for a workload.
  const scatter = () => Array.from({ length: 12 }, random).reduce((sum, part) => sum + part, -6);
  const runs = Array.from({ length: runCount }, (_, index): SimulationRun => {
    const analyzer = index % analyzers;
    const isFar = random() < 0.001;
    return {
      id: `run-${index}`,
      at: Math.floor(index / analyzers) * week + analyzer * minute,
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
        vaL: Math.round((3.48 + scatter() * 0.035 + (isFar ? 0.5 : 0)) * 100) / 100,
        vaReportedAs: 'BTPS',
        dlco: Math.round(scatter() * 12) / 100,
        dlcoUnit: 'mL/min/mmHg',
      },
      syringe: { strokeL: 3, volumeInsideL: 0, deadSpaceL: 0.11 },
      analyzerDeadSpaceL: 0,
      limits: { ...publishedLimits2017 },
    };
  });
  return { runs, closeEvery: 8 * week };
}
