/** Open failures of runs and of controls, told alike on the pages of a worklist. Pure. */
import type { Logbook } from '../../journal/logbook.ts';
import { controlSeriesName } from '../charting/controlHeading.ts';
import { type ControlFailure, controlSeriesKey } from '../controlAssessments.ts';
import type { Failure } from '../failures.ts';
import { counted } from '../parts/figures.ts';
import { quantityWords, routeWords } from '../parts/words.ts';

/** A failure that nobody has closed, of runs or of controls. */
export interface OpenFailure {
  /** Another once more runs or controls have come under it. */
  key: string;
  /** `VA, patient test`. */
  what: string;
  /** `VA by patient test`, in a sentence. */
  inSentence: string;
  /** `open for 3 runs`. */
  howLong: string;
}

export function openOfRuns({ analyzerId, series, openedBy, runs }: Failure): OpenFailure {
  const { quantity, route } = series;
  const [name, by] = [quantityWords[quantity], routeWords[route].toLowerCase()];
  return {
    key: `${analyzerId} ${openedBy.id} ${route} ${quantity} ${runs.length}`,
    what: `${name}, ${by}`,
    inSentence: `${name} by ${by}`,
    howLong: `open for ${counted(runs.length, 'run')}`,
  };
}

export function openOfControls(
  { analyzerId, series, openedBy, controls }: ControlFailure,
  logbook: Logbook,
): OpenFailure {
  const name = controlSeriesName(series, logbook);
  const isBiological = series.kind === 'biological';
  return {
    key: `${openedBy.id} ${controlSeriesKey(analyzerId, series)} ${controls.length}`,
    what: `${name}, ${isBiological ? 'biological control' : 'simulator'}`,
    inSentence: isBiological
      ? `${quantityWords[series.quantity]} of the biological control ${logbook.subjects.get(series.subjectId)?.description.code ?? 'unknown'}`
      : `${series.level} level of the simulator`,
    howLong: `open for ${counted(controls.length, isBiological ? 'test' : 'session')}`,
  };
}

/** What each entry opened, by its hash: the series in words. */
export function openingsOf(
  failures: readonly Failure[],
  controlFailures: readonly ControlFailure[],
  logbook: Logbook,
): ReadonlyMap<string, readonly string[]> {
  const opened = new Map<string, string[]>();
  const add = (hash: string, what: string) => opened.set(hash, [...(opened.get(hash) ?? []), what]);
  for (const failure of failures) add(failure.openedBy.entry.hash, openOfRuns(failure).what);
  for (const failure of controlFailures)
    add(failure.openedBy.entry.hash, openOfControls(failure, logbook).what);
  return opened;
}
