/** What the address of the controls asks for, which `controlSeriesHref` and `checkSeriesHref` write. */
import type { NotedCheck } from '../../journal/entries.ts';
import type { SeriesOfControls } from '../charting/controlSeries.ts';
import { checkSeriesHref, controlSeriesHref, decodedPart } from '../deskRoutes.ts';

/** A check with figures that is no control, and is charted beside them. */
export type ChartedCheck = Extract<NotedCheck, 'volume-check' | 'linearity'>;

export type Asked =
  | ({ kind: 'series' } & SeriesOfControls)
  | { [K in ChartedCheck]: { kind: K; analyzerId: string } }[ChartedCheck];

const isOneOf = <T extends string>(words: readonly T[], word: string | undefined): word is T =>
  words.some((one) => one === word);

/** Null where the address names nothing that could be here. */
export function readControlsAddress(path: string): Asked | null {
  const [, screen, analyzerId = '', kind, third = '', fourth] = path.split('/').map(decodedPart);
  if (screen !== 'controls' || analyzerId === '') return null;
  if (kind === 'volume-check' || kind === 'linearity') return { kind, analyzerId };
  if (kind === 'simulator' && isOneOf(['low', 'high'] as const, third)) {
    return { kind: 'series', analyzerId, series: { kind, level: third } };
  }
  if (kind === 'biological' && third !== '' && isOneOf(['dlco', 'va'] as const, fourth)) {
    return { kind: 'series', analyzerId, series: { kind, subjectId: third, quantity: fourth } };
  }
  return null;
}

export const hrefOf = (asked: Asked): string =>
  asked.kind === 'series'
    ? controlSeriesHref(asked.analyzerId, asked.series)
    : checkSeriesHref(asked.analyzerId, asked.kind);
