/** What a series of controls is called. */
import type { ControlSeriesName } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { quantityWords } from '../parts/words.ts';
import type { SeriesOfControls } from './controlSeries.ts';

export const levelWords = { low: 'Low level', high: 'High level' } as const;

/** `DLCO, B1` or `Low level`: within one analyzer. */
export function controlSeriesName(
  series: ControlSeriesName,
  { subjects }: Pick<Logbook, 'subjects'>,
): string {
  if (series.kind === 'simulator') return levelWords[series.level];
  const code = subjects.get(series.subjectId)?.description.code ?? 'unknown';
  return `${quantityWords[series.quantity]}, ${code}`;
}

/** `DLCO, B1, Room 2, biological control` */
export function controlHeading(
  { analyzerId, series }: SeriesOfControls,
  logbook: Pick<Logbook, 'subjects' | 'analyzers'>,
): string {
  const label = logbook.analyzers.get(analyzerId)?.description.label ?? 'unknown';
  const kind = series.kind === 'biological' ? 'biological control' : 'precision-gas simulator';
  return `${controlSeriesName(series, logbook)}, ${label}, ${kind}`;
}
