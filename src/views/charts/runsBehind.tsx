import { type RefObject, useEffect } from 'react';
import { useActiveTooltipDataPoints, usePlotArea, useXAxisScale, useYAxisScale, ZIndexLayer } from 'recharts';
import type { ChartPoint, ControlChartModel } from './controlChartModel.ts';
import { idsBehind } from './signalsShown.ts';

/** Above the runs. */
const layerOrder = 560;

/**
 * Rings around the runs that a signal rests on: of the run in hand, else of the one that was chosen. Drawn apart from the
 * runs, so that pointing draws nothing anew but this.
 */
export function RunsBehind({
  model: { places },
  chosen,
  activeId,
}: {
  model: Pick<ControlChartModel, 'places'>;
  /** Ids of the runs behind the chosen signal. */
  chosen: readonly string[];
  /** Is told which run the pointer or the keyboard's cursor is at; empty while at none. */
  activeId: RefObject<string>;
}) {
  const active = useActiveTooltipDataPoints<ChartPoint>()?.[0];
  const plot = usePlotArea();
  const scaleX = useXAxisScale();
  const scaleY = useYAxisScale();
  useEffect(() => {
    activeId.current = active?.id ?? '';
  }, [active, activeId]);
  const pointedAt = active ? idsBehind(active.seriesRun) : [];
  const ids = pointedAt.length > 0 ? pointedAt : chosen;
  const runs = ids.flatMap((id) => places.get(id) ?? []);
  if (runs.length === 0 || !plot || !scaleX || !scaleY) return null;
  return (
    <ZIndexLayer zIndex={layerOrder}>
      <g className="control-chart__behind">
        {runs.map(({ at, drawnAt }) => (
          <circle cx={scaleX(at)} cy={scaleY(drawnAt)} key={at} r={11} />
        ))}
      </g>
    </ZIndexLayer>
  );
}
