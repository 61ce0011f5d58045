import { useMemo } from 'react';
import { usePlotArea, useXAxisScale, useYAxisScale, ZIndexLayer } from 'recharts';
import type { BeforeAfter } from './beforeAfter.ts';
import { buildChartLayout, type ChartLayout, type PlotArea } from './buildChartLayout.ts';
import { EventFlags, FailureBars } from './chartHappenings.tsx';
import { OverlayLines, OverlayNames } from './chartOverlays.tsx';
import { bandPath, railsOnAxis, type Scale, steppedPath, stretchesPath } from './chartPaths.ts';
import { TurningMarks } from './chartTurning.tsx';
import type { ControlChartModel } from './controlChartModel.ts';
import { SeriesDots } from './seriesDots.tsx';

/** Above the axes' lines and under the hover cursor. */
const layerOrder = 550;

export function ChartLayers({ model, turning }: { model: ControlChartModel; turning: BeforeAfter | null }) {
  const plot = usePlotArea();
  const scaleX = useXAxisScale();
  const scaleY = useYAxisScale();
  const drawn = useMemo(() => {
    if (!plot || !scaleX || !scaleY) return null;
    const x: Scale = (at) => scaleX(at) ?? Number.NaN;
    const y: Scale = (value) => scaleY(value) ?? Number.NaN;
    return { plot, x, y, layout: buildChartLayout(model, plot, x, y) };
  }, [model, plot, scaleX, scaleY]);
  if (!drawn) return null;
  const { x, y, layout } = drawn;
  return (
    <>
      <OwnLimits model={model} x={x} y={y} />
      <ZIndexLayer zIndex={layerOrder}>
        <PublishedRails model={model} x={x} y={y} />
        <Epochs layout={layout} model={model} plot={drawn.plot} x={x} />
        <FailureBars layout={layout} plot={drawn.plot} />
        <EventFlags layout={layout} plot={drawn.plot} />
        <OverlayLines overlays={model.overlays} x={x} y={y} />
        <path className="control-chart__hairline" d={stretchesPath(model.stretches, x, y)} />
        <SeriesDots points={model.points} x={x} y={y} />
        {turning ? <TurningMarks found={turning} span={model} x={x} y={y} /> : null}
        <OverlayNames overlays={model.overlays} plot={drawn.plot} x={x} y={y} />
        <Words layout={layout} plot={drawn.plot} />
      </ZIndexLayer>
    </>
  );
}

interface LayerProps {
  model: ControlChartModel;
  x: Scale;
  y: Scale;
}

function OwnLimits({ model: { limits }, x, y }: LayerProps) {
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
