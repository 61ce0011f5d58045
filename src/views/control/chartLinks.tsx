import { Link } from 'wouter';
import type { Control, ControlSeriesName } from '../../journal/entries.ts';
import { controlSeriesHref } from '../deskRoutes.ts';
import { seriesWords } from './words.ts';

/** The way from a control to the chart of each series that it is a point of. */
export function ChartLinks({ control }: { control: Control }) {
  const series: { name: keyof typeof seriesWords; series: ControlSeriesName }[] =
    control.kind === 'biological'
      ? (['dlco', 'va'] as const).map((quantity) => ({
          name: quantity,
          series: { kind: 'biological', subjectId: control.subjectId, quantity },
        }))
      : control.levels.map(({ level }) => ({ name: level, series: { kind: 'simulator', level } }));
  return (
    <p className="quiet">
      {series.length === 1 ? 'Its chart: ' : 'Its charts: '}
      {series.map(({ name, series: one }) => (
        <span key={name}>
          <Link href={controlSeriesHref(control.analyzerId, one)}>{seriesWords[name]}</Link>{' '}
        </span>
      ))}
    </p>
  );
}
