/** The screens and their addresses. Hash routes: any static server can serve the logbook, and a reload stays put. */
import type { SeriesName } from '../journal/entries.ts';

export const screens = [
  { path: '/bench', word: 'Bench' },
  { path: '/charts', word: 'Charts' },
  { path: '/review', word: 'Review' },
  { path: '/equipment', word: 'Equipment' },
  { path: '/records', word: 'Records' },
] as const;

/** The page of one run. */
export const runHref = (runId: string) => `/run/${encodeURIComponent(runId)}`;

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
