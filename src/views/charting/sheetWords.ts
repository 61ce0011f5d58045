/** What a saved chart says of itself: which series, in which unit, of whom, when, and by which journal it can be proved. */
import { dayAndTime } from '../parts/figures.ts';
import type { SheetWords } from './chartSheet.ts';
import type { ControlChartModel } from './controlChartModel.ts';
import type { SeriesScale } from './seriesScale.ts';

export interface SheetSource {
  heading: string;
  /** What is measured, as the sheet names it: `Simulated VA`. */
  measured: string;
  scale: Pick<SeriesScale, 'unit'>;
  model: Pick<ControlChartModel, 'axis'>;
  /** The series in words, as beside the chart. */
  sentences: readonly string[];
  /** Empty where the laboratory has not given one. */
  laboratory: string;
  demonstration: boolean;
  heads: ReadonlyMap<string, { seq: number; hash: string }>;
  now: number;
}

export function sheetWords(source: SheetSource): SheetWords {
  const { heading, measured, scale, model, sentences, laboratory, demonstration, heads, now } = source;
  const axis = model.axis === 'z' ? ' as z, in SD from the mean' : ` in ${scale.unit}`;
  return {
    title: heading,
    lines: [`${measured}${axis}.`, ...sentences.filter((sentence) => sentence !== '')],
    foot: [
      ...(demonstration
        ? ['Demonstration data: an invented laboratory, nothing here is a measurement.']
        : []),
      `Saved ${dayAndTime(now)} from the Diffusion QC Logbook${laboratory === '' ? '' : ` of ${laboratory}`}.`,
      ...[...heads].map(
        ([workstation, { seq, hash }]) =>
          `Workstation ${workstation}: entry ${seq} is the last, hash ${hash}`,
      ),
    ],
  };
}
