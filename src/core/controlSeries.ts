/** One series of controls, judged one after another by the same machine that judges a series of runs. */
import type { ControlAssessmentOptions } from './controlAssessment.ts';
import { writePoint } from './evaluateSeries.ts';
import { type JudgedRows, judgedRows, rowFound, rowN, rowZ, runInput, wasJudged } from './judgedRows.ts';
import { type PolicyHistory, policyAt } from './policySteps.ts';
import { createMachine, type PointEvaluation, type SeriesPoint, SeriesReader } from './series.ts';
import type { SeriesMachine } from './seriesMachine.ts';
import { predictionFactor } from './statistics.ts';

export interface ControlSeriesTerms {
  caller: string;
  history: PolicyHistory;
  closures: readonly number[];
  /** How many points there will be. */
  size: number;
}

export class ControlSeriesJudge {
  readonly #history: PolicyHistory;
  readonly #machine: SeriesMachine;
  readonly #rows: JudgedRows;
  readonly #reader: SeriesReader;
  readonly #input = runInput();
  readonly #ids: string[] = [];

  constructor({ caller, history, closures, size }: ControlSeriesTerms) {
    this.#history = history;
    this.#machine = createMachine(caller, history, closures);
    this.#rows = judgedRows(size);
    this.#reader = new SeriesReader(this.#rows, history, (index) => this.#ids[index] ?? '');
  }

  /** Takes the next point in. */
  judge(point: SeriesPoint): PointEvaluation {
    const place = this.#ids.push(point.id) - 1;
    writePoint(this.#input, point);
    this.#machine.judge(this.#input, this.#rows, place);
    return this.#reader.evaluation(place, point);
  }

  /**
   * On which side of the mean, beyond 2 SD, the next point would lie: 1, −1, or 0 for neither. On a copy, since what is
   * found may decide how the point is judged.
   */
  sideBeyondTwoSd(point: SeriesPoint): -1 | 0 | 1 {
    const row = judgedRows(1);
    writePoint(this.#input, point);
    this.#machine.copy().judge(this.#input, row, 0);
    if (((row[rowFound] ?? 0) & wasJudged) === 0) return 0;
    const z = row[rowZ] ?? 0;
    const isWidened = policyAt(this.#history, point.at).smallSample;
    const two = isWidened ? predictionFactor(row[rowN] ?? 0, 2) : 2;
    return z > two ? 1 : z < -two ? -1 : 0;
  }
}

/**
 * Those that can be worked with, one group for each key, in time order.
 * @throws {RangeError} naming the caller, if they are not in time order, an id comes twice, or, without `onImpossible`, one
 * cannot be worked with.
 */
export function groupsOf<T extends { id: string; at: number }>(
  caller: string,
  controls: readonly T[],
  {
    keyOf,
    check,
    onImpossible,
  }: {
    keyOf: (control: T) => string;
    check: (control: T) => void;
    onImpossible: ControlAssessmentOptions['onImpossible'];
  },
): readonly (readonly [T, ...T[]])[] {
  const groups = new Map<string, [T, ...T[]]>();
  const ids = new Set<string>();
  let lastAt = -Number.MAX_VALUE;
  for (const control of controls) {
    const { id, at } = control;
    if (!(at >= lastAt && at < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`${caller}: at of control ${id} is ${at} ms, not at or after ${lastAt} ms`);
    }
    if (ids.has(id)) throw new RangeError(`${caller}: id ${id} comes twice`);
    ids.add(id);
    lastAt = at;
    try {
      check(control);
    } catch (cause) {
      if (!(cause instanceof RangeError)) throw cause;
      const problem = new RangeError(`${caller}: control ${id}: ${cause.message}`, { cause });
      if (onImpossible === undefined) throw problem;
      onImpossible(id, problem);
      continue;
    }
    const known = groups.get(keyOf(control));
    if (known) known.push(control);
    else groups.set(keyOf(control), [control]);
  }
  return [...groups.values()];
}
