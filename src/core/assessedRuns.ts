import { type JudgedRows, judgedRows } from './judgedRows.ts';
import { reduceRun } from './runNumbers.ts';
import { SeriesReader, type Severities } from './series.ts';
import type { RunAssessment, SimulationRun } from './simulationRun.ts';
import { verdictOf } from './verdict.ts';

/** What reading a judged run needs to know of its pair of series. */
export interface SeriesThread {
  readonly place: number;
  /** Index of the newest run that has joined, or −1. */
  newest: number;
  readonly severities: Severities;
}

/**
 * Judged runs of many series as rows of numbers, read as a map from a run's id to its assessment: each is made into an object
 * when it is first asked for, and is the same object from then on.
 */
export class AssessedRuns implements ReadonlyMap<string, RunAssessment> {
  readonly va: JudgedRows;
  readonly dlco: JudgedRows;
  readonly #runs: readonly SimulationRun[];
  readonly #threads: SeriesThread[] = [];
  /** Place in `#threads`, from 1; 0 for a run that has no assessment. */
  readonly #threadOf: Int32Array;
  readonly #before: Int32Array;
  readonly #vaReader: SeriesReader;
  readonly #dlcoReader: SeriesReader;
  readonly #made = new Map<number, RunAssessment>();
  #indexById: Map<string, number> | undefined;

  constructor(runs: readonly SimulationRun[]) {
    this.va = judgedRows(runs.length);
    this.dlco = judgedRows(runs.length);
    this.#runs = runs;
    this.#threadOf = new Int32Array(runs.length);
    this.#before = new Int32Array(runs.length);
    const idAt = (index: number) => runs[index]?.id ?? '';
    const before = (index: number) => this.#before[index] ?? -1;
    this.#vaReader = new SeriesReader(this.va, idAt, before);
    this.#dlcoReader = new SeriesReader(this.dlco, idAt, before);
  }

  /** A pair of series that runs are about to join. */
  start(severities: Severities): SeriesThread {
    const thread = { place: this.#threads.length + 1, newest: -1, severities };
    this.#threads.push(thread);
    return thread;
  }

  /** The run at `index` becomes the newest of its series. A run that joins none has no assessment. */
  join(index: number, thread: SeriesThread): void {
    this.#threadOf[index] = thread.place;
    this.#before[index] = thread.newest;
    thread.newest = index;
  }

  get size(): number {
    return this.#indices().size;
  }

  get(id: string): RunAssessment | undefined {
    const index = this.#indices().get(id);
    return index === undefined ? undefined : this.#at(index);
  }

  has(id: string): boolean {
    return this.#indices().has(id);
  }

  forEach(
    visit: (assessment: RunAssessment, id: string, all: ReadonlyMap<string, RunAssessment>) => void,
  ): void {
    for (const [id, assessment] of this) visit(assessment, id, this);
  }

  *entries(): MapIterator<[string, RunAssessment]> {
    for (const [id, index] of this.#indices()) yield [id, this.#at(index)];
  }

  keys(): MapIterator<string> {
    return this.#indices().keys();
  }

  *values(): MapIterator<RunAssessment> {
    for (const index of this.#indices().values()) yield this.#at(index);
  }

  [Symbol.iterator](): MapIterator<[string, RunAssessment]> {
    return this.entries();
  }

  #indices(): ReadonlyMap<string, number> {
    if (this.#indexById !== undefined) return this.#indexById;
    const indexById = new Map<string, number>();
    for (const [index, { id }] of this.#runs.entries()) {
      if (indexById.has(id)) throw new RangeError(`assessRuns: id ${id} comes twice`);
      if (this.#threadOf[index] !== 0) indexById.set(id, index);
    }
    this.#indexById = indexById;
    return indexById;
  }

  #at(index: number): RunAssessment {
    const known = this.#made.get(index);
    if (known !== undefined) return known;
    const run = this.#runs[index];
    const thread = this.#threads[(this.#threadOf[index] ?? 0) - 1];
    if (run === undefined || thread === undefined)
      throw new RangeError(`assessRuns: run ${index} has no assessment`);
    const { id } = run;
    const numbers = reduceRun(run);
    const va = this.#vaReader.evaluation(index, id, numbers.simulatedVaL, thread.severities);
    const dlco = this.#dlcoReader.evaluation(index, id, numbers.dlcoMlMinMmHg, thread.severities);
    const assessment = { id, numbers, va, dlco, verdict: verdictOf(run, numbers, va, dlco) };
    this.#made.set(index, assessment);
    return assessment;
  }
}
