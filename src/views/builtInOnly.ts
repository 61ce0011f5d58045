/** Analyzers that are run by their built-in routine alone, where the published standard asks for the patient test. */
import { civilDateOf, daysBetween } from '../core/index.ts';
import type { Analyzer, Logbook } from '../journal/logbook.ts';
import { serviceAt } from '../journal/standing.ts';
import { counted } from './parts/figures.ts';
import { isSyringeRunOf } from './syringeRoutes.ts';

export interface BuiltInOnly {
  analyzerId: string;
  label: string;
  /** Syringe runs of the last four weeks, all of them built-in. */
  runs: number;
}

/** Four weeks, as a laboratory that runs weekly has four runs in them. */
const windowDays = 28;

/**
 * Those in service, for four weeks or longer, whose syringe runs of the last four weeks are all built-in; one without any
 * is overdue, which is said elsewhere. Source: 2017 ERS/ATS DLCO standard, Eur Respir J 2017;49:1600016, equipment table:
 * the weekly syringe test is done in the normal patient-test mode.
 */
export function builtInOnly(logbook: Logbook, now: number, zone: string): BuiltInOnly[] {
  return [...logbook.analyzers.values()].flatMap((analyzer) => {
    const found = builtInOnlyOf(logbook, analyzer, now, zone);
    return found === null ? [] : [found];
  });
}

export function builtInOnlyOf(
  logbook: Logbook,
  { id, description, retired, history }: Analyzer,
  now: number,
  zone: string,
): BuiltInOnly | null {
  if (retired !== null) return null;
  const today = civilDateOf(now, zone);
  const daysAgo = (at: number) => daysBetween(civilDateOf(at, zone), today);
  const runs = recentBuiltInRuns(logbook, id, daysAgo);
  if (runs === 0) return null;
  const service = serviceAt(logbook, id, new Date(now).toISOString());
  if (service?.body.inService === false) return null;
  const inServiceSince = service === undefined ? null : Date.parse(service.body.from);
  const sinceAt = inServiceSince ?? inUseSince(logbook, id, history);
  if (sinceAt === null || daysAgo(sinceAt) < windowDays) return null;
  return { analyzerId: id, label: description.label, runs };
}

/** 0 as well where one of them is by the patient test. */
function recentBuiltInRuns({ runs }: Logbook, analyzerId: string, daysAgo: (at: number) => number): number {
  let found = 0;
  // The bench asks at every new logbook: what lies further back is not walked through.
  for (let index = runs.length - 1; index >= 0; index -= 1) {
    const run = runs[index];
    if (run === undefined || daysAgo(run.simulation.at) >= windowDays) break;
    if (!isSyringeRunOf(run, analyzerId)) continue;
    if (run.body.route === 'patient-test') return 0;
    found += 1;
  }
  return found;
}

/** Of an analyzer that was written down later than its imported runs, the first of those. */
function inUseSince({ runs }: Logbook, analyzerId: string, history: Analyzer['history']): number | null {
  const first = runs.find((run) => isSyringeRunOf(run, analyzerId))?.simulation.at;
  const added = history[0] && Date.parse(history[0].at);
  const known = [first, added].filter((at) => at !== undefined);
  return known.length === 0 ? null : Math.min(...known);
}

export const builtInOnlySentence = ({ label, runs }: BuiltInOnly): string =>
  `${label}: ${runs === 1 ? 'the only syringe run' : `all ${counted(runs, 'syringe run')}`} of the last four weeks ${runs === 1 ? 'is' : 'are'} by the built-in routine. The 2017 ERS/ATS standard asks for the weekly run in the normal patient-test mode: a fault of the patient’s route would not be seen.`;
