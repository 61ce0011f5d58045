/** What is asked before a cylinder is fitted: it may well be so, and is more often a slip. Pure. */
import type { Analyzer, Cylinder, Logbook } from '../../journal/logbook.ts';
import { fittingAt } from '../../journal/standing.ts';
import { tracersIn, tracerWords } from '../gases.ts';
import { civilDay, dayAndTime } from '../parts/figures.ts';
import { localDay } from '../parts/localTime.ts';
import { fittedTo } from './fittedCylinders.ts';

export function askAboutFitting(
  logbook: Logbook,
  analyzer: Analyzer,
  cylinder: Cylinder | null,
  fittedAt: string,
): string[] {
  const { label, tracer } = analyzer.description;
  const questions: string[] = [];
  const before = fittingAt(logbook, analyzer.id, fittedAt)?.body.cylinderId ?? null;
  if (cylinder === null && before === null) {
    questions.push(`No cylinder is written down on ${label} at that time. Is it the right analyzer?`);
  }
  if (cylinder !== null) {
    const { description } = cylinder;
    const { expiresOn } = description;
    if (expiresOn !== null && expiresOn < localDay(Date.parse(fittedAt))) {
      questions.push(
        `The certificate of ${description.label} ran out on ${civilDay(expiresOn)}: its concentrations are no longer vouched for. Is it the one that was fitted?`,
      );
    }
    if (tracer !== undefined && !tracersIn(description).includes(tracer)) {
      questions.push(
        `${label} measures ${tracerWords[tracer]} as its tracer, and ${description.label} holds none. Is it the right cylinder?`,
      );
    }
    if (before === cylinder.id) {
      questions.push(`${description.label} is on ${label} already. Was it taken off and fitted again?`);
    }
  }
  const last = fittedTo(logbook, analyzer.id).at(-1);
  if (last !== undefined && fittedAt < last.fitting.body.fittedAt) {
    questions.push(
      `The last change of gas on ${label} was on ${dayAndTime(last.fitting.body.fittedAt)}; this one lies before it, ` +
        'so it does not change what is fitted now. Is the time right?',
    );
  }
  return questions;
}
