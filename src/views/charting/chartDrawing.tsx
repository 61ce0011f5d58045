/** The drawing of a control chart but for its axes, whoever places it: on the screen the library's chart, on paper a picture that stands still. */
import type { ReactNode } from 'react';
import type { ChartLayout, PlotArea } from './buildChartLayout.ts';
import { EventFlags, FailureBars } from './chartHappenings.tsx';
import { OverlayLines, OverlayNames } from './chartOverlays.tsx';
import { bandPath, railsOnAxis, type Scale, steppedPath, stretchesPath } from './chartPaths.ts';
import type { ControlChartModel } from './controlChartModel.ts';
import { SeriesDots } from './seriesDots.tsx';

export interface PlacedChart {
  plot: PlotArea;
  x: Scale;
  y: Scale;
  layout: ChartLayout;
}

/** What lies over the axes' lines. `children`: over the dots and under the words. */
export function ChartMarks({
  model,
  placed: { plot, x, y, layout },
  children,
}: {
  model: ControlChartModel;
  placed: PlacedChart;
  children?: ReactNode;
}) {
  return (
    <>
      <PublishedRails model={model} x={x} y={y} />
      <Epochs layout={layout} model={model} plot={plot} x={x} />
      <FailureBars layout={layout} plot={plot} />
      <EventFlags layout={layout} plot={plot} />
      <OverlayLines overlays={model.overlays} x={x} y={y} />
      <path className="control-chart__hairline" d={stretchesPath(model.stretches, x, y)} />
      <SeriesDots points={model.points} x={x} y={y} />
      {children}
      <OverlayNames overlays={model.overlays} plot={plot} x={x} y={y} />
      <Words layout={layout} plot={plot} />
    </>
  );
}

interface LayerProps {
  model: ControlChartModel;
  x: Scale;
  y: Scale;
}

/** What lies under the axes' lines. */
export function OwnLimits({ model: { limits }, x, y }: LayerProps) {
  return (
    <g>
      <path
        className="control-chart__band"
        d={bandPath(
          limits,
          ({ low2 }) => low2,
          ({ high2 }) => high2,
          x,
          y,
        )}
      />
      <path className="control-chart__edge" d={steppedPath(limits, ({ low3 }) => low3, x, y)} />
      <path className="control-chart__edge" d={steppedPath(limits, ({ high3 }) => high3, x, y)} />
      <path className="control-chart__mean" d={steppedPath(limits, ({ mean }) => mean, x, y)} />
    </g>
  );
}

function PublishedRails({ model: { rails, valueAxis }, x, y }: LayerProps) {
  const low = railsOnAxis(rails, (rail) => rail.low, valueAxis);
  const high = railsOnAxis(rails, (rail) => rail.high, valueAxis);
  return (
    <g>
      <path className="control-chart__rail" d={steppedPath(low, (rail) => rail.low, x, y)} />
      <path className="control-chart__rail" d={steppedPath(high, (rail) => rail.high, x, y)} />
    </g>
  );
}

function Epochs({
  model,
  layout,
  plot,
  x,
}: {
  model: ControlChartModel;
  layout: ChartLayout;
  plot: PlotArea;
  x: Scale;
}) {
  return (
    <g>
      {model.epochs.map(({ id, at }) => (
        <line
          className="control-chart__epoch"
          key={id}
          x1={x(at)}
          x2={x(at)}
          y1={plot.y}
          y2={plot.y + plot.height}
        />
      ))}
      {layout.epochWords.map(({ key, text, x: left, y: baseline }) => (
        <text className="control-chart__word" key={key} x={left} y={baseline}>
          {text}
        </text>
      ))}
    </g>
  );
}

function Words({ layout, plot }: { layout: ChartLayout; plot: PlotArea }) {
  const right = plot.x + plot.width;
  return (
    <g>
      {layout.ruleLabels.map(({ key, text, x, y, leader }) => (
        <g key={key}>
          {leader ? (
            <line
              className="control-chart__leader"
              x1={leader.x}
              x2={leader.x}
              y1={leader.fromY}
              y2={leader.toY}
            />
          ) : null}
          <text className="control-chart__rule" textAnchor="middle" x={x} y={y}>
            {text}
          </text>
        </g>
      ))}
      {layout.lineNames.map(({ key, name, text, y }) => (
        <text className="control-chart__name" data-line={key} key={key} x={right + 6} y={y - 2}>
          <tspan>{name}</tspan>
          <tspan dy={13} x={right + 6}>
            {text}
          </tspan>
        </text>
      ))}
      {layout.outsideWords.map(({ key, text, x, y }) => (
        <text className="control-chart__word" key={key} textAnchor="end" x={x} y={y}>
          {text}
        </text>
      ))}
    </g>
  );
}
