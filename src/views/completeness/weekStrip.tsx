import { type AnalyzerLine, stripSentence } from './buildCompleteness.ts';
import { byMonth } from './buildWeeks.ts';
import { WeekMark } from './weekMark.tsx';

/** An analyzer's weeks in small, month by month: one picture with its sentence. The weeks by themselves stand on its page. */
export function WeekStrip({ line }: { line: AnalyzerLine }) {
  return (
    <div aria-label={stripSentence(line)} className="week-strip" role="img">
      {byMonth(line.weeks).map(({ name, weeks }) => (
        <div className="week-month" key={name}>
          <div className="week-month__name quiet">{name}</div>
          <div className="week-month__weeks">
            {weeks.map(({ monday, shape, state }) => (
              <span className="week-cell" data-week={shape} key={monday}>
                <WeekMark isLate={state === 'late'} shape={shape} size={16} />
              </span>
            ))}
          </div>
        </div>
      ))}
    </div>
  );
}
