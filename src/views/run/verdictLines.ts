/** How a run was judged each time it was written, and how it comes out today where that differs. Pure. */
import type { RunAssessment } from '../../core/index.ts';
import type { Judgement } from '../../journal/entries.ts';
import { judgementOf } from '../../journal/judgement.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { dayAndTime, dlcoTyped, litres, zInTable } from '../parts/figures.ts';

export interface VerdictLine {
  key: string;
  occasion: string;
  /** The day, the time and the initials; empty for today's. */
  when: string;
  /** Null for an imported run, which nobody judged here when it was written. */
  judged: Judgement | null;
  /** What was written last says something else, or the run is voided. */
  isStruck: boolean;
}

export function verdictLines(
  run: LoggedRun,
  assessments: ReadonlyMap<string, RunAssessment>,
  technologists: Logbook['technologists'],
): VerdictLine[] {
  const { entry, amendments, voided } = run;
  const by = ({ by: id, at, zone }: { by: string; at: string; zone: string }) =>
    `${dayAndTime(at, zone)}, ${initialsIn(technologists, id)}`;
  const written = amendments.at(-1)?.body.judged ?? entry.body.judged;
  const isStruck = (judged: Judgement | null) =>
    voided !== null || (judged !== null && written !== null && !isSameVerdict(judged, written));
  const first: VerdictLine = {
    key: entry.id,
    occasion: entry.body.origin.kind === 'import' ? 'When imported' : 'On the day',
    when: by(entry),
    judged: entry.body.judged,
    isStruck: isStruck(entry.body.judged),
  };
  const amended = amendments.map(
    (amendment): VerdictLine => ({
      key: amendment.id,
      occasion: 'As amended',
      when: by(amendment),
      judged: amendment.body.judged,
      isStruck: isStruck(amendment.body.judged),
    }),
  );
  const lines = [first, ...amended];
  const assessment = assessments.get(run.id);
  if (voided !== null || assessment === undefined) return lines;
  const today = judgementOf(assessment);
  const last = lines.at(-1)?.judged ?? null;
  return last !== null && asWritten(last) === asWritten(today)
    ? lines
    : [...lines, { key: 'today', occasion: 'Today', when: '', judged: today, isStruck: false }];
}

const isSameVerdict = (one: Judgement, other: Judgement) =>
  one.word === other.word && one.establishing === other.establishing;

/** All that a line of the table shows: what differs beyond its digits is no other verdict. */
function asWritten({ word, establishing, va, dlco }: Judgement): string {
  const z = (value: number | null) => (value === null ? '–' : zInTable(value));
  const rules = ({ signals }: Judgement['va']) => signals.map(({ rule }) => rule).join(' ');
  return [
    word,
    establishing,
    ...[litres(va.value), z(va.z), rules(va)],
    ...[dlcoTyped(dlco.value, 'mL/min/mmHg'), z(dlco.z), rules(dlco)],
  ].join('; ');
}
