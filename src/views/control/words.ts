/** The words for a control and its series. */
import type { ControlJudgement, ControlSeriesName, SimulatorLevel } from '../../journal/entries.ts';

export const levelWords: Record<SimulatorLevel, string> = { low: 'Low', high: 'High' };

export const seriesWords: Record<ControlJudgement['series'][number]['name'], string> = {
  dlco: 'DLCO',
  va: 'VA',
  low: 'Low level',
  high: 'High level',
};

export const seriesName = (series: ControlSeriesName): string =>
  seriesWords[series.kind === 'biological' ? series.quantity : series.level];
