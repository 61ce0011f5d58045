/** How a failure ended, in a report: what failures of simulations and of controls have in common. Pure. */
import type { Logbook } from '../../journal/logbook.ts';
import { endedAt } from '../closing.ts';
import { asSentence } from '../parts/asSentence.ts';
import { day, dayAndTime } from '../parts/figures.ts';
import { signatureSentence } from '../parts/signatureSentence.ts';
import { type Period, type ReportSources, spanOf } from './reportSources.ts';

export interface Row {
  name: string;
  value: string;
}

interface Closure {
  by: string;
  zone: string;
  hash: string;
  body: { closedAt: string };
}

export type Ended<C extends Closure> =
  | { by: 'closure'; closure: C }
  | { by: 'new-baseline'; from: string }
  | null;

/** Whether a failure was open at any moment of a period. `openedAt`: an ISO 8601 instant. */
export function wasOpenIn(period: Period): (openedAt: string, ended: Ended<Closure>) => boolean {
  const { from, to } = spanOf(period);
  return (openedAt, ended) => {
    const until = endedAt({ ended });
    return Date.parse(openedAt) <= to && (until === null || Date.parse(until) >= from);
  };
}

export function endInShort(ended: Ended<Closure>): string {
  if (ended === null) return 'still open';
  return ended.by === 'closure'
    ? `closed ${day(ended.closure.body.closedAt, ended.closure.zone)}`
    : `put aside by a new baseline ${day(ended.from)}`;
}

/** `said`: what a closure of its kind says of the failure, and why it could be closed; empty where it does not say. */
export function endRows<C extends Closure>(
  ended: Ended<C>,
  { logbook, signatures }: Pick<ReportSources, 'logbook' | 'signatures'>,
  said: (closure: C) => { rows: readonly Row[]; reason: string },
): Row[] {
  if (ended === null) return [{ name: 'Closed', value: 'Not yet.' }];
  if (ended.by === 'new-baseline') {
    return [{ name: 'Closed', value: 'Nobody closed it in writing: a new baseline started without it.' }];
  }
  const { closure } = ended;
  const { rows, reason } = said(closure);
  const when = `${dayAndTime(closure.body.closedAt, closure.zone)}, by ${nameOf(closure.by, logbook)}`;
  const check = signatures?.find(({ entry }) => entry.hash === closure.hash);
  return [
    ...rows,
    { name: 'Closed', value: reason === '' ? `${when}.` : `${when}: ${asSentence(reason)}` },
    { name: 'Signature', value: check === undefined ? 'Being verified.' : signatureSentence(check, logbook) },
  ];
}

function nameOf(id: string, { technologists }: Pick<Logbook, 'technologists'>): string {
  const person = technologists.get(id);
  return person === undefined ? 'somebody unknown' : `${person.initials}, ${person.name}`;
}
