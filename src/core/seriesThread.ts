import type { ControlPolicy } from './controlPolicy.ts';
import { isDlcoWithinPublished, isVaWithinPublished } from './fixedLimits.ts';
import { impossible } from './impossible.ts';
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
import { checkedVaL, targetOf } from './runNumbers.ts';
import { createMachine, SeriesReader } from './series.ts';
import type { SeriesMachine } from './seriesMachine.ts';
import type { SimulationRun } from './simulationRun.ts';
import { dlcoInMlMinMmHg } from './singleBreath.ts';

/** What a pair of series is judged by. */
export interface ThreadTerms {
  policy: ControlPolicy;
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

  constructor(terms: ThreadTerms) {
    this.#terms = terms;
    this.#va = createMachine(terms.policy, terms.vaClosures);
    this.#dlco = createMachine(terms.policy, terms.dlcoClosures);
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
    const { policy, vaClosures, dlcoClosures } = this.#terms;
    const vaMachine = createMachine(policy, vaClosures);
    const dlcoMachine = createMachine(policy, dlcoClosures);
    const vaRows = judgedRows(runs.length);
    const dlcoRows = judgedRows(runs.length);
    const va = runInput();
    const dlco = runInput();
    for (const [place, run] of runs.entries()) {
      enterRun(run, va, dlco);
      vaMachine.judge(va, vaRows, place);
      dlcoMachine.judge(dlco, dlcoRows, place);
    }
    const idAt = (place: number) => runs[place]?.id ?? '';
    return { va: new SeriesReader(vaRows, policy, idAt), dlco: new SeriesReader(dlcoRows, policy, idAt) };
  }
}

/** Gives the evaluation of the run at a place within its thread. */
export interface ThreadReader {
  va: SeriesReader;
  dlco: SeriesReader;
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
