/** What happened to the analyzer, on the chart: failures as bars along the bottom, events as flags under the axis. */
import { type ChartLayout, failureBarHeight, flagPole, type PlotArea } from './buildChartLayout.ts';
import type { Scale } from './chartPaths.ts';
import type { ControlChartModel } from './controlChartModel.ts';
import { pennantWidth } from './placeLabels.ts';

interface HappeningProps {
  model: ControlChartModel;
  layout: ChartLayout;
  plot: PlotArea;
  x: Scale;
}

export function FailureBars({ model, layout, plot, x }: HappeningProps) {
  const bottom = plot.y + plot.height;
  return (
    <g className="control-chart__failure">
      {model.failures.map(({ id, from, to }) => (
        <rect
          height={failureBarHeight}
          key={id}
          width={Math.max(x(to) - x(from), 3)}
          x={x(from)}
          y={bottom - failureBarHeight}
        />
      ))}
      {layout.failureWords.map(({ key, text, x: left, y }) => (
        <text key={key} x={left} y={y}>
          {text}
        </text>
      ))}
    </g>
  );
}

/** A pole with a pennant; its word stands beside it where there is room, and in the list under the chart always. */
export function EventFlags({ layout, plot }: Pick<HappeningProps, 'layout' | 'plot'>) {
  const bottom = plot.y + plot.height;
  return (
    <g className="control-chart__event">
      {layout.flags.map(({ key, x, row, text }) => {
        const drop = row * flagPole.row;
        return (
          <g key={key} transform={`translate(${x} ${bottom})`}>
            <path d={`M0 0V${flagPole.first + drop}M0 ${5 + drop}l7 3.5L0 ${12 + drop}Z`} />
            <text x={pennantWidth} y={flagPole.first + drop - 1}>
              {text}
            </text>
          </g>
        );
      })}
    </g>
  );
}
