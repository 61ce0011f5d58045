/** How charts are shown in this visit; the same for every series that is looked at. */
import { create } from 'zustand';
import { keepSessionChoice, readSessionChoice } from '../../store/sessionChoice.ts';
import type { AxisKind } from './axisView.ts';

interface ChartChoices {
  axis: AxisKind;
  showPublished: boolean;
  /** EWMA and CUSUM, below the chart. */
  showMemory: boolean;
}

const isOn = (name: keyof ChartChoices) => readSessionChoice(`charts ${name}`) === 'on';

export const useChartChoices = create<ChartChoices & { choose: (change: Partial<ChartChoices>) => void }>()(
  (set) => ({
    axis: isOn('axis') ? 'z' : 'value',
    showPublished: isOn('showPublished'),
    showMemory: isOn('showMemory'),
    choose: (change) => {
      for (const [name, value] of Object.entries(change)) {
        keepSessionChoice(`charts ${name}`, value === true || value === 'z' ? 'on' : 'off');
      }
      set(change);
    },
  }),
);
