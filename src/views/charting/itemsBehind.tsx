import { type RefObject, useEffect } from 'react';
import { useActiveTooltipDataPoints, usePlotArea, useXAxisScale, useYAxisScale, ZIndexLayer } from 'recharts';
import type { ChartPoint, ControlChartModel } from './controlChartModel.ts';
import { idsBehind } from './signalsShown.ts';

/** Above the dots. */
const layerOrder = 560;

/**
 * Rings around all that a signal rests on: that of the dot in hand, else of the one that was chosen. Drawn apart from the
 * dots, so that pointing draws nothing anew but this.
 */
export function ItemsBehind({
  model: { places },
  chosen,
  activeId,
}: {
  model: Pick<ControlChartModel, 'places'>;
  /** Ids of what stands behind the chosen signal. */
  chosen: readonly string[];
  /** Is told which dot the pointer or the keyboard's cursor is at; empty while at none. */
  activeId: RefObject<string>;
}) {
  const active = useActiveTooltipDataPoints<ChartPoint>()?.[0];
  const plot = usePlotArea();
  const scaleX = useXAxisScale();
  const scaleY = useYAxisScale();
  useEffect(() => {
    activeId.current = active?.id ?? '';
  }, [active, activeId]);
  const pointedAt = active ? idsBehind(active.item) : [];
  const ids = pointedAt.length > 0 ? pointedAt : chosen;
  const rings = ids.flatMap((id) => places.get(id) ?? []);
  if (rings.length === 0 || !plot || !scaleX || !scaleY) return null;
  return (
    <ZIndexLayer zIndex={layerOrder}>
      <g className="control-chart__behind">
        {rings.map(({ at, drawnAt }) => (
          <circle cx={scaleX(at)} cy={scaleY(drawnAt)} key={at} r={11} />
        ))}
      </g>
    </ZIndexLayer>
  );
}
