import { MarkPath } from '../parts/verdictMark.tsx';
import { dotsPath, type Scale, strokesPath } from './chartPaths.ts';
import type { ChartPoint } from './controlChartModel.ts';

const dotKinds = ['filled', 'apart', 'open', 'struck'] as const;

/** Dots of a kind are one path, so that a thousand runs are as quickly drawn as a hundred; a marked run is a shape of its own. */
export function RunDots({ points, x, y }: { points: readonly ChartPoint[]; x: Scale; y: Scale }) {
  const plain = points.filter(({ mark }) => mark === null);
  const marked = points.filter(({ mark }) => mark !== null);
  return (
    <>
      {dotKinds.map((kind) => {
        const dots = plain.filter(({ dot }) => dot === kind);
        return dots.length === 0 ? null : (
          <g className="control-chart__dots" data-dot={kind} key={kind}>
            <path d={dotsPath(dots, kind === 'struck' ? 3.5 : 3, x, y)} />
            {kind === 'apart' ? <path className="control-chart__ring" d={dotsPath(dots, 6, x, y)} /> : null}
            {kind === 'struck' ? (
              <path className="control-chart__strike" d={strokesPath(dots, x, y)} />
            ) : null}
          </g>
        );
      })}
      {marked.map((point) => (
        <Marked key={point.id} mark={point.mark} x={x(point.at)} y={y(point.drawnAt)} />
      ))}
    </>
  );
}

function Marked({ mark, x, y }: { mark: ChartPoint['mark']; x: number; y: number }) {
  if (mark === null) return null;
  return (
    <g data-shape={mark} transform={`translate(${x - 8} ${y - 8})`}>
      {mark === 'fail' ? (
        <rect className="control-chart__clearing" height={8} width={12} x={2} y={4} />
      ) : null}
      <MarkPath shape={mark} />
    </g>
  );
}
