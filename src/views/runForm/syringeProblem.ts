/** Why a syringe should not be trusted at a moment: a date that has passed, or a fall that nobody has looked into. */
import type { Logbook, LoggedCheck, Syringe } from '../../journal/logbook.ts';
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
  const overdue = checks.flatMap(({ check, dueField, word }) => {
    const dueOn = dueOnOf(syringe, dueField, newestCheck(logbook, syringe.id, check, madeAt));
    return dueOn !== null && dueOn < today ? [`${word} was due on ${civilDay(dueOn)}`] : [];
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

/** The date typed into the description, until a check made after it says another. */
function dueOnOf(
  { description, history }: Syringe,
  dueField: (typeof checks)[number]['dueField'],
  newest: LoggedCheck['entry'] | undefined,
): string | null {
  const typed = description[dueField];
  if (newest === undefined) return typed;
  let typedAt = '';
  let before: string | null | undefined;
  for (const { kind, body, at } of history) {
    if (kind !== 'syringe-added' && kind !== 'syringe-changed') continue;
    // To the minute, as a check is noted: one made within that minute comes after it.
    if (body[dueField] !== before) typedAt = at.slice(0, 16);
    before = body[dueField];
  }
  return newest.body.doneAt >= typedAt ? newest.body.validUntil : typed;
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

function failed(logbook: Logbook, { id, description }: Syringe, madeAt: number): string {
  const names = checks.filter(
    ({ check }) => newestCheck(logbook, id, check, madeAt)?.body.outcome === 'failed',
  );
  return names.map(({ word }) => `${description.label} failed its last ${word}.`).join(' ');
}
