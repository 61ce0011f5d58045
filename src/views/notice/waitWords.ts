/** How long it takes until something is noticed, rounded to what such an average can carry. Pure. */
import { plain } from '../parts/figures.ts';

const weeksInYear = 365.2425 / 7;
/** An analyzer is not kept longer, nor does anyone plan by more. */
const mostYears = 10;

/** `next run`, `3 days`, `2 weeks`, `1.8 years`, `more than 10 years`. */
export function waitInWords(runs: number, runsPerWeek: number): string {
  // Nine times in ten it is the first run after the shift.
  if (runs < 1.1) return 'next run';
  const weeks = runs / runsPerWeek;
  if (Math.round(weeks) === 0) return several(Math.max(1, Math.round(weeks * 7)), 'day');
  if (Math.round(weeks) <= 52) return several(Math.round(weeks), 'week');
  const years = weeks / weeksInYear;
  if (years > mostYears) return `more than ${mostYears} years`;
  return several(years < 3 ? Number(years.toFixed(1)) : Math.round(years), 'year');
}

/** The same in a sentence: `at the next run`, `after 2 weeks`. */
export function waitInSentence(runs: number, runsPerWeek: number): string {
  const words = waitInWords(runs, runsPerWeek);
  return words === 'next run' ? 'at the next run' : `after ${words}`;
}

/** `31 a year`, `2.4 a year`, `1 in 4 years`, `fewer than 1 in 10 years`. */
export function rateInWords(perYear: number): string {
  if (perYear >= 9.95) return `${Math.round(perYear)} a year`;
  if (perYear >= 0.95) return `${plain(Number(perYear.toFixed(1)))} a year`;
  const years = 1 / perYear;
  return years > mostYears
    ? `fewer than 1 in ${mostYears} years`
    : `1 in ${several(Number(years.toFixed(years < 3 ? 1 : 0)), 'year')}`;
}

const several = (count: number, one: string) => `${plain(count)} ${count === 1 ? one : `${one}s`}`;
