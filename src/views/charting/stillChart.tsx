import { useMemo } from 'react';
import { buildChartLayout, type PlotArea } from './buildChartLayout.ts';
import { ChartMarks, OwnLimits, type PlacedChart } from './chartDrawing.tsx';
import { plotSides } from './chartMargins.ts';
import type { ControlChartModel } from './controlChartModel.ts';

/** As wide as the text of an A4 page in CSS pixels: what is written in it is then as large as around it. */
const width = 660;
const plotHeight = 176;
const top = 22;
const axisHeight = 26;
/** For two rows of flags, where there are events at all. */
const flagsHeight = 36;
const tick = 4;

/** A control chart that stands still, for paper: the same drawing with axes of its own, and nothing to point at. */
export function StillChart({ model, name }: { model: ControlChartModel; name: string }) {
  const { timeTicks, valueAxis, valueTicks, events, from, to } = model;
  const placed = useMemo((): PlacedChart => {
    const plot: PlotArea = {
      x: plotSides.left,
      y: top,
      width: width - plotSides.left - plotSides.right,
      height: plotHeight,
    };
    const x = (at: number) => plot.x + ((at - from) / (to - from)) * plot.width;
    const y = (value: number) =>
      plot.y + plot.height - ((value - valueAxis.from) / (valueAxis.to - valueAxis.from)) * plot.height;
    return { plot, x, y, layout: buildChartLayout(model, plot, x, y) };
  }, [model, from, to, valueAxis]);
  const { plot, x, y } = placed;
  const flags = events.length > 0 ? flagsHeight : 0;
  const [bottom, right] = [plot.y + plot.height, plot.x + plot.width];
  return (
    <svg
      aria-label={name}
      className="control-chart control-chart--still"
      role="img"
      viewBox={`0 0 ${width} ${bottom + axisHeight + flags}`}
    >
      <OwnLimits model={model} x={x} y={y} />
      <g className="control-chart__frame">
        <path d={`M${plot.x} ${plot.y}V${bottom}H${right}`} />
        {timeTicks.map(({ at }) => (
          <path d={`M${x(at)} ${bottom}v${tick}`} key={at} />
        ))}
        {valueAxis.ticks.map((value) => (
          <path d={`M${plot.x} ${y(value)}h${-tick}`} key={value} />
        ))}
      </g>
      {everyOf(timeTicks.length, plot.width).map((index) => {
        const each = timeTicks[index];
        return each === undefined ? null : (
          <text key={each.at} textAnchor="middle" x={x(each.at)} y={bottom + flags + 19}>
            {each.text}
          </text>
        );
      })}
      {valueAxis.ticks.map((value) => (
        <text key={value} textAnchor="end" x={plot.x - tick - 4} y={y(value) + 4}>
          {valueTicks.get(value)}
        </text>
      ))}
      <ChartMarks model={model} placed={placed} />
    </svg>
  );
}

/** Room for a month and its year in small type. */
const tickRoom = 64;

/** Which of so many ticks have room for their words: all, or every second, third … from the first on. */
function everyOf(count: number, room: number): readonly number[] {
  const step = Math.max(1, Math.ceil((count * tickRoom) / room));
  return Array.from({ length: Math.ceil(count / step) }, (_, index) => index * step);
}
