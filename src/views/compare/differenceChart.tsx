import { useId, useMemo } from 'react';
import type { RoutePair } from '../../core/index.ts';
import { MarkPath } from '../parts/verdictMark.tsx';
import { buildDifferenceChart } from './buildDifferenceChart.ts';
import type { DifferenceScale } from './differenceScale.ts';

const percent = (value: number) => `${value}%`;

/** Patient test less built-in routine, pair by pair: dots on a hairline over the band of what was usual. */
export function DifferenceChart({ pairs, scale }: { pairs: readonly RoutePair[]; scale: DifferenceScale }) {
  const descriptionId = useId();
  const model = useMemo(() => buildDifferenceChart(pairs, scale), [pairs, scale]);
  if (model === null) return null;
  const name = scale.quantity === 'va' ? 'Difference in VA' : 'Difference in DLCO';
  return (
    <figure className="stack">
      <h3>
        {name} <span className="unit">{scale.unit}</span>
      </h3>
      <div className="difference-chart">
        <svg aria-describedby={descriptionId} role="img">
          <title>{name}</title>
          {model.bands.map(({ key, x, width, y, height }) => (
            <rect
              className="difference-chart__band"
              height={percent(height)}
              key={key}
              width={percent(width)}
              x={percent(x)}
              y={percent(y)}
            />
          ))}
          {model.bands.map(({ key, x, width, meanY }) => (
            <Line className="difference-chart__mean" key={key} x1={x} x2={x + width} y1={meanY} y2={meanY} />
          ))}
          <Line className="difference-chart__zero" x1={0} x2={100} y1={model.zeroY} y2={model.zeroY} />
          {model.epochs.map((x) => (
            <Line className="difference-chart__epoch" key={x} x1={x} x2={x} y1={0} y2={100} />
          ))}
          {model.ticks.map(({ y, text }) => (
            <text dx={-10} dy="0.35em" key={text} textAnchor="end" x="0%" y={percent(y)}>
              {text}
            </text>
          ))}
          {model.hairlines.map(({ key, ...ends }) => (
            <Line className="difference-chart__hairline" key={key} {...ends} />
          ))}
          {model.points.map(({ key, x, y, mark, judged }) =>
            mark === null ? (
              <circle
                className="difference-chart__dot"
                cx={percent(x)}
                cy={percent(y)}
                data-judged={judged}
                key={key}
                r={3}
              />
            ) : (
              <svg
                aria-hidden="true"
                data-shape={mark}
                key={key}
                overflow="visible"
                x={percent(x)}
                y={percent(y)}
              >
                <g transform="translate(-8 -8)">
                  {mark === 'fail' ? (
                    <rect className="difference-chart__clearing" height={8} width={12} x={2} y={4} />
                  ) : null}
                  <MarkPath shape={mark} />
                </g>
              </svg>
            ),
          )}
          <text dy="1.6em" x="0%" y="100%">
            {model.firstDay}
          </text>
          {model.lastDay === model.firstDay ? null : (
            <text dy="1.6em" textAnchor="end" x="100%" y="100%">
              {model.lastDay}
            </text>
          )}
        </svg>
      </div>
      <figcaption className="for-readers" id={descriptionId}>
        {model.description}
      </figcaption>
    </figure>
  );
}

function Line({
  className,
  x1,
  y1,
  x2,
  y2,
}: Record<'x1' | 'y1' | 'x2' | 'y2', number> & { className: string }) {
  return <line className={className} x1={percent(x1)} x2={percent(x2)} y1={percent(y1)} y2={percent(y2)} />;
}
