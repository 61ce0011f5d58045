/** The onset of a failure and its look-back window in words. Pure. */
import type { EntryBody } from '../journal/entries.ts';
import { type ClosingWindow, type Onset, type Stretch, shareOf } from './closingWindow.ts';
import { counted, day, dayAndTime, percent } from './parts/figures.ts';

/** When it is likely to have begun, how surely, and what that says of the runs that passed. */
export function onsetSentences(window: ClosingWindow): string[] {
  const { likely, drift, earliest, lastGood, lastGoodIsInDoubt, firstFailing } = window;
  if (likely === null && drift === null) {
    return [
      lastGood === null
        ? 'No run before the failing one was good: nothing tells when it began.'
        : `The runs show no onset of their own: it began between the last good run, ${day(lastGood)}, and the failing one, ${day(firstFailing)}.`,
    ];
  }
  const sentences = [likelySentence(likely, drift)];
  const first = Math.min(...[likely, drift].map((onset) => onset?.after ?? Number.POSITIVE_INFINITY));
  if (earliest === null) {
    sentences.push('The runs also allow a beginning before the first of them.');
  } else if (earliest !== undefined && earliest < first) {
    sentences.push(`The runs also allow a beginning as early as just after ${day(earliest)}.`);
  }
  if (lastGoodIsInDoubt && lastGood !== null) {
    sentences.push(
      `Runs that passed since then, the last on ${day(lastGood)}, may have been made with the fault.`,
    );
  }
  return sentences;
}

/** A step and a drift through the same runs begin at different times; which it was the fault will tell. */
function likelySentence(likely: Onset | null, drift: Onset | null): string {
  const step = likely && betweenRuns(likely);
  const line = drift && betweenRuns(drift);
  if (step === null || line === null || step === line) return `It most likely began ${step ?? line}.`;
  return `If it came at once, it most likely began ${step}; if it has grown steadily, ${line}.`;
}

const betweenRuns = ({ after, before }: Onset) =>
  after === null ? `before ${day(before)}` : `between ${day(after)} and ${day(before)}`;

/** The window as names and values. */
export function windowRows(window: ClosingWindow, isOpen: boolean): { name: string; value: string }[] {
  const { from, firstFailing, lastGood, inService, stopped, to } = window;
  const { certainDays, possibleDays } = shareOf(window);
  return [
    { name: 'Last good run', value: lastGood === null ? 'none is known' : dayAndTime(lastGood) },
    {
      name: 'In doubt from',
      value:
        from === null
          ? 'the beginning of what is known: no run shows that it was ever right'
          : `${dayAndTime(from)}${from === lastGood ? ', the last good run' : ', the earliest onset'}`,
    },
    { name: 'Failing run', value: dayAndTime(firstFailing) },
    { name: 'Stopped', value: stopWords(window, isOpen) },
    {
      name: 'Possibly wrong',
      value:
        possibleDays === null
          ? 'everything before the failing run'
          : `${daysWords(possibleDays)}, up to the failing run`,
    },
    {
      name: 'Certainly in doubt',
      value:
        inService.length === 0
          ? 'no time: it was out of service from the failing run on'
          : `${daysWords(certainDays)} in service after the failing run${
              stopped === null ? `, up to ${dayAndTime(to)}` : ''
            }${shareWords(certainDays, possibleDays)}`,
    },
  ];
}

function stopWords({ inService, stopped, to }: ClosingWindow, isOpen: boolean): string {
  if (stopped === null && !isOpen) return 'never: it was in service to the end';
  if (stopped === null) return 'not yet: it is in service with the failure open';
  const again = inService.slice(1);
  if (again.length === 0) return dayAndTime(stopped);
  return `${dayAndTime(stopped)}, but in service again ${again.map(stretchWords).join('; ')}, up to ${dayAndTime(to)}`;
}

const stretchWords = ({ from, to }: Stretch) => `from ${dayAndTime(from)} to ${dayAndTime(to)}`;

/** Less than a day is said as such: "0 days" would read as nobody. */
export const daysWords = (days: number) => (days < 1 ? 'less than a day' : counted(Math.round(days), 'day'));

function shareWords(certainDays: number, possibleDays: number | null): string {
  if (possibleDays === null || certainDays + possibleDays === 0) return '';
  return `: ${percent(certainDays / (certainDays + possibleDays), 0)} % of the window`;
}

export const outcomeWords: Record<EntryBody<'look-back-reviewed'>['outcome'], string> = {
  'nobody-tested': 'Nobody was tested in that time',
  'none-affected': 'Results looked at, none affected',
  'results-corrected': 'Results corrected',
  'tests-repeated': 'Tests repeated',
  referred: 'Handed on to the responsible physician',
};

/** What of the window no review covers, as a sentence; null where all is covered. `reviews`: ISO 8601 instants. */
export function uncoveredSentence(
  { from, to, firstFailing, stopped }: ClosingWindow,
  reviews: readonly { from: string; to: string }[],
): string | null {
  if (reviews.length === 0) return null;
  const inOrder = reviews
    .map((review) => ({ from: Date.parse(review.from), to: Date.parse(review.to) }))
    .sort((one, other) => one.from - other.from);
  const gaps: Stretch[] = [];
  // Where nobody knows from when on, what was looked at decides.
  let covered = from ?? Math.min(firstFailing, inOrder[0]?.from ?? firstFailing);
  for (const review of inOrder) {
    if (review.from - covered > minuteMs) gaps.push({ from: covered, to: review.from });
    covered = Math.max(covered, review.to);
  }
  // While nothing has stopped it the window grows by itself.
  if (stopped !== null && to - covered > minuteMs) gaps.push({ from: covered, to });
  return gaps.length === 0 ? null : `Not looked at of the window: ${gaps.map(stretchWords).join('; ')}.`;
}

/** Fields hold whole minutes. */
const minuteMs = 60_000;
