import {
  type BiologicalAssessment,
  type BiologicalTest,
  publishedCheckLimits,
  type SimulatorSession,
} from '../../src/core/index.ts';
import { week } from './seriesFixtures.ts';

export const { fraction, dlcoMlMinMmHg } = publishedCheckLimits.biological;

/** Six tests of mean 25.0 mL/min/mmHg and SD 1 (by hand: squares 1.25 four times and twice 0 sum to 5; 5/5), CV 4 %. */
const distance = Math.sqrt(1.25);
export const sixTests: readonly number[] = Object.freeze([
  25 + distance,
  25 - distance,
  25,
  25 + distance,
  25 - distance,
  25,
]);

/** A test a week of one person on one analyzer, named t1, t2 …; VA 6 L, give or take 60 mL in turn. */
export function biologicalTests(
  dlco: readonly number[],
  over: Partial<BiologicalTest> = {},
): BiologicalTest[] {
  return dlco.map((value, index) =>
    Object.freeze({
      id: `t${index + 1}`,
      at: index * week,
      analyzerId: 'analyzer-1',
      subjectId: 'subject-1',
      epoch: 0,
      reading: Object.freeze({ dlco: value, dlcoUnit: 'mL/min/mmHg', vaL: vaL(index) }),
      limits: Object.freeze({ fraction, dlcoMlMinMmHg }),
      ...over,
    }),
  );
}

const vaL = (index: number) => 6 + (index % 3 === 0 ? 0.06 : index % 3 === 1 ? -0.06 : 0);

/** A session every thirteen weeks, named s1, s2 …, of targets 12 and 24; the deviations of each in turn, low then high. */
export function sessions(
  deviations: readonly (readonly [low: number, high: number])[],
  over: Partial<SimulatorSession> = {},
): SimulatorSession[] {
  return deviations.map(([low, high], index) =>
    Object.freeze({
      id: `s${index + 1}`,
      at: index * 13 * week,
      analyzerId: 'analyzer-1',
      epoch: 0,
      levels: Object.freeze([
        {
          level: 'low' as const,
          targetMlMinMmHg: 12,
          reading: { dlco: 12 + low, dlcoUnit: 'mL/min/mmHg' as const },
        },
        {
          level: 'high' as const,
          targetMlMinMmHg: 24,
          reading: { dlco: 24 + high, dlcoUnit: 'mL/min/mmHg' as const },
        },
      ]),
      limits: Object.freeze({ dlcoMlMinMmHg: publishedCheckLimits.simulator.dlcoMlMinMmHg }),
      ...over,
    }),
  );
}

/** Of an id that must be there. */
export function found<T>(assessments: ReadonlyMap<string, T>, id: string): T {
  const assessment = assessments.get(id);
  if (assessment === undefined) throw new Error(`no assessment of ${id}`);
  return assessment;
}

export const published = ({ verdict }: Pick<BiologicalAssessment, 'verdict'>) =>
  verdict.findings.flatMap((finding) => (finding.kind === 'published-limit' ? [finding] : []));
