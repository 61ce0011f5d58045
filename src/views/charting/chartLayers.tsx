import { useMemo } from 'react';
import { usePlotArea, useXAxisScale, useYAxisScale, ZIndexLayer } from 'recharts';
import type { BeforeAfter } from './beforeAfter.ts';
import { buildChartLayout } from './buildChartLayout.ts';
import { ChartMarks, OwnLimits, type PlacedChart } from './chartDrawing.tsx';
import type { Scale } from './chartPaths.ts';
import { TurningMarks } from './chartTurning.tsx';
import type { ControlChartModel } from './controlChartModel.ts';

/** Above the axes' lines and under the hover cursor. */
const layerOrder = 550;

/** The drawing within the library's chart, which says where its plot and its scales are. */
export function ChartLayers({ model, turning }: { model: ControlChartModel; turning: BeforeAfter | null }) {
  const plot = usePlotArea();
  const scaleX = useXAxisScale();
  const scaleY = useYAxisScale();
  const placed = useMemo((): PlacedChart | null => {
    if (!plot || !scaleX || !scaleY) return null;
    const x: Scale = (at) => scaleX(at) ?? Number.NaN;
    const y: Scale = (value) => scaleY(value) ?? Number.NaN;
    return { plot, x, y, layout: buildChartLayout(model, plot, x, y) };
  }, [model, plot, scaleX, scaleY]);
  if (!placed) return null;
  const { x, y } = placed;
  return (
    <>
      <OwnLimits model={model} x={x} y={y} />
      <ZIndexLayer zIndex={layerOrder}>
        <ChartMarks model={model} placed={placed}>
          {turning ? <TurningMarks found={turning} span={model} x={x} y={y} /> : null}
        </ChartMarks>
      </ZIndexLayer>
    </>
  );
}
