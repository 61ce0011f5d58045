/** The newest runs of every series that an analyzer in use has, in one walk back through the logbook. */
import type { Assessments, RunAssessment } from '../../core/index.ts';
import type { SeriesName } from '../../journal/entries.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';

export interface RecentRun {
  run: LoggedRun;
  assessment: RunAssessment;
}

export interface RouteRuns extends Pick<SeriesName, 'method' | 'route'> {
  /** Oldest first, voided ones left out; never empty. */
  recent: readonly RecentRun[];
}

/** Half a year of weekly runs. */
export const runsDrawn = 26;

/** By analyzer; within it syringe before precision gas, patient test before built-in. */
export function recentRuns(
  { runs }: Pick<Logbook, 'runs'>,
  assessments: Assessments,
): ReadonlyMap<string, readonly RouteRuns[]> {
  const found = new Map<string, RouteRuns & { analyzerId: string; recent: RecentRun[] }>();
  for (let index = runs.length - 1; index >= 0; index -= 1) {
    const run = runs[index];
    if (run === undefined || run.voided !== null) continue;
    const { analyzerId, method, route } = run.body;
    const key = `${analyzerId} ${method} ${route}`;
    const known = found.get(key);
    if (known?.recent.length === runsDrawn) continue;
    const assessment = assessments.get(run.id);
    if (assessment === undefined) continue;
    if (known) known.recent.push({ run, assessment });
    else found.set(key, { analyzerId, method, route, recent: [{ run, assessment }] });
  }
  const byAnalyzer = new Map<string, RouteRuns[]>();
  for (const { analyzerId, method, route, recent } of [...found.values()].sort(inOrder)) {
    const ofAnalyzer = byAnalyzer.get(analyzerId) ?? [];
    ofAnalyzer.push({ method, route, recent: recent.reverse() });
    byAnalyzer.set(analyzerId, ofAnalyzer);
  }
  return byAnalyzer;
}

const inOrder = (one: RouteRuns, other: RouteRuns) => place(one) - place(other);
const place = ({ method, route }: RouteRuns) =>
  (method === 'syringe' ? 0 : 2) + (route === 'patient-test' ? 0 : 1);
