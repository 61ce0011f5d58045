/** The days on which several analyzers were run with the same syringe. Pure. */
import type { Assessments, CivilDate } from '../../core/index.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { dayIn } from '../investigationShift.ts';

export interface SharedDay {
  /** By the calendar on the runs' own wall. */
  date: CivilDate;
  syringeId: string;
  /** By analyzer, at least two. Each with its runs of the day, the earliest first. */
  analyzers: ReadonlyMap<string, readonly LoggedRun[]>;
}

interface Group extends SharedDay {
  analyzers: Map<string, LoggedRun[]>;
  newestAt: number;
}

const fewestAnalyzers = 2;
const dayMs = 86_400_000;

/** Newest first, `most` of them, and whether there are earlier ones. */
export function sharedDays(
  { runs }: Pick<Logbook, 'runs'>,
  assessments: Assessments,
  most: number,
): { days: readonly SharedDay[]; hasEarlier: boolean } {
  const groups = new Map<string, Group>();
  let shared = 0;
  let enoughFrom = Number.NEGATIVE_INFINITY;
  for (let index = runs.length - 1; index >= 0; index -= 1) {
    const run = runs[index];
    if (run === undefined) continue;
    // Two zones may share a day that is two days long: then nothing more can belong to it.
    if (run.simulation.at < enoughFrom - 2 * dayMs) break;
    if (!takesPart(run, assessments)) continue;
    if (!add(groups, run)) continue;
    shared += 1;
    if (shared === most + 1) enoughFrom = run.simulation.at;
  }
  const days = sharedOf(groups);
  return { days: days.slice(0, most), hasEarlier: days.length > most };
}

/** Those of one date, one for each syringe. */
export function sharedDaysOn(
  { runs }: Pick<Logbook, 'runs'>,
  assessments: Assessments,
  date: CivilDate,
): readonly SharedDay[] {
  const noon = Date.parse(`${date}T12:00:00Z`);
  const groups = new Map<string, Group>();
  for (let index = runs.length - 1; index >= 0; index -= 1) {
    const run = runs[index];
    // Asking a clock of some zone is slow: most runs are days away.
    if (run === undefined || !(Math.abs(run.simulation.at - noon) < 2 * dayMs)) continue;
    if (takesPart(run, assessments) && dayOf(run) === date) add(groups, run);
  }
  return sharedOf(groups);
}

/** Voided runs and those without numbers have nothing to say, and runs with another gas no target in common. */
const takesPart = (run: LoggedRun, assessments: Assessments) =>
  run.voided === null && run.body.method === 'syringe' && assessments.has(run.id);

const dayOf = ({ simulation, entry }: LoggedRun) => dayIn(simulation.at, entry.zone);

/** Whether the day has become a shared one by this run. Runs come newest first. */
function add(groups: Map<string, Group>, run: LoggedRun): boolean {
  const { analyzerId, syringeId } = run.body;
  const date = dayOf(run);
  const key = `${date} ${syringeId}`;
  const group = groups.get(key) ?? { date, syringeId, analyzers: new Map(), newestAt: run.simulation.at };
  groups.set(key, group);
  const ofAnalyzer = group.analyzers.get(analyzerId);
  if (ofAnalyzer) {
    ofAnalyzer.unshift(run);
    return false;
  }
  group.analyzers.set(analyzerId, [run]);
  return group.analyzers.size === fewestAnalyzers;
}

const sharedOf = (groups: ReadonlyMap<string, Group>): readonly SharedDay[] =>
  [...groups.values()]
    .filter(({ analyzers }) => analyzers.size >= fewestAnalyzers)
    .sort((one, other) => other.newestAt - one.newestAt);
