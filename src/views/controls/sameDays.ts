/** The controls of a series beside the simulations of their days: what agrees, and what it means where it does not. Pure. */
import {
  type Assessments,
  type Quantity,
  type TogetherId,
  togetherIds,
  togetherText,
} from '../../core/index.ts';
import type { Logbook, LoggedControl, LoggedRun } from '../../journal/logbook.ts';
import { besideSimulations, nearestSimulation, simulationsOfDay } from '../besideSimulations.ts';
import type { SeriesControl } from '../charting/controlSeries.ts';
import { isCounted } from '../charting/seriesItem.ts';
import type { ControlAssessments } from '../controlAssessments.ts';

const runsOf = ({ runs }: Pick<Logbook, 'runs'>, analyzerId: string) =>
  runs.filter(({ body }) => body.analyzerId === analyzerId);

/** By the id of the control. */
export function sameDayRuns(
  logbook: Pick<Logbook, 'runs'>,
  controls: readonly LoggedControl[],
): ReadonlyMap<string, readonly LoggedRun[]> {
  const [first] = controls;
  if (first === undefined) return new Map();
  const ofAnalyzer = runsOf(logbook, first.control.analyzerId);
  return new Map(controls.map((logged) => [logged.id, simulationsOfDay(logged, { runs: ofAnalyzer })]));
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
      const beside = besideSimulations(logged, quantity, { ...sources, logbook: { runs: ofAnalyzer } });
      const run = nearestSimulation(
        beside.map((one) => one.run),
        logged.at,
      );
      const together = beside.find((one) => one.run === run)?.together ?? 'not-judged';
      return run === undefined || together === 'not-judged' ? [] : [{ logged, run, together }];
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
