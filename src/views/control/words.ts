/** The words for a control's series, within one control. */
import type { ControlJudgement, ControlSeriesName } from '../../journal/entries.ts';
import { levelWords } from '../charting/controlHeading.ts';
import { quantityWords } from '../parts/words.ts';

export const seriesWords: Record<ControlJudgement['series'][number]['name'], string> = {
  ...quantityWords,
  ...levelWords,
};

export const seriesName = (series: ControlSeriesName): string =>
  seriesWords[series.kind === 'biological' ? series.quantity : series.level];
