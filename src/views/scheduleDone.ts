/** When each check was last done, from runs and noted checks. Beside schedule.ts, which says what is due after that. */
import { type CivilDate, civilDateOf } from '../core/index.ts';
import type { ScheduledCheck } from '../journal/entries.ts';
import type { Logbook, LoggedRun } from '../journal/logbook.ts';
import { ofTheLaboratory } from './routes.ts';

export interface LastDone {
  /** Id of the run or of the noted check. */
  id: string;
  /** In ms. */
  at: number;
  /** The zone it was written in. */
  zone: string;
  technologistId: string;
  /** Null for a run, whose verdict says it. */
  outcome: 'passed' | 'failed' | 'noted' | null;
  validUntil: CivilDate | null;
}

export interface DoneBefore {
  last: LastDone | null;
  /** The newest that passed or failed. */
  judged: LastDone | null;
  datedAhead: LastDone | null;
}

const never: DoneBefore = { last: null, judged: null, datedAhead: null };

/**
 * The newest of each check that stands. A check that failed was made; that it failed is kept until a later one passes. What is
 * dated after today does not count, or a slip in a year would silence its reminder for that year; later on the same day it
 * does, as a clock that was put right leaves it.
 */
export function listDone(logbook: Logbook, now: number, zone: string) {
  const today = civilDateOf(now, zone);
  const known = new Map<string, DoneBefore>();
  const take = (check: ScheduledCheck, about: string, done: LastDone) => {
    const key = `${check} ${about}`;
    const before = known.get(key) ?? never;
    // The date costs more than all else here: it is asked of the few that need it.
    if (done.at > now && civilDateOf(done.at, zone) > today) {
      known.set(key, { ...before, datedAhead: newer(before.datedAhead, done) });
      return;
    }
    const isJudged = done.outcome === 'passed' || done.outcome === 'failed';
    const judged = isJudged ? newer(before.judged, done) : before.judged;
    known.set(key, { ...before, judged, last: newer(before.last, done) });
  };

  const takeRun = ({ id, entry, body: { analyzerId, technologistId }, simulation: { at } }: LoggedRun) =>
    take('simulation', analyzerId, {
      id,
      at,
      zone: entry.zone,
      technologistId,
      outcome: null,
      validUntil: null,
    });
  const newestRuns = new Map<string, LoggedRun>();
  for (const run of logbook.runs) {
    if (run.voided !== null || run.body.method !== 'syringe') continue;
    // Runs come in the order of their moment: only the few dated ahead are more than the newest of their analyzer.
    if (run.simulation.at > now) takeRun(run);
    else newestRuns.set(run.body.analyzerId, run);
  }
  for (const run of newestRuns.values()) takeRun(run);
  for (const { id, entry, voided } of logbook.checks) {
    if (voided !== null) continue;
    const { check, analyzerId, syringeId, technologistId, doneAt, outcome, validUntil } = entry.body;
    const done = { id, at: Date.parse(doneAt), zone: entry.zone, technologistId, outcome, validUntil };
    take(check, analyzerId ?? syringeId ?? ofTheLaboratory, done);
  }
  for (const { id, entry, amendments, control, at, voided, excluded } of logbook.controls) {
    if (voided !== null) continue;
    const check = control.kind === 'biological' ? 'biological-control' : 'simulator';
    const { technologistId } = control;
    const isFailed = (amendments.at(-1) ?? entry).body.judged.word === 'fail';
    // What takes part in nothing was made, and says nothing of the analyzer.
    const outcome = excluded ? 'noted' : isFailed ? 'failed' : 'passed';
    take(check, control.analyzerId, { id, at, zone: entry.zone, technologistId, outcome, validUntil: null });
  }
  return {
    of: (check: ScheduledCheck, about: string): DoneBefore => known.get(`${check} ${about}`) ?? never,
  };
}

/** Of two at the same moment, the one written later. */
const newer = (one: LastDone | null, other: LastDone): LastDone =>
  one !== null && one.at > other.at ? one : other;
