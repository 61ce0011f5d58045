import { type KeyboardEvent, type PointerEvent, useId, useState } from 'react';
import '../charting/charting.css';
import { plotSides } from '../charting/chartMargins.ts';
import { type Scale, stretchesPath } from '../charting/chartPaths.ts';
import { useWidth } from '../charting/useWidth.ts';
import { afterKey, nearest, pathOf, spaced } from './markChartGeometry.ts';
import type { Mark, MarkChartModel } from './markChartModel.ts';

const plot = { top: 38, bottom: 190 };
/** Under the plot: the ticks' words, and the title of the axis where it has one. */
const foot = { ticks: 26, title: 18 };

/** Marks of checks between their limits. By pointer or arrow keys each tells what it is. */
export function MarkChart({ model, heading: Heading }: { model: MarkChartModel; heading: 'h2' | 'h3' }) {
  const [element, width] = useWidth<HTMLDivElement>(720);
  const [active, setActive] = useState<number | null>(null);
  const titleId = useId();
  const descriptionId = useId();
  const { marks, shapes } = model;
  const right = width - plotSides.right;
  const height = plot.bottom + foot.ticks + (model.x.title === '' ? 0 : foot.title);
  const x: Scale = (at) =>
    plotSides.left + ((at - model.x.from) / (model.x.to - model.x.from)) * (right - plotSides.left);
  const y: Scale = (level) =>
    plot.top + ((model.y.to - level) / (model.y.to - model.y.from)) * (plot.bottom - plot.top);
  const press = (event: KeyboardEvent) => {
    const next = afterKey(event.key, active, marks.length);
    if (next === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    setActive(next);
  };
  const point = (event: PointerEvent<SVGSVGElement>) => {
    const { left, top } = event.currentTarget.getBoundingClientRect();
    setActive(nearest(marks, { x: event.clientX - left, y: event.clientY - top }, x, y));
  };
  const pointedAt = active === null ? undefined : marks[active];
  return (
    <figure className="stack mark-chart">
      <Heading id={titleId}>{model.title}</Heading>
      <section
        aria-describedby={descriptionId}
        aria-labelledby={titleId}
        className="mark-chart__paper"
        onBlur={() => setActive(null)}
        onKeyDown={press}
        ref={element}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: its marks are passed by the arrow keys, as in the other charts.
        tabIndex={0}
      >
        <svg
          aria-hidden="true"
          className="control-chart"
          focusable="false"
          height={height}
          onPointerLeave={() => setActive(null)}
          onPointerMove={point}
          width={width}
        >
          <Axes model={model} right={right} x={x} y={y} />
          {model.rails.map(({ y: level, text }) => (
            <g key={text}>
              <path className="control-chart__rail" d={`M${plotSides.left} ${y(level)}H${right}`} />
              <text className="control-chart__name" data-line="published" x={right + 6} y={y(level) + 4}>
                {text}
              </text>
            </g>
          ))}
          <path
            className="control-chart__hairline"
            d={stretchesPath(
              model.lines.map(({ points }) => points.map((one) => ({ at: one.x, value: one.y }))),
              x,
              y,
            )}
          />
          {marks.map((mark) => (
            <OneMark key={mark.key} mark={mark} x={x(mark.x)} y={y(mark.y)} />
          ))}
          {pointedAt ? (
            <circle className="mark-chart__active" cx={x(pointedAt.x)} cy={y(pointedAt.y)} r={10} />
          ) : null}
        </svg>
        <p className="mark-chart__told" role="status">
          {pointedAt?.told ?? ''}
        </p>
      </section>
      <figcaption className="chart-caption">
        <span className="for-readers" id={descriptionId}>
          {model.description} Arrow keys pass from mark to mark.
        </span>
        {shapes.length === 0 ? null : (
          <span className="mark-chart__shapes">
            {shapes.map(({ shape, name }) => (
              <span key={shape}>
                <svg aria-hidden="true" focusable="false" height={12} viewBox="-6 -6 12 12" width={12}>
                  <path className="mark-chart__mark" d={pathOf[shape](4)} />
                </svg>{' '}
                {name}
              </span>
            ))}
          </span>
        )}
      </figcaption>
    </figure>
  );
}

function Axes({ model, right, x, y }: { model: MarkChartModel; right: number; x: Scale; y: Scale }) {
  return (
    <g>
      <text x={plotSides.left} y={14}>
        {model.yTitle}
      </text>
      <path
        className="control-chart__axis"
        d={`M${plotSides.left} ${plot.top}V${plot.bottom}H${right}M${plotSides.left} ${y(0)}H${right}`}
      />
      {model.y.ticks.map((tick) => (
        <g key={tick}>
          <path className="control-chart__axis" d={`M${plotSides.left - 4} ${y(tick)}h4`} />
          <text textAnchor="end" x={plotSides.left - 6} y={y(tick) + 4}>
            {model.yTicks.get(tick)}
          </text>
        </g>
      ))}
      {spaced(model.x.ticks, x).map(({ at, text }) => (
        <g key={at}>
          <path className="control-chart__axis" d={`M${x(at)} ${plot.bottom}v4`} />
          <text textAnchor="middle" x={x(at)} y={plot.bottom + 18}>
            {text}
          </text>
        </g>
      ))}
      <text textAnchor="end" x={right} y={plot.bottom + foot.ticks + foot.title - 6}>
        {model.x.title}
      </text>
    </g>
  );
}

function OneMark({ mark: { shape, isOut, label }, x, y }: { mark: Mark; x: number; y: number }) {
  return (
    <g transform={`translate(${x} ${y})`}>
      <path
        className="mark-chart__mark"
        d={pathOf[shape](isOut ? 6 : 4)}
        data-out={isOut ? true : undefined}
      />
      {isOut ? (
        <text className="control-chart__rule" textAnchor="middle" y={-11}>
          {label}
        </text>
      ) : null}
    </g>
  );
}
