/** What an analyzer's series are known to do by themselves: their own mean and SD in force, and where the published limits stand. */
import {
  type Assessments,
  type DlcoUnit,
  dlcoFromMlMinMmHg,
  type PublishedLimits,
  publishedDlcoLimit,
  type Quantity,
  type Route,
  sdConfidenceInterval,
} from '../../core/index.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { evaluationOf, quantities } from '../failures.ts';
import { limitsInForce } from '../judgedBy.ts';
import { assessNextRun } from '../nextRun.ts';
import { syringeRoutes } from '../syringeRoutes.ts';

/** All in the unit of the series: L of VA; of DLCO, that of the newest run. */
export interface OwnSpread {
  route: Route;
  quantity: Quantity;
  unit: 'L' | DlcoUnit;
  /** Accepted runs that the limits rest on. */
  n: number;
  /** Null where the runs are too few, or all alike. */
  own: { mean: number; sd: number; interval: { lower: number; upper: number } } | null;
  published: { low: number; high: number; edition: string };
}

export interface RouteSpreads {
  route: Route;
  newest: LoggedRun;
  va: OwnSpread;
  dlco: OwnSpread;
}

const routes: readonly Route[] = ['patient-test', 'built-in'];

/** One for each route that the analyzer has been run by with the syringe. `now`: in ms. */
export function ownSpreads(
  logbook: Pick<Logbook, 'runs' | 'baselineStarts' | 'limitEditions'>,
  assessments: Assessments,
  analyzerId: string,
  now: number,
): RouteSpreads[] {
  const published = limitsInForce(logbook, new Date(now).toISOString());
  const run = syringeRoutes(logbook, analyzerId);
  return routes
    .filter((route) => run.has(route))
    .flatMap((route) => {
      const next = assessNextRun(logbook, assessments, { analyzerId, method: 'syringe', route }, now);
      if (next === null) return [];
      const [va, dlco] = quantities.map((quantity) => spreadOf(next, route, quantity, published));
      return va && dlco ? [{ route, newest: next.like, va, dlco }] : [];
    });
}

function spreadOf(
  { like, assessment }: NonNullable<ReturnType<typeof assessNextRun>>,
  route: Route,
  quantity: Quantity,
  limits: PublishedLimits,
): OwnSpread {
  const { n, mean, sd } = evaluationOf(assessment, quantity);
  const dlcoUnit = like.body.reading.dlcoUnit;
  const isVa = quantity === 'va';
  const inUnit = (value: number) => (isVa ? value : dlcoFromMlMinMmHg(value, dlcoUnit));
  const target = isVa ? assessment.numbers.targetVaL : 0;
  const tolerance = isVa ? limits.vaToleranceL : publishedDlcoLimit(dlcoUnit, limits);
  return {
    route,
    quantity,
    unit: isVa ? 'L' : dlcoUnit,
    n,
    own:
      mean === null || sd === null
        ? null
        : { mean: inUnit(mean), sd: inUnit(sd), interval: sdConfidenceInterval(inUnit(sd), n) },
    published: { low: target - tolerance, high: target + tolerance, edition: limits.edition },
  };
}
