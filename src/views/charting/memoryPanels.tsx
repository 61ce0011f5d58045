import { MarkPath } from '../parts/verdictMark.tsx';
import type { MemoryPanel } from './buildMemoryPanels.ts';
import { plotSides } from './chartMargins.ts';
import { type Scale, steppedPath, stretchesPath } from './chartPaths.ts';
import { useWidth } from './useWidth.ts';

const height = 132;
const plot = { top: 24, bottom: height - 8 };

/** EWMA and CUSUM on the time axis of the chart above them. */
export function MemoryPanels({ panels, noun }: { panels: readonly MemoryPanel[]; noun: string }) {
  const [element, width] = useWidth<HTMLDivElement>(720);
  return (
    <div className="memory-panels" ref={element}>
      {panels.length === 0 ? (
        <p className="quiet">
          Here will stand EWMA and CUSUM, from the first {noun} on that own limits have judged.
        </p>
      ) : null}
      {panels.map((panel) => (
        <div key={panel.key}>
          <Drawing panel={panel} width={width} />
          <p className="memory-panels__words">{panel.words}</p>
        </div>
      ))}
    </div>
  );
}

function Drawing({ panel, width }: { panel: MemoryPanel; width: number }) {
  const { axis, from, to, limits, lines, signals, title, words } = panel;
  const right = width - plotSides.right;
  const x: Scale = (at) => plotSides.left + ((at - from) / (to - from)) * (right - plotSides.left);
  const y: Scale = (level) =>
    plot.top + ((axis.to - level) / (axis.to - axis.from)) * (plot.bottom - plot.top);
  const last = limits.at(-1);
  return (
    <svg aria-label={`${title}. ${words}`} className="control-chart" height={height} role="img" width={width}>
      <text x={plotSides.left} y={14}>
        {title}
      </text>
      <path
        className="control-chart__axis"
        d={`M${plotSides.left} ${plot.top}V${plot.bottom}M${plotSides.left} ${y(0)}H${right}`}
      />
      {axis.ticks.map((tick) => (
        <g key={tick}>
          <path className="control-chart__axis" d={`M${plotSides.left - 4} ${y(tick)}h4`} />
          <text textAnchor="end" x={plotSides.left - 6} y={y(tick) + 4}>
            {panel.valueTicks.get(tick)}
          </text>
        </g>
      ))}
      <path className="control-chart__edge" d={steppedPath(limits, ({ level }) => level, x, y)} />
      <path className="control-chart__edge" d={steppedPath(limits, ({ level }) => -level, x, y)} />
      {last && last.to === to ? (
        <text x={right + 6} y={y(last.level) + 4}>
          {panel.limitText}
        </text>
      ) : null}
      {lines.map(({ key, stretches }) => (
        <path
          className="control-chart__memory"
          d={stretchesPath(stretches, x, y)}
          data-line={key}
          key={key}
        />
      ))}
      {signals.map(({ id, at, value, mark }) => (
        <g data-shape={mark} key={id} transform={`translate(${x(at) - 5} ${y(value) - 5}) scale(0.625)`}>
          <MarkPath shape={mark} />
        </g>
      ))}
    </svg>
  );
}
