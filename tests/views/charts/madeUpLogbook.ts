/**
 * A small invented laboratory for the tests of the charts. One fixed factor of 1 and no dead space, so that the
 * simulated VA is the VA that was typed and every expected number can be read off the test.
 */
import { publishedLimits2017 } from '../../../src/core/index.ts';
import {
  type AnalyzerDescription,
  type Entry,
  type EntryBody,
  type EntryKind,
  entrySchema,
  type RunBody,
} from '../../../src/journal/entries.ts';
import { foldJournal } from '../../../src/journal/fold.ts';
import { assessEach } from '../../../src/views/assessEach.ts';
import type { ChartSeries } from '../../../src/views/charting/runSeries.ts';

export const analyzerId = 'analyzer-one';
export const otherAnalyzerId = 'analyzer-two';
export const technologistId = 'technologist-ab';
const syringeId = 'syringe-one';

/** Monday 6 January 2025, 08:00 UTC: week 0. */
export const firstMonday = Date.UTC(2025, 0, 6, 8);
export const weekMs = 7 * 86_400_000;
export const week = (index: number) => firstMonday + index * weekMs;
export const instant = (at: number) => new Date(at).toISOString();

let written = 0;

/** An entry of one workstation's chain, numbered in the order of writing; its hash is made up. */
export function entry<K extends EntryKind>(
  kind: K,
  body: EntryBody<K>,
  at: number,
  by = technologistId,
): Entry {
  written += 1;
  return entrySchema.parse({
    id: `entry-${String(written).padStart(6, '0')}`,
    workstation: 'workstation-one',
    seq: written,
    prev: '',
    at: instant(at),
    zone: 'Etc/UTC',
    by,
    version: 1,
    hash: '0'.repeat(64),
    kind,
    body,
  });
}

const analyzerDescription = (label: string): AnalyzerDescription => ({
  label,
  place: '',
  serial: '',
  syringeId,
  route: 'patient-test',
  conversion: { kind: 'fixed', factor: 1 },
  vaReportedAs: 'BTPS',
  analyzerDeadSpaceL: 0,
  volumeInsideL: 0,
  pressureUnit: 'mmHg',
  dlcoUnit: 'mL/min/mmHg',
});

export const equipment: readonly Entry[] = [
  entry(
    'technologist-added',
    { technologistId, name: 'Ana Brook', initials: 'AB', role: 'supervisor' },
    firstMonday - weekMs,
  ),
  entry(
    'syringe-added',
    {
      syringeId,
      label: 'Syringe 1',
      serial: '',
      volumeL: 3,
      deadSpaceL: 0,
      calibrationDueOn: null,
      leakCheckDueOn: null,
    },
    firstMonday - weekMs,
  ),
  entry('analyzer-added', { analyzerId, ...analyzerDescription('Room 2') }, firstMonday - weekMs),
  entry(
    'analyzer-added',
    { analyzerId: otherAnalyzerId, ...analyzerDescription('Room 5') },
    firstMonday - weekMs,
  ),
];

export interface RunSketch {
  id: string;
  at: number;
  vaL: number;
  dlco?: number;
  change?: Partial<RunBody>;
}

const notJudged = { n: 0, mean: null, sd: null, z: null, signals: [] };

export function runEntry({ id, at, vaL, dlco = 0.01, change = {} }: RunSketch): Entry {
  return entry(
    'run-recorded',
    {
      runId: id,
      origin: { kind: 'bench' },
      madeAt: instant(at),
      analyzerId,
      syringeId,
      technologistId,
      method: 'syringe',
      route: 'patient-test',
      reason: 'weekly',
      ambient: { temperatureC: 22, barometricMmHg: 760 },
      pressureAsTyped: { value: 760, unit: 'mmHg' },
      reading: { vaL, vaReportedAs: 'BTPS', dlco, dlcoUnit: 'mL/min/mmHg' },
      conversion: { kind: 'fixed', factor: 1 },
      syringe: { strokeL: 3, volumeInsideL: 0, deadSpaceL: 0 },
      analyzerDeadSpaceL: 0,
      limits: publishedLimits2017,
      comment: '',
      judged: {
        word: 'pass',
        establishing: true,
        failureOpen: false,
        va: { ...notJudged, value: vaL },
        dlco: { ...notJudged, value: dlco },
      },
      ...change,
    },
    at,
  );
}

/**
 * Twenty readings of mean 3.000 L and sample SD 0.018918 L (Python 3, statistics.mean and statistics.stdev); of the
 * first ten 3.000 and 0.019437. No rule fires on them.
 */
export const steadyVa = [
  3.01, 2.98, 3.02, 2.97, 3.0, 3.03, 2.99, 3.01, 2.98, 3.01, 2.98, 3.02, 2.97, 3.0, 3.03, 2.99, 3.01, 2.98,
  3.01, 3.01,
];

/** Weekly runs `run-0000`, `run-0001`, … from week 0 on. */
export function weeklyRuns(values: readonly number[], from = 0): Entry[] {
  return values.map((vaL, index) =>
    runEntry({
      id: runId(from + index),
      at: week(from + index),
      vaL,
      dlco: ((index * 7) % 5) * 0.02 - 0.04,
    }),
  );
}

export const runId = (index: number) => `run-${String(index).padStart(4, '0')}`;

export const vaSeries: ChartSeries = {
  analyzerId,
  method: 'syringe',
  route: 'patient-test',
  quantity: 'va',
};
export const dlcoSeries: ChartSeries = { ...vaSeries, quantity: 'dlco' };

/** The logbook that some entries make, with every run assessed. */
export function opened(entries: readonly Entry[]) {
  const logbook = foldJournal([...equipment, ...entries]);
  const { assessments, impossible } = assessEach(
    logbook.runs.map(({ simulation }) => simulation),
    logbook,
  );
  return { logbook, assessments, impossible };
}
