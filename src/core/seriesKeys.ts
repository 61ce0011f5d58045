import type { Method, Route, SeriesClosure } from './simulationRun.ts';
import type { Quantity } from './verdict.ts';

/** What runs of one pair of series, VA and DLCO, have in common: they are never mixed with others in one mean. */
export interface SeriesKey {
  analyzerId: string;
  method: Method;
  route: Route;
}

/** Something kept for each pair of series, made when the first of its runs comes. */
export class BySeries<T> {
  readonly #ofAnalyzer = new Map<string, { key: SeriesKey; kept: T }[]>();
  readonly #make: (key: SeriesKey) => T;

  constructor(make: (key: SeriesKey) => T) {
    this.#make = make;
  }

  /** What is kept so far, each as `copied` makes it; what comes after is made by `make`. */
  copy(make: (key: SeriesKey) => T, copied: (kept: T) => T): BySeries<T> {
    const copy = new BySeries(make);
    for (const [analyzerId, entries] of this.#ofAnalyzer) {
      copy.#ofAnalyzer.set(
        analyzerId,
        entries.map(({ key, kept }) => ({ key, kept: copied(kept) })),
      );
    }
    return copy;
  }

  of(run: SeriesKey): T {
    let entries = this.#ofAnalyzer.get(run.analyzerId);
    if (entries === undefined) {
      entries = [];
      this.#ofAnalyzer.set(run.analyzerId, entries);
    }
    // Four at most: a search is quicker than any key made of three texts.
    for (const entry of entries) {
      if (entry.key.method === run.method && entry.key.route === run.route) return entry.kept;
    }
    const key = { analyzerId: run.analyzerId, method: run.method, route: run.route };
    const kept = this.#make(key);
    entries.push({ key, kept });
    return kept;
  }
}

/** The closures of each series. */
export function closuresBySeries(
  closures: readonly SeriesClosure[],
): (key: SeriesKey, quantity: Quantity) => readonly number[] {
  const bySeries = new BySeries<Record<Quantity, number[]>>(() => ({ va: [], dlco: [] }));
  for (const closure of closures) bySeries.of(closure)[closure.quantity].push(closure.at);
  return (key, quantity) => bySeries.of(key)[quantity];
}
