/** A logbook of many runs, for the tests of how long a page takes to be built of it. */
import type { Logbook, LoggedRun } from '../../src/journal/logbook.ts';
import { assessEach } from '../../src/views/assessEach.ts';
import { analyzerAdded } from '../journal/fixtures.ts';
import { draft, ids, opened, run, theRun } from './laboratory.ts';

export const now = Date.UTC(2026, 10, 25, 8);
const weekMs = 7 * 86_400_000;

/** A laboratory of 20 analyzers with so many weekly runs in all. */
export async function laboratoryWith(runCount: number): Promise<Logbook> {
  const names = Array.from({ length: 19 }, (_, index) => `analyzer-number-${index}`);
  const added = names.map((analyzerId) =>
    draft('analyzer-added', { ...analyzerAdded, analyzerId, label: analyzerId }),
  );
  const { logbook } = await opened([...added, run(0, 3)]);
  const one = theRun(logbook, 0);
  const analyzers = [ids.analyzer, ...names];
  const runs: LoggedRun[] = Array.from({ length: runCount }, (_, index) => {
    const id = ids.run(index);
    const analyzerId = analyzers[index % analyzers.length] ?? ids.analyzer;
    const at = now - Math.ceil((runCount - index) / analyzers.length) * weekMs;
    const reading = { ...one.simulation.reading, vaL: 3 + ((index * 7) % 11) * 0.004 };
    const body = { ...one.body, analyzerId, reading };
    return { ...one, id, body, simulation: { ...one.simulation, id, analyzerId, at, reading } };
  });
  return { ...logbook, runs };
}

export function shortestMs(work: () => unknown): number {
  const times = Array.from({ length: 3 }, () => {
    const begin = performance.now();
    work();
    return performance.now() - begin;
  });
  return Math.min(...times);
}

/** Made anew, as after a save: no series has been opened and no run looked into. */
export const assessmentsOf = (logbook: Logbook) =>
  assessEach(
    logbook.runs.map(({ simulation }) => simulation),
    logbook,
  ).assessments;
