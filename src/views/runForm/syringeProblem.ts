/** Why a syringe should not be trusted at a moment: a date that has passed, or a fall that nobody has looked into. */
import { addInterval, usualPlans } from '../../core/index.ts';
import type { Logbook, LoggedCheck, Syringe } from '../../journal/logbook.ts';
import { scheduleOf } from '../../journal/standing.ts';
import { civilDay, day } from '../parts/figures.ts';
import { localDay } from '../parts/localTime.ts';

const checks = [
  { check: 'syringe-calibration', dueField: 'calibrationDueOn', word: 'calibration' },
  { check: 'syringe-leak', dueField: 'leakCheckDueOn', word: 'leak check' },
] as const;

/** `madeAt` in ms. Null where nothing is known against it. */
export function syringeProblem(logbook: Logbook, syringe: Syringe, madeAt: number): string | null {
  const { label } = syringe.description;
  const today = localDay(madeAt);
  const overdue = checks.flatMap((one) => {
    const dueOn = dueOnOf(logbook, syringe, one, newestCheck(logbook, syringe.id, one.check, madeAt));
    return dueOn !== null && dueOn < today ? [`${one.word} was due on ${civilDay(dueOn)}`] : [];
  });
  const sentences = [
    overdue.length > 0 ? `${label} is overdue: ${overdue.join(', ')}.` : '',
    dropped(logbook, syringe, madeAt),
    failed(logbook, syringe, madeAt),
  ].filter((sentence) => sentence !== '');
  return sentences.length > 0 ? sentences.join(' ') : null;
}

/** The newest check that stands, as of a moment. */
function newestCheck(
  { checks: all }: Pick<Logbook, 'checks'>,
  syringeId: string,
  check: (typeof checks)[number]['check'],
  until: number,
): LoggedCheck['entry'] | undefined {
  let newest: LoggedCheck['entry'] | undefined;
  for (const { entry, voided } of all) {
    const { body } = entry;
    if (voided !== null || body.syringeId !== syringeId || body.check !== check) continue;
    if (Date.parse(body.doneAt) > until) continue;
    if (newest === undefined || body.doneAt >= newest.body.doneAt) newest = entry;
  }
  return newest;
}

/**
 * As Today reckons it: the date typed into the description until a check made after it says another, and without a date
 * on its certificate the interval after that check. Null where nothing says when, or where the check is not made here.
 */
function dueOnOf(
  logbook: Pick<Logbook, 'schedules'>,
  { description, history }: Syringe,
  { check, dueField }: (typeof checks)[number],
  newest: LoggedCheck['entry'] | undefined,
): string | null {
  const own = scheduleOf(logbook, check);
  if (own?.isMade === false) return null;
  const typed = description[dueField];
  if (newest === undefined) {
    // Never noted: in arrears only where the laboratory has set that it is made here.
    const [added] = history;
    return typed ?? (own?.every && added ? localDay(Date.parse(added.at)) : null);
  }
  const { doneAt, validUntil } = newest.body;
  if (typed !== null && typedAtMinute(history, dueField) > doneAt) return typed;
  const { every } = own ?? usualPlans.find(({ kind }) => kind === check) ?? { every: null };
  return validUntil ?? (every && addInterval(localDay(Date.parse(doneAt)), every));
}

/** When the date that stands was typed; to the minute, as a check is noted: one made within that minute comes after it. */
function typedAtMinute(history: Syringe['history'], dueField: (typeof checks)[number]['dueField']): string {
  let typedAt = '';
  let before: string | null | undefined;
  for (const { kind, body, at } of history) {
    if (kind !== 'syringe-added' && kind !== 'syringe-changed') continue;
    if (body[dueField] !== before) typedAt = at.slice(0, 16);
    before = body[dueField];
  }
  return typedAt;
}

/** Leak and stop are checked after any drop. Source: ATS laboratory manual, 3rd ed. */
function dropped(logbook: Logbook, { id, description }: Syringe, madeAt: number): string {
  const last = logbook.drops
    .filter(({ body }) => body.syringeId === id && Date.parse(body.droppedAt) <= madeAt)
    .map(({ body }) => body.droppedAt)
    .sort()
    .at(-1);
  if (last === undefined) return '';
  const checkedAt = newestCheck(logbook, id, 'syringe-leak', madeAt)?.body.doneAt ?? '';
  return checkedAt > last
    ? ''
    : `${description.label} was dropped on ${day(last)} and not checked for leaks since.`;
}

/** Until a later one passes: a check that is only noted acquits nothing. */
function failed(logbook: Logbook, { id, description }: Syringe, madeAt: number): string {
  const judged = { checks: logbook.checks.filter(({ entry }) => entry.body.outcome !== 'noted') };
  const names = checks.filter(
    ({ check }) => newestCheck(judged, id, check, madeAt)?.body.outcome === 'failed',
  );
  return names.map(({ word }) => `${description.label} failed its last ${word}.`).join(' ');
}
