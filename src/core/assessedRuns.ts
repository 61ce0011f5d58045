import { namingTheRun } from './impossible.ts';
import { failureWasOpen, runInput, wasAccepted } from './judgedRows.ts';
import { BySeries, type SeriesKey } from './seriesKeys.ts';
import { enterRun, type SeriesThread, type ThreadReader } from './seriesThread.ts';
import type { RunAssessment, SimulationRun } from './simulationRun.ts';

/** What was found of a run's two series, without the numbers behind it. */
export interface RunOutline {
  /** A failure of VA or of DLCO was open when the run was made, or opened by it. */
  failureOpen: boolean;
  /** The run may enter the mean and SD of later ones, in both quantities. */
  accepted: boolean;
}

/** Assessments by the id of their run. */
export interface Assessments extends ReadonlyMap<string, RunAssessment> {
  /** What is enough for a list of many runs: at hand for each of them without its assessment being made. */
  outline(id: string): RunOutline | undefined;
  /**
   * What `assessRuns` would give for `run` if it were among the runs as well, after all that are not later: a run still being
   * typed, judged as it will be when it is recorded. Nothing is changed by it. The first call for a series visits its runs
   * once; every further one takes constant time, however many there are.
   * @throws {RangeError} if it is earlier than the newest assessed run of its analyzer, method and route, which it would
   * move; if its id is that of an assessed run; if its numbers are impossible.
   * @example assessRuns(runs).oneMore(next) // what assessRuns([...runs, next]).get(next.id) is
   */
  oneMore(run: SimulationRun): RunAssessment;
  /**
   * What `assessRuns` gives for the same runs with `run` behind them, without judging any of them again: a run that was just
   * recorded. These assessments stay as they are.
   * @throws {RangeError} if it is earlier than the newest run; if its id is that of another; if its numbers are impossible.
   * @example assessRuns(runs).withOneMore(next) // what assessRuns([...runs, next]) is
   */
  withOneMore(run: SimulationRun): Assessments;
}

/** A thread, and the place that its runs are kept under. */
interface PlacedThread {
  thread: SeriesThread;
  place: number;
}

/** A thread whose numbers have been worked out, and where in it each of its runs stands. */
interface OpenThread {
  reader: ThreadReader;
  placeOf: ReadonlyMap<number, number>;
}

/** Each assessment is made when it is first asked for, and is the same object from then on. */
export class AssessedRuns implements Assessments {
  readonly #runs: readonly SimulationRun[];
  readonly #makeThread: (key: SeriesKey) => SeriesThread;
  readonly #threads: SeriesThread[];
  readonly #places: BySeries<PlacedThread>;
  readonly #open: Map<number, OpenThread>;
  /** For each run the place of its thread, from 1; 0 for a run without an assessment. */
  readonly #threadOf: Uint32Array;
  /** Bits of `rowFound`. */
  readonly #vaFound: Uint16Array;
  readonly #dlcoFound: Uint16Array;
  readonly #made: Map<number, RunAssessment>;
  #indexById: Map<string, number> | undefined;

