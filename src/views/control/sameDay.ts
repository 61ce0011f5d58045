/** The simulations of an analyzer on the day of a person's test, and what the two say together. Pure. */
import {
  type Assessments,
  type BiologicalAssessment,
  type Quantity,
  readTogether,
  type Standing,
  standingOf,
  togetherText,
} from '../../core/index.ts';
import type { BiologicalContent } from '../../journal/entries.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { evaluationOf, quantities } from '../failures.ts';
import { localDay } from '../parts/localTime.ts';
import { quantityWords } from '../parts/words.ts';

export interface SameDay {
  /** Oldest first. */
  runs: readonly LoggedRun[];
  /** For each quantity that can be compared: what it means, and what to do about it. */
  together: readonly { quantity: Quantity; says: string; next: string }[];
}

export function sameDayAs(
  { analyzerId, madeAt }: Pick<BiologicalContent, 'analyzerId' | 'madeAt'>,
  test: BiologicalAssessment,
  { logbook, assessments }: { logbook: Logbook; assessments: Assessments },
): SameDay {
  const runs = runsOfDay(logbook.runs, analyzerId, Date.parse(madeAt));
  // Of several the last before the test, or else the first after it, is nearest to what the person was tested on.
  const before = runs.findLast(({ simulation }) => simulation.at <= Date.parse(madeAt));
  const run = before ?? runs[0];
  const simulated = run === undefined ? undefined : assessments.get(run.id);
  if (simulated === undefined) return { runs, together: [] };
  return {
    runs,
    together: quantities.flatMap((quantity) => {
      const { vaWithinPublished, vaOffTargetMl, dlcoWithinPublished, dlcoMlMinMmHg } = simulated.numbers;
      const ofRun = standingOf(
        evaluationOf(simulated, quantity),
        quantity === 'va'
          ? { isBreached: !vaWithinPublished, offTarget: vaOffTargetMl }
          : { isBreached: !dlcoWithinPublished, offTarget: dlcoMlMinMmHg },
      );
      const id = readTogether(standingOfTest(test, quantity), ofRun);
      return id === 'not-judged' ? [] : [{ quantity, ...togetherText[quantity][id] }];
    }),
  };
}

const standingOfTest = (test: BiologicalAssessment, quantity: Quantity): Standing =>
  standingOf(test[quantity], {
    isBreached: quantity === 'dlco' && test.withinPublished === false,
    offTarget: test.offMlMinMmHg ?? 0,
  });

/** From the newest back: a control is mostly typed on its own day. */
function runsOfDay(runs: readonly LoggedRun[], analyzerId: string, at: number): LoggedRun[] {
  const day = localDay(at);
  const found: LoggedRun[] = [];
  for (let index = runs.length - 1; index >= 0; index -= 1) {
    const run = runs[index];
    if (run === undefined || run.simulation.at < at - twoDaysMs) break;
    const isOfIt =
      run.body.analyzerId === analyzerId &&
      run.voided === null &&
      run.body.method === 'syringe' &&
      localDay(run.simulation.at) === day;
    if (isOfIt) found.push(run);
  }
  return found.reverse();
}

const twoDaysMs = 2 * 86_400_000;

/** `DLCO and VA: …` where both quantities say the same, each by itself where they do not. */
export function togetherSentences({ together }: SameDay): string[] {
  const [one, other] = together;
  if (one !== undefined && other !== undefined && one.says === other.says) {
    return [[one.says, one.next].filter(Boolean).join(' ')];
  }
  return together.map(({ quantity, says, next }) =>
    [`${quantityWords[quantity]}: ${says}`, next].filter(Boolean).join(' '),
  );
}
