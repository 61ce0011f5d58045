import { type ReactNode, useMemo, useRef } from 'react';
import { ComposedChart, Line, ResponsiveContainer, Tooltip, XAxis, YAxis } from 'recharts';
import type { BeforeAfter } from './beforeAfter.ts';
import { ChartLayers } from './chartLayers.tsx';
import { plotSides } from './chartMargins.ts';
import type { ControlChartModel } from './controlChartModel.ts';
import { ItemsBehind } from './itemsBehind.tsx';
import { PointDetails } from './pointDetails.tsx';
import type { SeriesScale } from './seriesScale.ts';

const chartHeight = 380;
/** Room under the axis for two rows of flags, where there are events at all. */
const flagsHeight = 36;
/** The library writes both into the element's style, where a style sheet does not reach. */
const tickStyle = { fontSize: 13, fill: 'var(--quiet)' };
const activeDot = { r: 8, fill: 'none', stroke: 'var(--accent)', strokeWidth: 2 };
const margin = { top: 22, right: plotSides.right, bottom: 0, left: 0 };

/** The drawing of one control chart: axes, hover and keyboard by the library, everything else by the layers. */
export function ControlChart({
  model,
  scale,
  name,
  labelledBy,
  describedBy,
  behind,
  turning,
  onChoose,
}: {
  model: ControlChartModel;
  scale: SeriesScale;
  name: string;
  labelledBy: string;
  describedBy: string;
  /** Ids of what stands behind the chosen signal. */
  behind: readonly string[];
  turning: BeforeAfter | null;
  /** A dot was pressed, or Enter on it. */
  onChoose: (id: string) => void;
}): ReactNode {
  const activeId = useRef('');
  const { valueAxis } = model;
  const ticks = useMemo(() => model.timeTicks.map(({ at }) => at), [model]);
  const tickText = useMemo(() => new Map(model.timeTicks.map(({ at, text }) => [at, text])), [model]);
  const flags = model.events.length > 0 ? flagsHeight : 0;
  return (
    <div onKeyDownCapture={({ key }) => (key === 'Enter' ? onChoose(activeId.current) : undefined)}>
      <ResponsiveContainer
        height={chartHeight}
        initialDimension={{ width: 720, height: chartHeight }}
        width="100%"
      >
        <ComposedChart
          accessibilityLayer
          aria-describedby={describedBy}
          aria-labelledby={labelledBy}
          className="control-chart"
          data={model.points}
          margin={margin}
          onClick={() => onChoose(activeId.current)}
          role="img"
          title={name}
        >
          <XAxis
            dataKey="at"
            domain={[model.from, model.to]}
            height={30 + flags}
            interval="equidistantPreserveStart"
            minTickGap={12}
            scale="linear"
            tick={tickStyle}
            tickFormatter={(at: number) => tickText.get(at) ?? ''}
            tickMargin={6 + flags}
            ticks={ticks}
            tickSize={4}
            type="number"
          />
          <YAxis
            domain={[valueAxis.from, valueAxis.to]}
            interval={0}
            tick={tickStyle}
            tickFormatter={(value: number) => model.valueTicks.get(value) ?? ''}
            ticks={valueAxis.ticks}
            tickSize={4}
            type="number"
            width={plotSides.left}
          />
          <ChartLayers model={model} turning={turning} />
          <ItemsBehind activeId={activeId} chosen={behind} model={model} />
          <Line
            activeDot={activeDot}
            dataKey="drawnAt"
            dot={false}
            isAnimationActive={false}
            stroke="none"
            type="linear"
          />
          <Tooltip
            content={() => <PointDetails scale={scale} />}
            cursor={{ className: 'control-chart__cursor' }}
            isAnimationActive={false}
          />
        </ComposedChart>
      </ResponsiveContainer>
    </div>
  );
}
