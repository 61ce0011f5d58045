/** By which routes an analyzer has been run with the syringe. */
import type { Route } from '../core/index.ts';
import type { Logbook, LoggedRun } from '../journal/logbook.ts';

/** Voided ones do not count; with another gas the two routes have no common target. */
export const isSyringeRunOf = ({ body, voided }: LoggedRun, analyzerId: string): boolean =>
  voided === null && body.analyzerId === analyzerId && body.method === 'syringe';

export function syringeRoutes({ runs }: Pick<Logbook, 'runs'>, analyzerId: string): ReadonlySet<Route> {
  const found = new Set<Route>();
  for (const run of runs) {
    if (isSyringeRunOf(run, analyzerId)) found.add(run.body.route);
    if (found.size === 2) break;
  }
  return found;
}
