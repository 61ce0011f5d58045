/** The controls of a series beside the simulations of their days: what agrees, and what it means where it does not. Pure. */
import {
  type Assessments,
  type Quantity,
  type TogetherId,
  togetherIds,
  togetherText,
} from '../../core/index.ts';
import type { Logbook, LoggedControl, LoggedRun } from '../../journal/logbook.ts';
import { besideSimulations, simulationsOfDay } from '../besideSimulations.ts';
import type { SeriesControl } from '../charting/controlSeries.ts';
import { isCounted } from '../charting/seriesItem.ts';
import type { ControlAssessments } from '../controlAssessments.ts';

const twoDaysMs = 2 * 86_400_000;

/** Of one analyzer, oldest first; near enough to be of the control's day in any zone. */
function runsNear(runs: readonly LoggedRun[], at: number): readonly LoggedRun[] {
  return runs.filter(({ simulation }) => Math.abs(simulation.at - at) < twoDaysMs);
}

const runsOf = ({ runs }: Pick<Logbook, 'runs'>, analyzerId: string) =>
  runs.filter(({ body }) => body.analyzerId === analyzerId);

/** By the id of the control. To tell the day of a moment is dear: it is asked of the few runs that are near. */
export function sameDayRuns(
  logbook: Pick<Logbook, 'runs'>,
  controls: readonly LoggedControl[],
): ReadonlyMap<string, readonly LoggedRun[]> {
  const [first] = controls;
  if (first === undefined) return new Map();
  const ofAnalyzer = runsOf(logbook, first.control.analyzerId);
  return new Map(
    controls.map((logged) => [
      logged.id,
      simulationsOfDay(logged, { runs: runsNear(ofAnalyzer, logged.at) }),
    ]),
  );
}

export interface ReadTogether {
  /** Those where the two disagree, or agree that something is off, in the order of the core's list. */
  groups: readonly {
    id: TogetherId;
    says: string;
    next: string;
    /** Newest first, each with the simulation that it is held against. */
    days: readonly { logged: LoggedControl; run: LoggedRun }[];
  }[];
  /** Days on which both were as usual, and days on which both could be judged. */
  usual: number;
  judged: number;
}

/** Of several simulations of a day the last before the control, or else the first after it: nearest to what the person was tested on. */
export function readTogetherOf(
  items: readonly SeriesControl[],
  quantity: Quantity,
  sources: { logbook: Pick<Logbook, 'runs'>; assessments: Assessments; controls: ControlAssessments },
): ReadTogether {
  const [first] = items;
  const ofAnalyzer = first === undefined ? [] : runsOf(sources.logbook, first.logged.control.analyzerId);
  const days = items
    .filter((item) => isCounted(item) && item.setAside === null)
    .flatMap(({ logged }) => {
      const logbook = { runs: runsNear(ofAnalyzer, logged.at) };
      const beside = besideSimulations(logged, quantity, { ...sources, logbook });
      const nearest = beside.findLast(({ run }) => run.simulation.at <= logged.at) ?? beside[0];
      const together = nearest?.together ?? 'not-judged';
      return nearest === undefined || together === 'not-judged'
        ? []
        : [{ logged, run: nearest.run, together }];
    });
  const groups = togetherIds.flatMap((id) => {
    const found = days.filter(({ together }) => together === id).reverse();
    return id === 'both-usual' || found.length === 0
      ? []
      : [{ id, ...togetherText[quantity][id], days: found }];
  });
  return {
    groups,
    usual: days.filter(({ together }) => together === 'both-usual').length,
    judged: days.length,
  };
}
