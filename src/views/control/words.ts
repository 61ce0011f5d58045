/** The words for a control and its series. */
import type { Control, ControlJudgement, SimulatorLevel } from '../../journal/entries.ts';

export const levelWords: Record<SimulatorLevel, string> = { low: 'Low', high: 'High' };

export const kindWords: Record<Control['kind'], string> = {
  biological: 'Biological control',
  simulator: 'Precision-gas simulator',
};

export const seriesWords: Record<ControlJudgement['series'][number]['name'], string> = {
  dlco: 'DLCO',
  va: 'VA',
  low: 'Low level',
  high: 'High level',
};
