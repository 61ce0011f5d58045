/** Which runs make the baseline of a series, epoch by epoch, as the core takes them. Pure. */
import type { Assessments, ControlPolicy, PointEvaluation } from '../../core/index.ts';
import type { EntryOf, SeriesName } from '../../journal/entries.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { evaluationOf } from '../failures.ts';
import { policyInForce } from '../judgedBy.ts';

export interface DeskSeries extends SeriesName {
  analyzerId: string;
}

export interface DeskRun {
  run: LoggedRun;
  /** In L or mL/min/mmHg. */
  value: number;
  evaluation: PointEvaluation;
  isBreached: boolean;
}

export interface Epoch {
  number: number;
  /** What it began with; null for the first. */
  start: EntryOf<'baseline-started'> | null;
  /** Every run made in it but voided ones, oldest first; those set aside are among them. */
  runs: readonly DeskRun[];
  /** The runs that make its limits, oldest first. */
  members: readonly DeskRun[];
}

export interface Desk {
  series: DeskSeries;
  policy: ControlPolicy;
  /** Oldest first; the last is the one in force, and may have no run yet. */
  epochs: readonly [Epoch, ...Epoch[]];
  inForce: Epoch;
}

/** `at`: the instant whose policy and epoch are asked for. */
export function buildDesk(logbook: Logbook, assessments: Assessments, series: DeskSeries, at: string): Desk {
  const { analyzerId, method, route, quantity } = series;
  const policy = policyInForce(logbook, { analyzerId, madeAt: at });
  const starts = logbook.baselineStarts
    .filter(({ body }) => body.analyzerId === analyzerId && body.from <= at)
    .sort((one, other) => Date.parse(one.body.from) - Date.parse(other.body.from));
  const runs = logbook.runs.flatMap((run): DeskRun[] => {
    const { body } = run;
    if (body.analyzerId !== analyzerId || body.method !== method || body.route !== route) return [];
    const assessment = run.voided === null ? assessments.get(run.id) : undefined;
    if (assessment === undefined) return [];
    const { numbers } = assessment;
    const isVa = quantity === 'va';
    return [
      {
        run,
        value: isVa ? numbers.simulatedVaL : numbers.dlcoMlMinMmHg,
        evaluation: evaluationOf(assessment, quantity),
        isBreached: !(isVa ? numbers.vaWithinPublished : numbers.dlcoWithinPublished),
      },
    ];
  });
  const epochOf = (number: number): Epoch => {
    const own = runs.filter(({ run }) => run.simulation.epoch === number);
    return { number, start: starts[number - 1] ?? null, runs: own, members: membersOf(own, policy) };
  };
  const later = starts.map((_, index) => epochOf(index + 1));
  const first = epochOf(0);
  return { series, policy, epochs: [first, ...later], inForce: later.at(-1) ?? first };
}

/** The first accepted runs, or the newest ones where the limits roll. */
function membersOf(runs: readonly DeskRun[], { limits, baselineSize }: ControlPolicy): readonly DeskRun[] {
  const accepted = runs.filter(({ evaluation }) => evaluation.accepted);
  return limits === 'baseline' ? accepted.slice(0, baselineSize) : accepted.slice(-baselineSize);
}

/** The last epoch before the one in force that has enough runs to be held against it. */
export const epochBefore = ({ epochs, inForce }: Desk): Epoch | null =>
  epochs.findLast(({ number, members }) => number < inForce.number && members.length >= 2) ?? null;
