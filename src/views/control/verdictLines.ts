/** How a control was judged each time it was written, and how it comes out today where that differs. Pure. */
import type { ControlJudgement } from '../../journal/entries.ts';
import type { Logbook, LoggedControl } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { type ControlAssessment, judgementOf } from '../controlAssessments.ts';
import { judgedAsWritten } from '../controlAsWritten.ts';
import { dayAndTime, dlcoTyped, litres, signedDlco, zInTable } from '../parts/figures.ts';

export interface ControlVerdictLine {
  key: string;
  occasion: string;
  /** The day, the time and the initials; empty for today's. */
  when: string;
  judged: ControlJudgement;
  /** What was written last says something else, or the control is voided. */
  isStruck: boolean;
}

export function verdictLines(
  logged: LoggedControl,
  assessment: ControlAssessment | undefined,
  technologists: Logbook['technologists'],
): ControlVerdictLine[] {
  const { entry, amendments, voided } = logged;
  const written = judgedAsWritten(logged);
  const line = (
    occasion: string,
    by: { id: string; by: string; at: string; zone: string; body: { judged: ControlJudgement } },
  ): ControlVerdictLine => ({
    key: by.id,
    occasion,
    when: `${dayAndTime(by.at, by.zone)}, ${initialsIn(technologists, by.by)}`,
    judged: by.body.judged,
    isStruck:
      voided !== null ||
      by.body.judged.word !== written.word ||
      by.body.judged.establishing !== written.establishing,
  });
  const lines = [line('On the day', entry), ...amendments.map((one) => line('As amended', one))];
  if (voided !== null || assessment === undefined) return lines;
  const today = judgementOf(assessment);
  return asShown(today) === asShown(written)
    ? lines
    : [...lines, { key: 'today', occasion: 'Today', when: '', judged: today, isStruck: false }];
}

type Series = ControlJudgement['series'][number];

/** A person's values as they are; a level's as its distance from target. */
export function seriesValue({ name, value }: Series): string {
  if (name === 'va') return litres(value);
  return name === 'dlco' ? dlcoTyped(value, 'mL/min/mmHg') : signedDlco(value, 'mL/min/mmHg');
}

export const rulesOf = ({ signals }: Series) =>
  signals.map(({ rule, across }) => (across === 'levels' ? `${rule} across levels` : rule)).join(', ');

/** All that a line of the table shows: what differs beyond its digits is no other verdict. */
const asShown = ({ word, establishing, series }: ControlJudgement) =>
  [
    word,
    establishing,
    ...series.map((one) =>
      [
        one.name,
        seriesValue(one),
        one.withinPublished,
        one.z === null ? '–' : zInTable(one.z),
        rulesOf(one),
      ].join(' '),
    ),
  ].join('; ');
