import { type KeyboardEvent, useRef } from 'react';
import { byMonth, type WeekLine } from './buildWeeks.ts';
import { WeekMark } from './weekMark.tsx';

/** The weeks of one analyzer as a row of buttons, month by month. One stop of the Tab key; arrows lead from week to week. */
export function YearOfWeeks({
  weeks,
  chosen,
  label,
  onChoose,
}: {
  weeks: readonly WeekLine[];
  chosen: WeekLine | undefined;
  label: string;
  onChoose: (monday: string) => void;
}) {
  const frame = useRef<HTMLDivElement>(null);
  const current = chosen ?? weeks[0];

  const onKeyDown = (event: KeyboardEvent) => {
    const at = weeks.findIndex(({ monday }) => monday === current?.monday);
    const to = placeAfter(event.key, at, weeks.length);
    const week = to === null ? undefined : weeks[to];
    if (week === undefined) return;
    event.preventDefault();
    onChoose(week.monday);
    frame.current?.querySelector<HTMLElement>(`[data-monday="${week.monday}"]`)?.focus();
  };

  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset would draw a frame and name it a form's.
    <div
      aria-label={label}
      className="week-strip week-strip--large"
      onKeyDown={onKeyDown}
      ref={frame}
      role="group"
    >
      {byMonth(weeks).map((month) => (
        <div className="week-month" key={month.name}>
          <div className="week-month__name quiet small">{month.name}</div>
          <div className="week-month__weeks">
            {month.weeks.map((week) => (
              <button
                aria-label={`${week.name}: ${week.words}`}
                aria-pressed={week.monday === chosen?.monday}
                className="week-cell"
                data-monday={week.monday}
                data-week={week.shape}
                key={week.monday}
                onClick={() => onChoose(week.monday)}
                tabIndex={week.monday === current?.monday ? 0 : -1}
                title={`${week.name}: ${week.words}`}
                type="button"
              >
                <WeekMark isLate={week.state === 'late'} shape={week.shape} size={20} />
              </button>
            ))}
          </div>
        </div>
      ))}
    </div>
  );
}

function placeAfter(key: string, at: number, count: number): number | null {
  switch (key) {
    case 'ArrowRight':
    case 'ArrowDown':
      return Math.min(count - 1, at + 1);
    case 'ArrowLeft':
    case 'ArrowUp':
      return Math.max(0, at - 1);
    case 'Home':
      return 0;
    case 'End':
      return count - 1;
    default:
      return null;
  }
}
