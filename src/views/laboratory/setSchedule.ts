/** How often a check is made: in words, as its form holds it, and as an entry. Pure. */
import { type CheckInterval, usualPlans } from '../../core/index.ts';
import type { EntryBody, EntryDraft, ScheduledCheck } from '../../journal/entries.ts';
import type { FieldInWords } from '../parts/fieldsInWords.ts';
import { counted, plain } from '../parts/figures.ts';
import { type Errors, type FormReading, finish } from '../parts/formReading.ts';
import type { NumberSpec } from '../parts/readNumber.ts';
import { checkWords, intervalWords } from '../scheduleWords.ts';
import { readCount } from './readSetting.ts';

/** What a laboratory sets of a check. */
export type Schedule = Pick<EntryBody<'schedule-set'>, 'isMade' | 'every' | 'announceDays'>;

export interface ScheduleDraft {
  made: 'by-interval' | 'by-own-date' | 'not-here';
  count: string;
  unit: 'days' | 'weeks' | 'months';
  announceDays: string;
}

/** The checks whose certificate or label carries a date of its own, by which they can be due instead. */
const byOwnDate: readonly ScheduledCheck[] = [
  'syringe-leak',
  'syringe-calibration',
  'barometer',
  'cylinder-expiry',
];

/** How a check can be due. A cylinder expires on the day of its label and at no interval. */
export function waysToBeDue(check: ScheduledCheck): ScheduleDraft['made'][] {
  const interval: ScheduleDraft['made'][] = check === 'cylinder-expiry' ? [] : ['by-interval'];
  return [...interval, ...(byOwnDate.includes(check) ? ['by-own-date' as const] : []), 'not-here'];
}

export function usualSchedule(check: ScheduledCheck): Schedule & { source: string } {
  const plan = usualPlans.find(({ kind }) => kind === check);
  if (plan === undefined) throw new RangeError(`usualSchedule: there is no usual plan of ${check}`);
  const { every, announceDays, source } = plan;
  return { isMade: true, every, announceDays, source };
}

export const madeWords = ({ isMade, every }: Pick<Schedule, 'isMade' | 'every'>) =>
  isMade ? intervalWords(every) : 'not made here';

export function scheduleInWords(schedule: Schedule, setBy: 'usual' | 'laboratory'): FieldInWords[] {
  const announced = schedule.announceDays;
  return [
    { name: 'Made', value: madeWords(schedule) },
    {
      name: 'Announced',
      value: !schedule.isMade ? '–' : announced === 0 ? 'on the day' : `${counted(announced, 'day')} before`,
    },
    { name: 'Set by', value: setBy === 'usual' ? 'nobody: the usual one' : 'this laboratory' },
  ];
}

export function scheduleDraft({ isMade, every, announceDays }: Schedule, usual: Schedule): ScheduleDraft {
  // A check that is made here again starts from its usual interval.
  const interval = every ?? usual.every;
  const inWeeks = interval !== null && interval.unit === 'days' && interval.count % 7 === 0;
  const count = interval === null ? '' : plain(inWeeks ? interval.count / 7 : interval.count);
  return {
    made: !isMade ? 'not-here' : every === null ? 'by-own-date' : 'by-interval',
    count,
    unit: inWeeks ? 'weeks' : (interval?.unit ?? 'months'),
    announceDays: plain(isMade ? announceDays : usual.announceDays),
  };
}

/** The journal keeps days or months, 400 at most. */
const mostOf: Record<ScheduleDraft['unit'], number> = { days: 400, weeks: 57, months: 400 };

export function readSchedule(draft: ScheduleDraft): FormReading<ScheduleDraft, Schedule> {
  const errors: Errors<ScheduleDraft> = {};
  if (draft.made === 'not-here') return finish(errors, { isMade: false, every: null, announceDays: 0 });
  const every = draft.made === 'by-own-date' ? null : readInterval(draft, errors);
  const announceDays = readCount(
    draft.announceDays,
    announceSpec,
    'Type how many days before; 0 for the day itself.',
  );
  if (announceDays.message !== undefined) errors.announceDays = announceDays.message;
  else if (every?.unit === 'days' && every.count > 0 && announceDays.value >= every.count) {
    errors.announceDays = `It would be announced at all times: it comes round every ${counted(every.count, 'day')}. Type fewer days.`;
  }
  return finish(errors, { isMade: true, every, announceDays: announceDays.value });
}

const announceSpec: NumberSpec = {
  name: 'number of days',
  unit: 'days',
  lowest: 0,
  highest: 365,
  example: '7',
};

function readInterval({ count, unit }: ScheduleDraft, errors: Errors<ScheduleDraft>): CheckInterval {
  const spec: NumberSpec = {
    name: `number of ${unit}`,
    unit,
    lowest: 1,
    highest: mostOf[unit],
    example: unit === 'months' ? '12' : '1',
  };
  const read = readCount(count, spec, `Type how many ${unit} lie between two of them.`);
  if (read.message !== undefined) errors.count = read.message;
  return unit === 'weeks' ? { unit: 'days', count: read.value * 7 } : { unit, count: read.value };
}

/** What to know before it is set: that it is rarer than usual, with what the usual one rests on. */
export function scheduleWarnings(check: ScheduledCheck, schedule: Schedule): string[] {
  const usual = usualSchedule(check);
  const name = checkWords[check].toLowerCase();
  const restsOn = `The usual: ${lowerFirst(usual.source)}`;
  if (!schedule.isMade) {
    return [`Nothing will say here that a ${name} is due, overdue or missing. ${restsOn}`];
  }
  if (schedule.every === null || usual.every === null) return [];
  return roughDays(schedule.every) > roughDays(usual.every) ? [`This is rarer than usual. ${restsOn}`] : [];
}

const lowerFirst = (sentence: string) => sentence.charAt(0).toLowerCase() + sentence.slice(1);

/** Only to compare two intervals. */
const roughDays = ({ unit, count }: CheckInterval) => (unit === 'days' ? count : count * 30.4375);

export const isSameSchedule = (one: Schedule, other: Schedule) =>
  madeWords(one) === madeWords(other) && (!one.isMade || one.announceDays === other.announceDays);

export function setSchedule(
  check: ScheduledCheck,
  schedule: Schedule,
  by: string,
  reason: string,
): EntryDraft[] {
  return [
    {
      id: crypto.randomUUID(),
      by,
      kind: 'schedule-set',
      body: { scheduleId: crypto.randomUUID(), check, ...schedule, reason },
    },
  ];
}
