/** Where a chart that stands still puts its plot and the words of its axes, in the units of its own picture. Pure. */
import type { PlotArea } from './buildChartLayout.ts';
import { plotSides } from './chartMargins.ts';
import type { Scale } from './chartPaths.ts';
import type { ControlChartModel } from './controlChartModel.ts';

/** As wide as the text of an A4 page in CSS pixels: what is written in it is then as large as around it. */
const width = 660;
const plotHeight = 176;
const top = 22;
const axisHeight = 26;
/** For two rows of flags, where there are events at all. */
const flagsHeight = 36;
/** A month and its year in small type. */
const wordRoom = 64;

export interface AxisWord {
  key: number;
  x: number;
  y: number;
  text: string;
}

export interface StillPlace {
  width: number;
  height: number;
  plot: PlotArea;
  x: Scale;
  y: Scale;
  /** Of all time ticks, those that have room for their words: each, or every second, third … */
  timeWords: readonly AxisWord[];
  /** End at their x. */
  valueWords: readonly AxisWord[];
}

export function placeStillChart({
  timeTicks,
  valueAxis,
  valueTicks,
  events,
  from,
  to,
}: ControlChartModel): StillPlace {
  const plot: PlotArea = {
    x: plotSides.left,
    y: top,
    width: width - plotSides.left - plotSides.right,
    height: plotHeight,
  };
  const bottom = plot.y + plot.height;
  const flags = events.length > 0 ? flagsHeight : 0;
  const x: Scale = (at) => plot.x + ((at - from) / (to - from)) * plot.width;
  const y: Scale = (value) =>
    bottom - ((value - valueAxis.from) / (valueAxis.to - valueAxis.from)) * plot.height;
  const every = Math.max(1, Math.ceil((timeTicks.length * wordRoom) / plot.width));
  return {
    width,
    height: bottom + axisHeight + flags,
    plot,
    x,
    y,
    timeWords: timeTicks
      .filter((_, index) => index % every === 0)
      .map(({ at, text }) => ({ key: at, x: x(at), y: bottom + flags + 19, text })),
    valueWords: valueAxis.ticks.map((value) => ({
      key: value,
      x: plot.x - 8,
      y: y(value) + 4,
      text: valueTicks.get(value) ?? '',
    })),
  };
}
