/** The analyzers to choose from: those in use first, and by which routes each has been run. */
import type { Route } from '../../core/index.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { compareHref } from '../routes.ts';
import { syringeRoutes } from '../syringeRoutes.ts';

export interface AnalyzerChoice {
  analyzerId: string;
  label: string;
  href: string;
  routes: string;
}

export function buildAnalyzerChoices(logbook: Pick<Logbook, 'analyzers' | 'runs'>): AnalyzerChoice[] {
  const choices = [...logbook.analyzers.values()].map(({ id, description, retired }) => {
    const routes = routeSummary(syringeRoutes(logbook, id));
    return {
      isRetired: retired !== null,
      choice: {
        analyzerId: id,
        label: description.label,
        href: compareHref(id),
        routes: retired === null ? routes : `${routes}, retired`,
      },
    };
  });
  return [
    ...choices.filter(({ isRetired }) => !isRetired),
    ...choices.filter(({ isRetired }) => isRetired),
  ].map(({ choice }) => choice);
}

function routeSummary(routes: ReadonlySet<Route>): string {
  if (routes.size === 0) return 'no syringe run yet';
  if (routes.size === 2) return 'both routes';
  return routes.has('built-in') ? 'built-in routine only' : 'patient test only';
}
