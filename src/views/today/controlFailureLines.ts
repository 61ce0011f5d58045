/** The open failures of an analyzer's controls as lines of Today: one for each person, and one for the simulator. Pure. */
import type { CivilDate } from '../../core/index.ts';
import type { ControlSeriesName } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import type { ControlFailure } from '../controlAssessments.ts';
import { controlFailureHref, newControlHref } from '../deskRoutes.ts';
import { quantityWords } from '../parts/words.ts';
import { dayByNameAt } from '../scheduleWords.ts';

export interface ControlFailureLine {
  key: string;
  sentence: string;
  /** Its story. */
  href: string;
  /** Where the next control is entered. */
  enterHref: string;
}

/** `failures` in the order in which they opened. */
export function controlFailureLines(
  failures: readonly ControlFailure[],
  { subjects }: Pick<Logbook, 'subjects'>,
  today: CivilDate,
): readonly ControlFailureLine[] {
  const grouped = new Map<string, [ControlFailure, ...ControlFailure[]]>();
  for (const failure of failures) {
    const key = sourceOf(failure.series);
    const known = grouped.get(key);
    if (known) known.push(failure);
    else grouped.set(key, [failure]);
  }
  return [...grouped].map(([key, ofSource]) => {
    const [{ openedBy, series, analyzerId }] = ofSource;
    const who =
      series.kind === 'biological'
        ? `biological control ${subjects.get(series.subjectId)?.description.code ?? 'unknown'}`
        : 'simulator';
    const since = dayByNameAt(openedBy.at, openedBy.entry.zone, today);
    return {
      key,
      sentence: `Failure open: ${who}, ${seriesWords(ofSource)}, since ${since}`,
      href: controlFailureHref(openedBy.id, series),
      enterHref: newControlHref(series.kind, analyzerId),
    };
  });
}

const sourceOf = (series: ControlSeriesName) =>
  series.kind === 'biological' ? series.subjectId : series.kind;

function seriesWords(failures: readonly ControlFailure[]): string {
  const names = failures.map(({ series }) =>
    series.kind === 'biological' ? quantityWords[series.quantity] : series.level,
  );
  const isOfLevels = failures.some(({ series }) => series.kind === 'simulator');
  return `${names.join(' and ')}${isOfLevels ? ' level' : ''}`;
}
