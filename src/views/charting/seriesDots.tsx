import { clearingsPath, dotsPath, marksPath, type Scale, strokesPath } from './chartPaths.ts';
import type { ChartPoint } from './controlChartModel.ts';

const dotKinds = ['filled', 'apart', 'open', 'struck'] as const;

/** All dots of a kind are one path, and all marks of a kind, so that a thousand are as quickly drawn as a hundred. */
export function SeriesDots({ points, x, y }: { points: readonly ChartPoint[]; x: Scale; y: Scale }) {
  const plain = points.filter(({ mark }) => mark === null);
  const warned = points.filter(({ mark }) => mark === 'warn');
  const failed = points.filter(({ mark }) => mark === 'fail');
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
      {warned.length === 0 ? null : (
        <g data-shape="warn">
          <path className="mark" d={marksPath(warned, 'warn', x, y)} fill="none" strokeWidth={3} />
        </g>
      )}
      {failed.length === 0 ? null : (
        <g data-shape="fail">
          <path className="control-chart__clearing" d={clearingsPath(failed, x, y)} />
          <path className="mark" d={marksPath(failed, 'fail', x, y)} fill="none" strokeWidth={2} />
        </g>
      )}
    </>
  );
}
