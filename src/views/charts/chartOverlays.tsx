import type { PlotArea } from './buildChartLayout.ts';
import { type Scale, stretchesPath } from './chartPaths.ts';
import type { Overlay } from './compareSeries.ts';
import { lineHeight, spreadApart } from './placeLabels.ts';

/** The other analyzers' lines, each with a stroke of its own and its name at its end. */
export function Overlays({
  overlays,
  plot,
  x,
  y,
}: {
  overlays: readonly Overlay[];
  plot: PlotArea;
  x: Scale;
  y: Scale;
}) {
  const ends = overlays.flatMap(({ key, label, stretches }) => {
    const last = stretches.at(-1)?.at(-1);
    return last ? [{ key, label, x: Math.min(x(last.at), plot.x + plot.width), y: y(last.value) }] : [];
  });
  const names = spreadApart(ends, { height: lineHeight, top: plot.y, bottom: plot.y + plot.height });
  return (
    <g className="control-chart__overlay">
      {overlays.map(({ key, dash, stretches }) => (
        <path d={stretchesPath(stretches, x, y)} key={key} strokeDasharray={dash} />
      ))}
      {names.map(({ key, label, x: right, y: middle }) => (
        <text className="control-chart__word" key={key} textAnchor="end" x={right - 4} y={middle - 3}>
          {label}
        </text>
      ))}
    </g>
  );
}
