import { RunningMoments } from './statistics.ts';

/**
 * The mean and SD that the next run is judged by. The mean is `anchor + meanDeviation`, the anchor being one of the values: a
 * value less the anchor less the deviation keeps the digits that are lost in a mean that is huge against the spread.
 */
export interface OwnLimits {
  /** Accepted runs that the limits rest on. */
  readonly n: number;
  readonly anchor: number;
  /** NaN, as is `sd`, while the limits cannot judge: too few runs, or an SD of 0. */
  readonly meanDeviation: number;
  readonly sd: number;
  /** Takes in an accepted run; the caller sees to it that the value is finite. */
  accept(value: number): void;
  /** Forgets every run, at the start of an epoch. */
  restart(): void;
  /** The same limits, which go their own way from here on. */
  copy(): OwnLimits;
}

/** The first `size` accepted runs, provisional from `minimumSize` on, then frozen. */
export class BaselineLimits implements OwnLimits {
  n = 0;
  anchor = 0;
  meanDeviation = Number.NaN;
  sd = Number.NaN;
  #moments = new RunningMoments();
  readonly #size: number;
  readonly #minimumSize: number;

  constructor(size: number, minimumSize: number) {
    this.#size = size;
    this.#minimumSize = minimumSize;
  }

  restart(): void {
    this.n = 0;
    this.meanDeviation = Number.NaN;
    this.sd = Number.NaN;
    this.#moments = new RunningMoments();
  }

  accept(value: number): void {
    if (this.n === this.#size) return;
    this.#moments.add(value);
    this.n += 1;
    if (this.n < this.#minimumSize) return;
    const sd = this.#moments.sd;
    this.anchor = this.#moments.anchor;
    this.meanDeviation = sd > 0 ? this.#moments.meanDeviation : Number.NaN;
    this.sd = sd > 0 ? sd : Number.NaN;
  }

  copy(): BaselineLimits {
    const copy = new BaselineLimits(this.#size, this.#minimumSize);
    copy.n = this.n;
    copy.anchor = this.anchor;
    copy.meanDeviation = this.meanDeviation;
    copy.sd = this.sd;
    copy.#moments = this.#moments.copy();
    return copy;
  }
}

/**
 * The newest `size` accepted runs.
 *
 * Taking the oldest run's square back out of a running sum leaves its rounding error behind for ever, and a window
 * of equal values then has an SD that is not 0. So nothing is ever subtracted: the window is an older part, whose
 * every tail has its moments ready, and a newer part that grows; the two are merged. When the older part is used up
 * the newer takes its place and the tails are made anew, about the newest value: constant time for a run on average.
 * Source: merging of moments, Chan, Golub & LeVeque, The American Statistician 37 (1983), 242–247.
 */
export class RollingLimits implements OwnLimits {
  n = 0;
  anchor = 0;
  meanDeviation = Number.NaN;
  sd = Number.NaN;
  readonly #size: number;
  readonly #minimumSize: number;
  /** Moments of the older part's tails: entry i is of all but its i oldest runs. */
  readonly #tailMean: Float64Array;
  readonly #tailSquares: Float64Array;
  /** How many of the older part have left the window. */
  #gone: number;
  readonly #newer: Float64Array;
  #newerCount = 0;
  #newerMean = 0;
  #newerSquares = 0;

  constructor(size: number, minimumSize: number) {
    this.#size = size;
    this.#minimumSize = minimumSize;
    this.#tailMean = new Float64Array(size + 1);
    this.#tailSquares = new Float64Array(size + 1);
    this.#newer = new Float64Array(size);
    this.#gone = size;
  }

  restart(): void {
    this.n = 0;
    this.meanDeviation = Number.NaN;
    this.sd = Number.NaN;
    this.#gone = this.#size;
    this.#newerCount = 0;
    this.#newerMean = 0;
    this.#newerSquares = 0;
  }

  accept(value: number): void {
    if (this.n === this.#size) {
      if (this.#gone === this.#size) this.#turnOver();
      this.#gone += 1;
    } else {
      if (this.n === 0) this.anchor = value;
      this.n += 1;
    }
    const deviation = value - this.anchor;
    this.#newer[this.#newerCount] = value;
    this.#newerCount += 1;
    const delta = deviation - this.#newerMean;
    this.#newerMean += delta / this.#newerCount;
    this.#newerSquares += delta * (deviation - this.#newerMean);
    if (this.n >= this.#minimumSize) this.#merge();
  }

  copy(): RollingLimits {
    const copy = new RollingLimits(this.#size, this.#minimumSize);
    copy.n = this.n;
    copy.anchor = this.anchor;
    copy.meanDeviation = this.meanDeviation;
    copy.sd = this.sd;
    copy.#tailMean.set(this.#tailMean);
    copy.#tailSquares.set(this.#tailSquares);
    copy.#gone = this.#gone;
    copy.#newer.set(this.#newer);
    copy.#newerCount = this.#newerCount;
    copy.#newerMean = this.#newerMean;
    copy.#newerSquares = this.#newerSquares;
    return copy;
  }

  #merge(): void {
    const tailMean = this.#tailMean[this.#gone] ?? 0;
    const tailSquares = this.#tailSquares[this.#gone] ?? 0;
    const tailCount = this.n - this.#newerCount;
    const delta = this.#newerMean - tailMean;
    const weight = this.#newerCount / this.n;
    const squares = tailSquares + this.#newerSquares + delta * delta * tailCount * weight;
    if (squares > 0) {
      this.meanDeviation = tailCount === 0 ? this.#newerMean : tailMean + delta * weight;
      this.sd = Math.sqrt(squares / (this.n - 1));
    } else {
      this.meanDeviation = Number.NaN;
      this.sd = Number.NaN;
    }
  }

  /** The newer part, now the whole window, becomes the older part. */
  #turnOver(): void {
    const size = this.#size;
    this.anchor = this.#newer[size - 1] ?? 0;
    let mean = 0;
    let squares = 0;
    for (let count = 1; count <= size; count += 1) {
      const deviation = (this.#newer[size - count] ?? 0) - this.anchor;
      const delta = deviation - mean;
      mean += delta / count;
      squares += delta * (deviation - mean);
      this.#tailMean[size - count] = mean;
      this.#tailSquares[size - count] = squares;
    }
    this.#gone = 0;
    this.#newerCount = 0;
    this.#newerMean = 0;
    this.#newerSquares = 0;
  }
}
