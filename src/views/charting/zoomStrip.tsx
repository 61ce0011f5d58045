import { type KeyboardEvent, type PointerEvent, useId, useRef, useState } from 'react';
import { day } from '../parts/figures.ts';
import { type Strip, stripPaper } from './buildStrip.ts';
import { afterMove, dragged, type Grip, gripAt, moveOfKey, type Span } from './chartWindow.ts';

/** How near to an edge, in pixels, a finger or a mouse still means the edge. */
const reachPixels = 12;
/** A hand that has not moved further than this has pressed, not drawn. */
const stillPixels = 4;

interface Hold {
  grip: Grip;
  beganAt: number;
  beganX: number;
}

/** All of the time in small. What is drawn on it by mouse or finger, or moved to by keys, is what the chart shows. */
export function ZoomStrip({
  strip,
  whole,
  shown,
  onShow,
}: {
  strip: Strip;
  whole: Span;
  shown: Span | null;
  onShow: (shown: Span | null) => void;
}) {
  const hintId = useId();
  const hold = useRef<Hold | null>(null);
  const [drawn, setDrawn] = useState<Span | null>(null);
  const length = whole.to - whole.from;
  const seen = drawn ?? shown;
  const { from, to } = seen ?? whole;
  const place = (event: PointerEvent<HTMLDivElement>) => {
    const { left, width } = event.currentTarget.getBoundingClientRect();
    const share = Math.min(Math.max((event.clientX - left) / width, 0), 1);
    return { at: whole.from + share * length, reach: (reachPixels / width) * length };
  };
  const take = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0) return;
    const { at, reach } = place(event);
    event.currentTarget.setPointerCapture(event.pointerId);
    hold.current = { grip: gripAt(at, shown, reach), beganAt: at, beganX: event.clientX };
  };
  const draw = (event: PointerEvent<HTMLDivElement>) => {
    const held = hold.current;
    if (held === null || Math.abs(event.clientX - held.beganX) < stillPixels) return;
    setDrawn(dragged(held.grip, held.beganAt, place(event).at, shown, whole));
  };
  const letGo = () => {
    hold.current = null;
    setDrawn(null);
    if (drawn !== null) onShow(drawn);
  };
  const press = (event: KeyboardEvent) => {
    const move = moveOfKey[event.key];
    if (move === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    onShow(afterMove(move, shown, whole));
  };
  return (
    <div className="zoom-strip">
      <div
        aria-describedby={hintId}
        aria-label="Part of the time shown"
        aria-valuemax={100}
        aria-valuemin={0}
        aria-valuenow={Math.round((((from + to) / 2 - whole.from) / length) * 100)}
        aria-valuetext={`${seen === null ? 'all, ' : ''}${day(from)} to ${day(to - 1)}`}
        className="zoom-strip__paper"
        onKeyDown={press}
        onPointerCancel={letGo}
        onPointerDown={take}
        onPointerMove={draw}
        onPointerUp={letGo}
        role="slider"
        tabIndex={0}
      >
        <svg
          aria-hidden="true"
          focusable="false"
          preserveAspectRatio="none"
          viewBox={`0 0 ${stripPaper.width} ${stripPaper.height}`}
        >
          <path d={strip.path} />
          {strip.failures.map(({ key, left, width }) => (
            <rect
              height={8}
              key={key}
              width={width * stripPaper.width}
              x={left * stripPaper.width}
              y={stripPaper.height - 8}
            />
          ))}
        </svg>
        {seen === null ? null : (
          <div
            className="zoom-strip__window"
            style={{ left: percent((from - whole.from) / length), width: percent((to - from) / length) }}
          />
        )}
      </div>
      <p className="zoom-strip__hint" id={hintId}>
        Draw on the strip to look closer; drag the window or its edges. Keys on it: + and − closer and wider,
        arrows move, Home and End first and last, 0 all.
      </p>
    </div>
  );
}

const percent = (share: number) => `${share * 100}%`;
