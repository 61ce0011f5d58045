import { MarkPath } from '../parts/verdictMark.tsx';
import { type Sparkline as Model, type SparkPoint, sparkHeight, sparkWidth } from './buildSparkline.ts';

/** `name`: what is drawn; the numbers follow it for whoever cannot see them. */
export function Sparkline({ model, name }: { model: Model; name: string }) {
  const { band, edges, middleY, line, points, description } = model;
  return (
    <svg
      aria-label={`${name}: ${description}`}
      className="sparkline"
      height={sparkHeight}
      role="img"
      viewBox={`0 0 ${sparkWidth} ${sparkHeight}`}
      width={sparkWidth}
    >
      <rect
        className="sparkline__band"
        height={band.bottom - band.top}
        width={sparkWidth}
        x={0}
        y={band.top}
      />
      <path className="sparkline__edge" d={`M0 ${edges.top}H${sparkWidth}M0 ${edges.bottom}H${sparkWidth}`} />
      <path className="sparkline__middle" d={`M0 ${middleY}H${sparkWidth}`} />
      <path className="sparkline__line" d={line} />
      {points.map((point) =>
        point.mark === null ? (
          <circle
            className="sparkline__dot"
            cx={point.x}
            cy={point.y}
            data-judged={point.hasZ}
            key={point.id}
            r={point.hasZ ? 1.6 : 1.4}
          />
        ) : (
          <Signal key={point.id} mark={point.mark} point={point} />
        ),
      )}
    </svg>
  );
}

/** In its verdict's shape, cleared of the line behind it. */
function Signal({ point: { x, y }, mark }: { point: SparkPoint; mark: 'fail' | 'warn' }) {
  return (
    <g data-shape={mark} transform={`translate(${x} ${y}) scale(0.6) translate(-8 -8)`}>
      {mark === 'fail' ? <rect className="sparkline__clearing" height={8} width={12} x={2} y={4} /> : null}
      <MarkPath shape={mark} />
    </g>
  );
}
