import type { BeforeAfter, Side } from './beforeAfter.ts';
import type { Scale } from './chartPaths.ts';
import type { Span } from './chartWindow.ts';

/** What stands before something that happened in rings, those after it in squares, and the mean of each. */
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
  const shown = (side: Side) => side.items.filter(({ at }) => at >= from && at <= to);
  return (
    <g className="control-chart__turning">
      {shown(before).map(({ at, level }) => (
        <circle cx={x(at)} cy={y(level)} key={at} r={7} />
      ))}
      {shown(after).map(({ at, level }) => (
        <rect height={12} key={at} width={12} x={x(at) - 6} y={y(level) - 6} />
      ))}
      <Mean name="before" side={{ ...before, items: shown(before) }} x={x} y={y} />
      <Mean name="after" side={{ ...after, items: shown(after) }} x={x} y={y} />
    </g>
  );
}

function Mean({
  name,
  side: { items, mean },
  x,
  y,
}: {
  name: string;
  side: Pick<Side, 'items' | 'mean'>;
  x: Scale;
  y: Scale;
}) {
  const [first, last] = [items[0], items.at(-1)];
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
