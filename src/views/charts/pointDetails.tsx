import { useActiveTooltipDataPoints } from 'recharts';
import type { ChartPoint } from './controlChartModel.ts';

/** What is known of the run under the pointer or the keyboard's cursor. */
export function PointDetails() {
  const point = useActiveTooltipDataPoints<ChartPoint>()?.[0];
  if (!point) return null;
  const { when, value, z, verdict, fired, note } = point.details;
  return (
    <div className="point-details">
      <p>{when}</p>
      <p>
        <strong>{value}</strong>
        {z === '' ? null : <> {z}</>}
      </p>
      <p>
        {verdict}
        {fired === '' ? null : `: ${fired}`}
      </p>
      {note === '' ? null : <p className="quiet">{note}</p>}
    </div>
  );
}
