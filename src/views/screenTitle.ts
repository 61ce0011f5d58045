/** What the page on the screen is called: by its headings of the first level, the right page's before the left one's. */
import { screens } from './routes.ts';

export const product = 'Diffusion QC Logbook';

/** The page that stands there. While the next one is fetched its forerunner is kept in the document, hidden. */
export const shownPage = (document: Document): HTMLElement | undefined =>
  [...document.querySelectorAll<HTMLElement>('#page')].find(({ style }) => style.display !== 'none');

/** Its headings, the most particular first; none while it is being fetched. */
export function headingsOf(page: HTMLElement | undefined): string[] {
  const headings = [...(page?.querySelectorAll('h1') ?? [])];
  return headings
    .map(({ textContent }) => textContent.replace(/\s+/g, ' ').trim())
    .filter((text) => text !== '')
    .reverse();
}

/** By which one window, and one page in the browser's history, is told from another. */
export function windowTitle(headings: readonly string[], location: string, laboratory: string): string {
  const whose = laboratory === '' ? product : `${laboratory}, ${product}`;
  // The first page of an empty logbook stands at whatever address was asked for.
  if (headings.includes(product)) return whose;
  const screen = screens.find(({ path }) => location === path || location.startsWith(`${path}/`));
  const names = new Set([...headings, ...(screen === undefined ? [] : [screen.word])]);
  return [...names, whose].join(' – ');
}
