/** Both routes of one analyzer: its runs as the core pairs them, and what else the screen says of them. */
import {
  type CivilDate,
  civilDateOf,
  type DlcoUnit,
  type Route,
  type RoutePairs,
  type RouteRun,
  type RunAssessment,
  routePairs,
} from '../../core/index.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { isSyringeRunOf } from '../syringeRoutes.ts';

export interface Comparison extends RoutePairs {
  runs: ReadonlyMap<string, LoggedRun>;
  /** As `runs`, what the core reads of each. */
  readings: ReadonlyMap<string, RouteRun>;
  /** DLCO is written in the unit that the newest run was reported in. */
  dlcoUnit: DlcoUnit;
}

/** A run whose numbers cannot be takes no part. */
export function compareRoutes(
  logbook: Pick<Logbook, 'runs'>,
  assessments: ReadonlyMap<string, RunAssessment>,
  analyzerId: string,
  zone: string,
): Comparison {
  const runs = new Map<string, LoggedRun>();
  const readings = new Map<string, RouteRun>();
  let dlcoUnit: DlcoUnit = 'mL/min/mmHg';
  for (const run of logbook.runs) {
    const assessment = isSyringeRunOf(run, analyzerId) ? assessments.get(run.id) : undefined;
    if (assessment === undefined) continue;
    const { numbers, va, dlco } = assessment;
    const { id, at, route, epoch } = run.simulation;
    runs.set(id, run);
    readings.set(id, {
      id,
      at,
      route,
      epoch,
      va: { value: numbers.simulatedVaL, accepted: va.accepted },
      dlco: { value: numbers.dlcoMlMinMmHg, accepted: dlco.accepted },
    });
    dlcoUnit = run.body.reading.dlcoUnit;
  }
  return { ...routePairs([...readings.values()], zone), runs, readings, dlcoUnit };
}

/** The route that today still lacks, where today has runs of the other alone. */
export function routeToRunToday(
  { pairs, alone }: Pick<Comparison, 'pairs' | 'alone'>,
  now: number,
  zone: string,
): Route | null {
  const today = civilDateOf(now, zone);
  const newest = alone.findLast(({ date }) => date === today);
  if (newest === undefined || pairs.some(({ date }) => date === today)) return null;
  return newest.route === 'built-in' ? 'patient-test' : 'built-in';
}

/** Days on which one route was run and the other was not, by the route that was. */
export function daysWithOneRoute({
  pairs,
  alone,
}: Pick<Comparison, 'pairs' | 'alone'>): Readonly<Record<Route, number>> {
  const paired = new Set(pairs.map(({ date }) => date));
  const days: Record<Route, Set<CivilDate>> = { 'patient-test': new Set(), 'built-in': new Set() };
  for (const { date, route } of alone) if (!paired.has(date)) days[route].add(date);
  return { 'patient-test': days['patient-test'].size, 'built-in': days['built-in'].size };
}
