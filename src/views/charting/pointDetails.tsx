import { useActiveTooltipDataPoints } from 'recharts';
import { Corrected } from '../parts/struck.tsx';
import type { ChartPoint } from './controlChartModel.ts';
import { describePoint } from './describePoint.ts';
import type { SeriesScale } from './seriesScale.ts';

/** What is known of the dot under the pointer or the keyboard's cursor; read out as it changes. */
export function PointDetails({ scale }: { scale: SeriesScale }) {
  const point = useActiveTooltipDataPoints<ChartPoint>()?.[0];
  return (
    <div className="point-details" role="status">
      {point ? <Details point={point} scale={scale} /> : null}
    </div>
  );
}

function Details({ point, scale }: { point: ChartPoint; scale: SeriesScale }) {
  const { when, value, former, z, verdict, fired, apart, note } = describePoint(point.item, scale);
  return (
    <>
      <p>{when}</p>
      <p>
        <Corrected former={former}>
          <strong>{value}</strong>
        </Corrected>
        {z === '' ? null : <> {z}</>}
      </p>
      <p>
        {verdict}
        {fired === '' ? null : `: ${fired}`}
      </p>
      {apart === '' ? null : <p className="quiet">{apart}</p>}
      {note === '' ? null : <p className="quiet">{note}</p>}
    </>
  );
}
