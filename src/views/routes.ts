/** The screens and their addresses. Hash routes: any static server can serve the logbook, and a reload stays put. */
export const screens = [
  { path: '/bench', word: 'Bench' },
  { path: '/charts', word: 'Charts' },
  { path: '/review', word: 'Review' },
  { path: '/equipment', word: 'Equipment' },
  { path: '/records', word: 'Records' },
] as const;

export type ScreenPath = (typeof screens)[number]['path'];

/** Which logbook this page shows: `?demonstration` in the address opens the invented laboratory's. */
export const demonstrationFlag = 'demonstration';

export const databaseNames = {
  laboratory: 'diffusion-qc-logbook',
  demonstration: 'diffusion-qc-logbook-demonstration',
} as const;

export const isDemonstrationAddress = (search: string) => new URLSearchParams(search).has(demonstrationFlag);
export const laboratoryHref = './#/bench';
export const demonstrationHref = `./?${demonstrationFlag}#/charts`;
