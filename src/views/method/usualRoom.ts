/** The room that worked examples are reckoned in: the laboratory's own, as its runs found it. Pure. */
import { type Ambient, median } from '../../core/index.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { counted, plain, temperature } from '../parts/figures.ts';

export interface Room {
  ambient: Ambient;
  /** `22.0 °C and 760 mmHg`. */
  inShort: string;
  /** Where these come from, as a sentence. */
  words: string;
}

/** A room as the trade's tables have it, for a laboratory that has no run yet. */
const tableRoom: Ambient = { temperatureC: 22, barometricMmHg: 760 };

/** As many as tell the room of today, and not that of another season. */
const newestRuns = 20;

export const roomInShort = ({ temperatureC, barometricMmHg }: Ambient) =>
  `${temperature(temperatureC)} °C and ${plain(Math.round(barometricMmHg))} mmHg`;

export function usualRoom({ runs }: Pick<Logbook, 'runs'>): Room {
  const newest = runs.filter(({ simulation }) => simulation.excluded !== true).slice(-newestRuns);
  const temperatureC = median(newest.map(({ simulation }) => simulation.ambient.temperatureC));
  const barometricMmHg = median(newest.map(({ simulation }) => simulation.ambient.barometricMmHg));
  if (temperatureC === undefined || barometricMmHg === undefined) {
    const inShort = roomInShort(tableRoom);
    return {
      ambient: tableRoom,
      inShort,
      words: `No run has told of your room yet: reckoned for ${inShort}.`,
    };
  }
  const ambient = { temperatureC, barometricMmHg };
  const inShort = roomInShort(ambient);
  return {
    ambient,
    inShort,
    words: `Reckoned for your own room, ${inShort}: the median of the newest ${counted(newest.length, 'run')}.`,
  };
}
