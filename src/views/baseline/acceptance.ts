/** Whether a supervisor has accepted the baseline in force, and whether its runs are still what was accepted. Pure. */
import type { EntryOf } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { counted, dayAndTime } from '../parts/figures.ts';
import type { Desk } from './baselineRuns.ts';

export type Acceptance =
  | { state: 'never' }
  /** Of another baseline than the one in force. */
  | { state: 'former'; entry: EntryOf<'baseline-accepted'> }
  | { state: 'same'; entry: EntryOf<'baseline-accepted'> }
  /** What was accepted stands, and runs have come in since; the oldest may have left a rolling window. */
  | { state: 'grown'; entry: EntryOf<'baseline-accepted'>; added: number }
  /** `changes`: one sentence each. */
  | { state: 'changed'; entry: EntryOf<'baseline-accepted'>; changes: readonly string[] };

export function acceptanceOf({ series, policy, inForce }: Desk, logbook: Logbook): Acceptance {
  const entry = logbook.acceptedBaselines.findLast(
    ({ body: { analyzerId, series: named } }) =>
      analyzerId === series.analyzerId &&
      named.method === series.method &&
      named.route === series.route &&
      named.quantity === series.quantity,
  );
  if (entry === undefined) return { state: 'never' };
  // Those of an epoch that a new baseline ended are all of another number; a back-dated one can part them.
  const accepted = new Set(entry.body.runIds);
  const known = logbook.runs.filter(({ id }) => accepted.has(id));
  if (!known.some(({ simulation }) => simulation.epoch === inForce.number)) return { state: 'former', entry };

  const members = new Set(inForce.members.map(({ run }) => run.id));
  const stillCounts = new Set(
    inForce.runs.filter(({ evaluation }) => evaluation.accepted).map(({ run }) => run.id),
  );
  const changes: string[] = [];
  let gone = 0;
  for (const id of entry.body.runIds) {
    const run = known.find((one) => one.id === id);
    if (run === undefined) {
      changes.push('A run of it is not in this logbook.');
      continue;
    }
    const which = `The run of ${dayAndTime(run.body.madeAt, run.entry.zone)}`;
    // Amended since, as far as the journal's own order tells.
    const isAmended = run.amendments.some((amendment) => amendment.at > entry.at);
    if (run.voided !== null) changes.push(`${which} was voided.`);
    else if (run.setAside !== null) changes.push(`${which} was set aside.`);
    else if (isAmended) changes.push(`${which} was amended.`);
    else if (run.simulation.epoch !== inForce.number)
      changes.push(`${which} lies before the baseline in force.`);
    else if (!members.has(id)) {
      if (policy.limits === 'rolling' && stillCounts.has(id)) continue; // the window moved on
      gone += 1;
    }
  }
  if (gone > 0) {
    changes.push(
      `${counted(gone, 'run of it does', 'runs of it do')} not make the baseline any more: failed as of today, or no longer among the first.`,
    );
  }
  const added = inForce.members.filter(({ run }) => !accepted.has(run.id));
  // A run older than the last accepted one can only have come in by a change; a later one is the next week's.
  const lastAt = Math.max(...known.map(({ simulation }) => simulation.at));
  const between = added.filter(({ run }) => run.simulation.at < lastAt).length;
  if (between > 0) changes.push(`${counted(between, 'run')} came in between.`);
  if (changes.length > 0) return { state: 'changed', entry, changes };
  return added.length > 0 ? { state: 'grown', entry, added: added.length } : { state: 'same', entry };
}
