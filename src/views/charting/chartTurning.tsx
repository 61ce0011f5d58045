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
  const r = ringRadius([...shown(before), ...shown(after)].map(({ at }) => x(at)));
  return (
    <g className="control-chart__turning">
      {shown(before).map(({ at, level }) => (
        <circle cx={x(at)} cy={y(level)} key={at} r={r} />
      ))}
      {shown(after).map(({ at, level }) => (
        <rect height={2 * r} key={at} width={2 * r} x={x(at) - r} y={y(level) - r} />
      ))}
      <Mean name="before" side={{ ...before, items: shown(before) }} x={x} y={y} />
      <Mean name="after" side={{ ...after, items: shown(after) }} x={x} y={y} />
    </g>
  );
}

/** Around a dot with room to spare; where the runs stand close, as on a phone, no wider than tells them apart. */
function ringRadius(xs: readonly number[]): number {
  const width = Math.max(...xs) - Math.min(...xs);
  const apart = xs.length < 2 ? largestRing : width / (xs.length - 1);
  return Math.min(largestRing, Math.max(smallestRing, apart * 0.8));
}

const largestRing = 6.5;
const smallestRing = 4;

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
