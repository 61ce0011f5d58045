import { MarkPath } from '../parts/verdictMark.tsx';
import type { ChartPoint } from './controlChartModel.ts';

/** A struck dot is a voided run, an open one was made before own limits could judge. */
export function RunDot({ point: { dot, mark }, x, y }: { point: ChartPoint; x: number; y: number }) {
  if (mark !== null) {
    return (
      <g data-shape={mark} transform={`translate(${x - 8} ${y - 8})`}>
        {mark === 'fail' ? (
          <rect className="control-chart__clearing" height={8} width={12} x={2} y={4} />
        ) : null}
        <MarkPath shape={mark} />
      </g>
    );
  }
  return (
    <g className="control-chart__dot" data-dot={dot} transform={`translate(${x} ${y})`}>
      <circle r={dot === 'struck' ? 3.5 : 3} />
      {dot === 'struck' ? <path d="M-6 4L6 -4" /> : null}
    </g>
  );
}