  /**
   * `makeThread` is called for each pair of series when the first of its runs comes. `before`: assessments of the first of
   * `runs`, which are taken over.
   */
  constructor(
    runs: readonly SimulationRun[],
    makeThread: (key: SeriesKey) => SeriesThread,
    before?: AssessedRuns,
  ) {
    this.#runs = runs;
    this.#makeThread = makeThread;
    const placed = (key: SeriesKey): PlacedThread => {
      const thread = makeThread(key);
      return { thread, place: this.#threads.push(thread) };
    };
    this.#threads = before ? [...before.#threads] : [];
    this.#places = before ? before.#places.copy(placed, (kept) => ({ ...kept })) : new BySeries(placed);
    this.#open = new Map(before ? before.#open : []);
    this.#made = new Map(before ? before.#made : []);
    this.#threadOf = new Uint32Array(runs.length);
    this.#vaFound = new Uint16Array(runs.length);
    this.#dlcoFound = new Uint16Array(runs.length);
    if (before === undefined) return;
    this.#threadOf.set(before.#threadOf);
    this.#vaFound.set(before.#vaFound);
    this.#dlcoFound.set(before.#dlcoFound);
    this.#indexById = before.#indexById && new Map(before.#indexById);
  }

  /** The thread that a run belongs to, and the place that its runs are kept under. */
  threadOf(run: SeriesKey): PlacedThread {
    return this.#places.of(run);
  }

  /** The run at `index` has been judged as the newest of its thread. */
  keep(index: number, threadPlace: number, vaFound: number, dlcoFound: number): void {
    this.#threadOf[index] = threadPlace;
    this.#vaFound[index] = vaFound;
    this.#dlcoFound[index] = dlcoFound;
  }

  get size(): number {
    return this.#indices().size;
  }

  get(id: string): RunAssessment | undefined {
    const index = this.#indices().get(id);
    return index === undefined ? undefined : this.#at(index);
  }

  outline(id: string): RunOutline | undefined {
    const index = this.#indices().get(id);
    if (index === undefined) return undefined;
    const va = this.#vaFound[index] ?? 0;
    const dlco = this.#dlcoFound[index] ?? 0;
    return { failureOpen: ((va | dlco) & failureWasOpen) !== 0, accepted: (va & dlco & wasAccepted) !== 0 };
  }

  oneMore(run: SimulationRun): RunAssessment {
    if (this.has(run.id)) throw new RangeError(`oneMore: run ${run.id} is assessed already`);
    return this.#openThread(this.threadOf(run).place).reader.oneMore(run);
  }

  withOneMore(run: SimulationRun): Assessments {
    const newestAt = this.#runs.at(-1)?.at ?? -Number.MAX_VALUE;
    if (!(run.at >= newestAt && run.at < Number.POSITIVE_INFINITY)) {
      throw new RangeError(
        `withOneMore: at of run ${run.id} is ${run.at} ms, not at or after ${newestAt} ms`,
      );
    }
    if (this.#runs.some(({ id }) => id === run.id)) {
      throw new RangeError(`withOneMore: id ${run.id} comes twice`);
    }
    const va = runInput();
    const dlco = runInput();
    try {
      enterRun(run, va, dlco);
    } catch (cause) {
      throw namingTheRun('withOneMore', run.id, cause);
    }
    const index = this.#runs.length;
    const next = new AssessedRuns([...this.#runs, run], this.#makeThread, this);
    const placed = next.threadOf(run);
    // On a copy: the thread as it is belongs to these assessments too.
    placed.thread = placed.thread.copy();
    next.#threads[placed.place - 1] = placed.thread;
    next.keep(index, placed.place, placed.thread.judgeVa(va), placed.thread.judgeDlco(dlco));
    next.#indexById?.set(run.id, index);
    const opened = this.#open.get(placed.place);
    if (opened !== undefined) {
      const placeOf = new Map(opened.placeOf).set(index, opened.placeOf.size);
      next.#open.set(placed.place, { reader: opened.reader.withOneMore(run), placeOf });
    }
    return next;
  }

  has(id: string): boolean {
    return this.#indices().has(id);
  }

  forEach(visit: (assessment: RunAssessment, id: string, all: Assessments) => void): void {
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
    const { reader, placeOf } = this.#openThread(this.#threadOf[index] ?? 0);
    const place = placeOf.get(index);
    if (place === undefined) throw new RangeError(`assessRuns: run ${index} has no assessment`);
    const assessment = reader.assessment(place);
    this.#made.set(index, assessment);
    return assessment;
  }

  #openThread(threadPlace: number): OpenThread {
    const known = this.#open.get(threadPlace);
    if (known !== undefined) return known;
    const thread = this.#threads[threadPlace - 1];
    if (thread === undefined) throw new RangeError(`assessRuns: thread ${threadPlace} is none`);
    const placeOf = new Map<number, number>();
    const runs: SimulationRun[] = [];
    for (const [index, run] of this.#runs.entries()) {
      if (this.#threadOf[index] === threadPlace) placeOf.set(index, runs.push(run) - 1);
    }
    const opened = { reader: thread.read(runs), placeOf };
    this.#open.set(threadPlace, opened);
    return opened;
  }
}
