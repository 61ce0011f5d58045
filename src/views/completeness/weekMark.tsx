import { MarkPath } from '../parts/verdictMark.tsx';
import { shapeWords, type WeekShape } from './buildWeeks.ts';

/** A week's mark in a box of 16 × 16: that of its verdict, or one that says why it has none. */
export function WeekMark({
  shape,
  isLate = false,
  size,
}: {
  shape: WeekShape;
  isLate?: boolean;
  size: number;
}) {
  return (
    <svg aria-hidden="true" focusable="false" height={size} viewBox="0 0 16 20" width={(size * 16) / 20}>
      <WeekShapePath shape={shape} />
      {isLate ? <path d="M1 18.5h14" stroke="currentColor" strokeDasharray="3 1.5" strokeWidth="2" /> : null}
    </svg>
  );
}

function WeekShapePath({ shape }: { shape: WeekShape }) {
  switch (shape) {
    case 'pass':
    case 'warn':
    case 'fail':
      return <MarkPath shape={shape} strokeWidth={1.8} />;
    case 'unjudged':
      return <MarkPath shape="establishing" strokeWidth={1.8} />;
    case 'gap':
    case 'explained':
      return (
        <>
          <circle cx="8" cy="8" fill="none" r="5.5" stroke="currentColor" strokeWidth="1.8" />
          {shape === 'explained' ? <circle cx="8" cy="8" fill="currentColor" r="2" /> : null}
        </>
      );
    case 'paused':
      return <path d="M2 8h12" stroke="currentColor" strokeWidth="1.8" />;
    case 'not-due':
      return <circle cx="8" cy="8" fill="currentColor" r="1.2" />;
    case 'blank':
      return null;
  }
}

const shapes = Object.keys(shapeWords) as readonly Exclude<WeekShape, 'blank'>[];

/** What each mark says, beside it. */
export function WeekLegend() {
  return (
    <ul aria-label="Marks" className="week-legend small">
      {shapes.map((shape) => (
        <li data-week={shape} key={shape}>
          <WeekMark shape={shape} size={16} /> <span>{shapeWords[shape]}</span>
        </li>
      ))}
      <li data-week="pass">
        <WeekMark isLate shape="pass" size={16} /> <span>Late, and how it came out</span>
      </li>
    </ul>
  );
}
