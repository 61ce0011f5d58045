/** What the facts of an investigation are gathered from, and what each source of them gives. Pure. */
import type { Assessments, Observations, Quantity } from '../core/index.ts';
import type { Logbook, LoggedCheck, LoggedControl, LoggedRun } from '../journal/logbook.ts';
import { isSameDay } from './investigationShift.ts';
import type { Inquiry } from './investigations.ts';

/** One thing that is known, with the runs that it rests on. */
export interface Fact {
  key: string;
  sentence: string;
  runs: readonly LoggedRun[];
  /** The control that it tells of. */
  control?: LoggedControl;
}

export interface Sources {
  inquiry: Inquiry;
  about: LoggedRun;
  logbook: Logbook;
  assessments: Assessments;
  /** What is followed. */
  quantity: Quantity;
  /** The first work on the analyzer after the run, in ms: what is found later says nothing of the fault. */
  until: number;
}

/** What one source adds to what is known. */
export interface Part {
  seen: Observations;
  facts: readonly Fact[];
}

export const nothing: Part = { seen: {}, facts: [] };

/** Checks of one kind on the analyzer, for this investigation or on the day of the run, before it was worked on; oldest first. */
export function notedFor(
  { inquiry, about, logbook, until }: Sources,
  kind: 'volume-check' | 'biological-control',
): readonly LoggedCheck[] {
  const linked = new Set(
    inquiry.steps.flatMap((step) => (step.kind === 'check' && step.check === kind ? [step.noted] : [])),
  );
  return logbook.checks
    .filter((noted) => {
      const { check, analyzerId, doneAt } = noted.entry.body;
      const at = Date.parse(doneAt);
      const isOfDay = analyzerId === about.body.analyzerId && isSameDay(about, at);
      return noted.voided === null && check === kind && at < until && (linked.has(noted) || isOfDay);
    })
    .sort((one, other) => Date.parse(one.entry.body.doneAt) - Date.parse(other.entry.body.doneAt));
}
