/** The other analyzers' lines, each with a stroke of its own and its name at its end. */
import type { PlotArea } from './buildChartLayout.ts';
import { type Scale, stretchesPath } from './chartPaths.ts';
import type { Overlay } from './overlays.ts';
import { estimatedWidth, lineHeight, spreadApart } from './placeLabels.ts';

interface OverlayProps {
  overlays: readonly Overlay[];
  plot: PlotArea;
  x: Scale;
  y: Scale;
}

export function OverlayLines({ overlays, x, y }: Omit<OverlayProps, 'plot'>) {
  return (
    <g className="control-chart__overlay">
      {overlays.map(({ key, dash, stretches }) => (
        <path d={stretchesPath(stretches, x, y)} key={key} strokeDasharray={dash} />
      ))}
    </g>
  );
}

/** Apart from the lines, since they stand above every dot. */
export function OverlayNames({ overlays, plot, x, y }: OverlayProps) {
  const ends = overlays.flatMap(({ key, name, stretches }) => {
    const last = stretches.at(-1)?.at(-1);
    // A line that ends early must not push its name off the paper.
    const leftmost = plot.x + estimatedWidth(name);
    return last ? [{ key, name, x: Math.max(x(last.at), leftmost), y: y(last.value) }] : [];
  });
  const names = spreadApart(ends, { height: lineHeight, top: plot.y, bottom: plot.y + plot.height });
  return (
    <g className="control-chart__overlay">
      {names.map(({ key, name, x: right, y: middle }) => (
        <text className="control-chart__word" key={key} textAnchor="end" x={right - 4} y={middle - 3}>
          {name}
        </text>
      ))}
    </g>
  );
}
