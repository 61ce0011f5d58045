/** What a report is about: read from its address and written into it, so that a report can be asked for again. Pure. */
import { addDays, addMonths, type CivilDate, daysBetween } from '../../core/index.ts';
import { decodedPart, reportHref } from '../deskRoutes.ts';
import { civilDay } from '../parts/figures.ts';

export type Paper = 'a4' | 'letter';

/** The parts that may be left out. What a report is for, its summary and its signatures, always stands in it. */
export const partWords = {
  charts: 'Charts',
  controls: 'Biological controls and simulator',
  checks: 'Other checks',
  failures: 'Failures with their story',
  events: 'Events and corrections',
  method: 'Method, limits and policies',
  equipment: 'People and equipment',
  'sign-offs': 'Sign-offs',
} as const;

export type Part = keyof typeof partWords;
const parts = Object.keys(partWords) as readonly Part[];

export interface ReportChoice {
  /** Both ends in. */
  from: CivilDate;
  to: CivilDate;
  /** Ids, in the order of the logbook; null: all that were run or in use in the period. */
  analyzerIds: readonly string[] | null;
  paper: Paper;
  without: readonly Part[];
}

/** The last twelve months. Letter is the paper where dates are written with the month first. */
export function usualChoice(today: CivilDate, dateForm: string): ReportChoice {
  return {
    from: addDays(addMonths(today, -12), 1),
    to: today,
    analyzerIds: null,
    paper: dateForm === 'mm/dd/yyyy' ? 'letter' : 'a4',
    without: [],
  };
}

const everything = 'all';

/** `/report/2025-11-26/2026-11-25/all/a4/without-charts-events`. */
export function addressOfChoice({ from, to, analyzerIds, paper, without }: ReportChoice): string {
  const who =
    analyzerIds === null ? everything : analyzerIds.map((id) => encodeURIComponent(id)).join(',') || 'none';
  const path = `${reportHref}/${from}/${to}/${who}/${paper}`;
  return without.length === 0 ? path : `${path}/without~${without.join('~')}`;
}

/** What an address leaves out, or says in no form that is known here, is as usual. */
export function readChoice(address: string, usual: ReportChoice): ReportChoice {
  const [from = '', to = '', who = '', paper = '', without = ''] = address.split('/');
  const left = without.split('~');
  return {
    from: from === '' ? usual.from : from,
    to: to === '' ? usual.to : to,
    analyzerIds:
      who === '' || who === everything
        ? null
        : who
            .split(',')
            .map(decodedPart)
            .filter((id) => id !== 'none'),
    paper: paper === 'a4' || paper === 'letter' ? paper : usual.paper,
    without: left[0] === 'without' ? parts.filter((part) => left.includes(part)) : [],
  };
}

export interface ChoiceErrors {
  from?: string;
  to?: string;
  analyzers?: string;
}

/** What keeps a report from being made, beside its field; empty where nothing does. */
export function choiceErrors({ from, to, analyzerIds }: ReportChoice, today: CivilDate): ChoiceErrors {
  const missing = 'Choose a date.';
  const errors: ChoiceErrors = {};
  if (!isDate(from)) errors.from = missing;
  else if (isDate(to) && from > to) errors.from = 'It begins after it ends.';
  if (!isDate(to)) errors.to = missing;
  else if (to > today)
    errors.to = `It cannot end after today, ${civilDay(today)}: nothing is known of later days.`;
  if (analyzerIds?.length === 0) errors.analyzers = 'Choose an analyzer at least.';
  return errors;
}

function isDate(text: string): boolean {
  try {
    return daysBetween(text, text) === 0;
  } catch {
    return false;
  }
}
