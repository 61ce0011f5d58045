import type { BeforeAfter, Side } from './beforeAfter.ts';
import type { Scale } from './chartPaths.ts';
import type { Span } from './chartWindow.ts';

/** Runs before something that happened in rings, those after it in squares, and the mean of each. */
export function TurningMarks({
  found: { before, after },
  span: { from, to },
  x,
  y,
}: {
  found: BeforeAfter;
  span: Span;
  x: Scale;
  y: Scale;
}) {
  const shown = (side: Side) => side.runs.filter(({ at }) => at >= from && at <= to);
  return (
    <g className="control-chart__turning">
      {shown(before).map(({ at, level }) => (
        <circle cx={x(at)} cy={y(level)} key={at} r={7} />
      ))}
      {shown(after).map(({ at, level }) => (
        <rect height={12} key={at} width={12} x={x(at) - 6} y={y(level) - 6} />
      ))}
      <Mean name="before" side={{ ...before, runs: shown(before) }} x={x} y={y} />
      <Mean name="after" side={{ ...after, runs: shown(after) }} x={x} y={y} />
    </g>
  );
}

function Mean({
  name,
  side: { runs, mean },
  x,
  y,
}: {
  name: string;
  side: Pick<Side, 'runs' | 'mean'>;
  x: Scale;
  y: Scale;
}) {
  const [first, last] = [runs[0], runs.at(-1)];
  if (mean === null || !first || !last) return null;
  const [left, right] = [x(first.at), x(last.at)];
  return (
    <>
      <path className="control-chart__turning-mean" d={`M${left} ${y(mean)}H${right}`} />
      <text className="control-chart__word" textAnchor="middle" x={(left + right) / 2} y={y(mean) - 5}>
        {name}
      </text>
    </>
  );
}
