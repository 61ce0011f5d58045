import { type ControlPolicy, requirePolicy } from './controlPolicy.ts';
import {
  inputAt,
  inputEpoch,
  inputMarks,
  inputValue,
  isBreached,
  isExcluded,
  judgedRows,
  type RunInput,
  runInput,
} from './judgedRows.ts';
import type { PolicyHistory } from './policySteps.ts';
import { createMachine, type PointEvaluation, type SeriesPoint, SeriesReader } from './series.ts';

/**
 * Judges the runs of one series, each by what was known before it, in one pass and in constant time for a run.
 * A failure opens at the first action signal or breached published limit; it ends with the first of `closures` (ms, in
 * any order) that is not before it, and runs later than that are judged afresh: patterns, EWMA and CUSUM begin again,
 * the baseline stays. A new epoch begins everything again.
 * Source: domain rules of this project; the rules' own sources stand in controlRules.ts.
 * @throws {RangeError} if the points are not in time order, or a number, a closure or the policy is impossible.
 * @example twenty runs of mean 3.117 and SD 0.036 L, then 3.37 L: z = 7.0, rule 1-3s, a failure opens
 */
export function evaluateSeries(
  points: readonly SeriesPoint[],
  policy: ControlPolicy,
  closures: readonly number[] = [],
): readonly PointEvaluation[] {
  requirePolicy('evaluateSeries', policy);
  const history: PolicyHistory = [{ from: Number.NEGATIVE_INFINITY, policy }];
  const machine = createMachine('evaluateSeries', history, closures);
  const input = runInput();
  const rows = judgedRows(points.length);
  const reader = new SeriesReader(rows, history, (index) => points[index]?.id ?? '');
  let lastAt = -Number.MAX_VALUE;
  return points.map((point, index) => {
    enter(input, point, lastAt);
    lastAt = point.at;
    machine.judge(input, rows, index);
    return reader.evaluation(index, point);
  });
}

function enter(input: RunInput, point: SeriesPoint, lastAt: number): void {
  const { id, at, value, epoch } = point;
  if (!(at >= lastAt && at < Number.POSITIVE_INFINITY)) {
    const reason = Number.isFinite(at) ? `, earlier than the run before it, ${lastAt} ms` : '';
    throw new RangeError(`evaluateSeries: at of point ${id} is ${at} ms${reason}`);
  }
  if (!Number.isFinite(value)) throw new RangeError(`evaluateSeries: value of point ${id} is ${value}`);
  if (!Number.isFinite(epoch)) throw new RangeError(`evaluateSeries: epoch of point ${id} is ${epoch}`);
  writePoint(input, point);
}

/** Writes what a series has to know of a point. The caller sees to it that its numbers are finite and in time order. */
export function writePoint(input: RunInput, { at, epoch, value, excluded, breached }: SeriesPoint): void {
  input[inputAt] = at;
  input[inputEpoch] = epoch;
  input[inputValue] = value;
  input[inputMarks] = (excluded === true ? isExcluded : 0) | (breached === true ? isBreached : 0);
}
