import { isDlcoWithinPublished, isVaWithinPublished } from './fixedLimits.ts';
import { impossible, namingTheRun } from './impossible.ts';
import {
  inputAt,
  inputEpoch,
  inputMarks,
  inputValue,
  isBreached,
  isExcluded,
  type JudgedRows,
  judgedRows,
  type RunInput,
  runInput,
} from './judgedRows.ts';
import type { PolicyHistory } from './policySteps.ts';
import { checkedVaL, reduceRun, targetOf } from './runNumbers.ts';
import { createMachine, SeriesReader } from './series.ts';
import type { SeriesMachine } from './seriesMachine.ts';
import type { RunAssessment, SimulationRun } from './simulationRun.ts';
import { dlcoInMlMinMmHg } from './singleBreath.ts';
import { verdictOf } from './verdict.ts';

/** What a pair of series is judged by. */
export interface ThreadTerms {
  history: PolicyHistory;
  vaClosures: readonly number[];
  dlcoClosures: readonly number[];
}

/**
 * The pair of series, VA and DLCO, of one analyzer, method and route. Only what was found of a run is kept; the numbers
 * behind it are worked out again, for the whole thread, when somebody looks at one of its runs.
 */
export class SeriesThread {
  readonly #terms: ThreadTerms;
  readonly #va: SeriesMachine;
  readonly #dlco: SeriesMachine;

  /** `before`: one of the same terms, whose runs this one has judged as well. */
  constructor(terms: ThreadTerms, before?: SeriesThread) {
    this.#terms = terms;
    this.#va = before ? before.#va.copy() : createMachine('assessRuns', terms.history, terms.vaClosures);
    this.#dlco = before
      ? before.#dlco.copy()
      : createMachine('assessRuns', terms.history, terms.dlcoClosures);
  }

  /** Goes on by itself from here: what either judges from now on, the other does not know of. */
  copy(): SeriesThread {
    return new SeriesThread(this.#terms, this);
  }

  /** Judges the next run as to VA: gives the bits of what was found. */
  judgeVa(input: RunInput): number {
    return this.#va.judge(input, scratch, 0);
  }

  /** The same as to DLCO. */
  judgeDlco(input: RunInput): number {
    return this.#dlco.judge(input, scratch, 0);
  }

  /** The numbers behind what was found of `runs`, which are all that were judged, in the same order. */
  read(runs: readonly SimulationRun[]): ThreadReader {
    return new ThreadReader(this.#terms, runs);
  }
}

/** One row that is written over by every run that is only judged. */
const scratch = judgedRows(1);

/**
 * Writes what a run's two series have to know of it.
 * @throws {RangeError} if its numbers are impossible; nothing of the inputs is to be used then.
 */
export function enterRun(run: SimulationRun, va: RunInput, dlco: RunInput): void {
  const { reading, limits } = run;
  const vaL = checkedVaL(run);
  if (!Number.isFinite(run.epoch)) throw impossible('enterRun', 'epoch', run.epoch, '');
  const marks = run.excluded === true ? isExcluded : 0;
  va[inputAt] = run.at;
  va[inputEpoch] = run.epoch;
  va[inputValue] = vaL;
  va[inputMarks] = marks | (isVaWithinPublished(vaL, targetOf(run.syringe), limits) ? 0 : isBreached);
  dlco[inputAt] = run.at;
  dlco[inputEpoch] = run.epoch;
  dlco[inputValue] = dlcoInMlMinMmHg(reading.dlco, reading.dlcoUnit);
  dlco[inputMarks] = marks | (isDlcoWithinPublished(reading.dlco, reading.dlcoUnit, limits) ? 0 : isBreached);
}

/** The runs of a thread with the numbers behind what was found of them. */
export class ThreadReader {
  readonly #terms: ThreadTerms;
  readonly #runs: readonly SimulationRun[];
  readonly #va: SeriesMachine;
  readonly #dlco: SeriesMachine;
  /** One row more than there are runs: the last is for a run that may come to be the next. */
  readonly #vaRows: JudgedRows;
  readonly #dlcoRows: JudgedRows;
  readonly #vaReader: SeriesReader;
  readonly #dlcoReader: SeriesReader;

  /** `before`: one of the same terms that has read the first of `runs`. */
  constructor(terms: ThreadTerms, runs: readonly SimulationRun[], before?: ThreadReader) {
    const { history, vaClosures, dlcoClosures } = terms;
    this.#terms = terms;
    this.#runs = runs;
    this.#va = before ? before.#va.copy() : createMachine('assessRuns', history, vaClosures);
    this.#dlco = before ? before.#dlco.copy() : createMachine('assessRuns', history, dlcoClosures);
    this.#vaRows = judgedRows(runs.length + 1);
    this.#dlcoRows = judgedRows(runs.length + 1);
    if (before) {
      this.#vaRows.set(before.#vaRows);
      this.#dlcoRows.set(before.#dlcoRows);
    }
    const va = runInput();
    const dlco = runInput();
    for (let place = before ? before.#runs.length : 0; place < runs.length; place += 1) {
      const run = runs[place];
      if (run === undefined) continue;
      enterRun(run, va, dlco);
      this.#va.judge(va, this.#vaRows, place);
      this.#dlco.judge(dlco, this.#dlcoRows, place);
    }
    const idAt = (place: number) => runs[place]?.id ?? '';
    this.#vaReader = new SeriesReader(this.#vaRows, history, idAt);
    this.#dlcoReader = new SeriesReader(this.#dlcoRows, history, idAt);
  }

  /** Of the same thread once it has judged `run` too. */
  withOneMore(run: SimulationRun): ThreadReader {
    return new ThreadReader(this.#terms, [...this.#runs, run], this);
  }

  /** Of the run at a place within the thread. */
  assessment(place: number): RunAssessment {
    const run = this.#runs[place];
    if (run === undefined) throw new RangeError(`assessRuns: a thread has no run ${place}`);
    return this.#assessmentAt(place, run);
  }

  /**
   * As if `run` were the thread's next; the thread does not take it in.
   * @throws {RangeError} if it is earlier than the thread's newest, or its numbers are impossible.
   */
  oneMore(run: SimulationRun): RunAssessment {
    const newest = this.#runs.at(-1);
    if (!(run.at >= (newest?.at ?? -Number.MAX_VALUE) && run.at < Number.POSITIVE_INFINITY)) {
      const reason = newest ? `, not at or after the newest of its series, ${newest.at} ms` : '';
      throw new RangeError(`oneMore: at of run ${run.id} is ${run.at} ms${reason}`);
    }
    const va = runInput();
    const dlco = runInput();
    try {
      enterRun(run, va, dlco);
    } catch (cause) {
      throw namingTheRun('oneMore', run.id, cause);
    }
    const place = this.#runs.length;
    this.#va.copy().judge(va, this.#vaRows, place);
    this.#dlco.copy().judge(dlco, this.#dlcoRows, place);
    return this.#assessmentAt(place, run);
  }

  #assessmentAt(place: number, run: SimulationRun): RunAssessment {
    const numbers = reduceRun(run);
    const va = this.#vaReader.evaluation(place, run);
    const dlco = this.#dlcoReader.evaluation(place, run);
    return { id: run.id, numbers, va, dlco, verdict: verdictOf(run, numbers, va, dlco) };
  }
}
