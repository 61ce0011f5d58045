/** What a series of runs is called. */
import type { Quantity } from '../../core/index.ts';
import { quantityWords, routeWords } from '../parts/words.ts';
import type { ChartSeries } from './runSeries.ts';

/** `VA, Room 2, patient test` */
export function seriesHeading({ method, route, quantity }: ChartSeries, analyzerLabel: string): string {
  const how = method === 'syringe' ? '' : ', precision gas';
  return `${quantityWords[quantity]}, ${analyzerLabel}, ${routeWords[route].toLowerCase()}${how}`;
}

/** What a chart of it shows, as a saved picture names it. */
export const measuredWords: Readonly<Record<Quantity, string>> = { va: 'Simulated VA', dlco: 'DLCO' };
