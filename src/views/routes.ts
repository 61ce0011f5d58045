/** The screens and their addresses. Hash routes: any static server can serve the logbook, and a reload stays put. */
import type { FindingCheck, NotedCheck, ScheduledCheck, SeriesName } from '../journal/entries.ts';

export const screens = [
  { path: '/today', word: 'Today' },
  { path: '/bench', word: 'Bench' },
  { path: '/charts', word: 'Charts' },
  { path: '/controls', word: 'Controls' },
  { path: '/review', word: 'Review' },
  { path: '/equipment', word: 'Equipment' },
  { path: '/records', word: 'Records' },
  { path: '/laboratory', word: 'Laboratory' },
] as const;

/** Today, read from the checks of one analyzer on, or from those `ofTheLaboratory`. */
export const todayHref = (about: string) => `/today/${encodeURIComponent(about)}`;

/** The page of one run. */
export const runHref = (runId: string) => `/run/${encodeURIComponent(runId)}`;

/** The run on the bench, step by step. */
export const guidedPath = '/guided';

/** Both routes of one analyzer side by side. */
export const compareHref = (analyzerId: string) => `/compare/${encodeURIComponent(analyzerId)}`;

/** The checks that look into the failure of one run. */
export const investigationHref = (runId: string) => `/investigation/${encodeURIComponent(runId)}`;

/** What a check is about where the laboratory has one of it, such as its barometer. */
export const ofTheLaboratory = 'laboratory';

/** Where a check other than a simulation is noted. `about`: the analyzer's or the syringe's id, or `ofTheLaboratory`. */
export function checkHref(
  check: NotedCheck,
  about: string,
  investigates?: { runId: string; check: FindingCheck },
): string {
  const path = `/check/${check}/${encodeURIComponent(about)}`;
  return investigates === undefined
    ? path
    : `${path}/${encodeURIComponent(investigates.runId)}/${investigates.check}`;
}

/** Where a supervisor sets by which rules an analyzer is judged. */
export const policyPath = (analyzerId: string) => `/laboratory/policy/${encodeURIComponent(analyzerId)}`;

/** Where a laboratory sets how often it makes a check, or that it does not. */
export const schedulePath = (check: ScheduledCheck) => `/laboratory/schedule/${check}`;

/** The chart of one series. Syringe runs have the short address; another method names itself at its end. */
export function seriesPath({
  analyzerId,
  method,
  route,
  quantity,
}: SeriesName & { analyzerId: string }): string {
  const path = `/charts/${encodeURIComponent(analyzerId)}/${route}/${quantity}`;
  return method === 'syringe' ? path : `${path}/${method}`;
}

/** Which logbook this page shows: `?demonstration` in the address opens the invented laboratory's. */
const demonstrationFlag = 'demonstration';

export const databaseNames = {
  laboratory: 'diffusion-qc-logbook',
  demonstration: 'diffusion-qc-logbook-demonstration',
} as const;

export const isDemonstrationAddress = (search: string) => new URLSearchParams(search).has(demonstrationFlag);
export const laboratoryHref = './#/bench';
export const demonstrationHref = `./?${demonstrationFlag}#/charts`;
