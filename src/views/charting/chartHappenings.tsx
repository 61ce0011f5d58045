/** What happened to the analyzer, on the chart: failures as bars along the bottom, events as flags under the axis. */
import { type ChartLayout, failureBarHeight, flagPole, type PlotArea } from './buildChartLayout.ts';
import { pennantWidth } from './placeLabels.ts';

interface HappeningProps {
  layout: ChartLayout;
  plot: PlotArea;
}

export function FailureBars({ layout, plot }: HappeningProps) {
  const bottom = plot.y + plot.height;
  return (
    <g className="control-chart__failure">
      {layout.failureBars.map(({ key, x, width }) => (
        <rect height={failureBarHeight} key={key} width={width} x={x} y={bottom - failureBarHeight} />
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
export function EventFlags({ layout, plot }: HappeningProps) {
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
