/** The simulations of an analyzer on the day of a person's test, and what the two say together. Pure. */
import {
  type Assessments,
  type BiologicalAssessment,
  type Quantity,
  readTogether,
  togetherText,
} from '../../core/index.ts';
import type { BiologicalContent } from '../../journal/entries.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { nearestSimulation, simulationsOfDay, standingOfRun, standingOfTest } from '../besideSimulations.ts';
import { quantities } from '../failures.ts';
import { quantityWords } from '../parts/words.ts';

interface SameDay {
  /** Oldest first. */
  runs: readonly LoggedRun[];
  /** For each quantity that can be compared: what it means, and what to do about it. */
  together: readonly { quantity: Quantity; says: string; next: string }[];
}

/** `zone`: of whoever made the test. */
export function sameDayAs(
  control: Pick<BiologicalContent, 'analyzerId' | 'madeAt'>,
  test: BiologicalAssessment,
  { logbook, assessments, zone }: { logbook: Logbook; assessments: Assessments; zone: string },
): SameDay {
  const at = Date.parse(control.madeAt);
  const runs = simulationsOfDay({ at, control, entry: { zone } }, logbook);
  const run = nearestSimulation(runs, at);
  const simulated = run === undefined ? undefined : assessments.get(run.id);
  if (simulated === undefined) return { runs, together: [] };
  return {
    runs,
    together: quantities.flatMap((quantity) => {
      const id = readTogether(standingOfTest(test, quantity), standingOfRun(simulated, quantity));
      return id === 'not-judged' ? [] : [{ quantity, ...togetherText[quantity][id] }];
    }),
  };
}

/** One sentence where both quantities say the same, each by itself where they do not. */
export function togetherSentences({ together }: SameDay): string[] {
  const [one, other] = together;
  if (one !== undefined && other !== undefined && one.says === other.says) {
    return [[one.says, one.next].filter(Boolean).join(' ')];
  }
  return together.map(({ quantity, says, next }) =>
    [`${quantityWords[quantity]}: ${says}`, next].filter(Boolean).join(' '),
  );
}
