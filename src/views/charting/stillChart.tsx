import { useMemo } from 'react';
import { buildChartLayout } from './buildChartLayout.ts';
import { ChartMarks, OwnLimits } from './chartDrawing.tsx';
import type { ControlChartModel } from './controlChartModel.ts';
import { placeStillChart } from './placeStillChart.ts';

const tick = 4;

/** A control chart that stands still, for paper: the same drawing with axes of its own, and nothing to point at. */
export function StillChart({ model, name }: { model: ControlChartModel; name: string }) {
  const place = useMemo(() => placeStillChart(model), [model]);
  const { plot, x, y, width, height } = place;
  const layout = useMemo(() => buildChartLayout(model, plot, x, y), [model, plot, x, y]);
  const [bottom, right] = [plot.y + plot.height, plot.x + plot.width];
  return (
    <svg
      aria-label={name}
      className="control-chart control-chart--still"
      role="img"
      viewBox={`0 0 ${width} ${height}`}
    >
      <OwnLimits model={model} x={x} y={y} />
      <g className="control-chart__frame">
        <path d={`M${plot.x} ${plot.y}V${bottom}H${right}`} />
        {model.timeTicks.map(({ at }) => (
          <path d={`M${x(at)} ${bottom}v${tick}`} key={at} />
        ))}
        {model.valueAxis.ticks.map((value) => (
          <path d={`M${plot.x} ${y(value)}h${-tick}`} key={value} />
        ))}
      </g>
      {place.timeWords.map((word) => (
        <text key={word.key} textAnchor="middle" x={word.x} y={word.y}>
          {word.text}
        </text>
      ))}
      {place.valueWords.map((word) => (
        <text key={word.key} textAnchor="end" x={word.x} y={word.y}>
          {word.text}
        </text>
      ))}
      <ChartMarks model={model} placed={{ plot, x, y, layout }} />
    </svg>
  );
}
