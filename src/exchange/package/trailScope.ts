/** Which entries of the journal belong into the audit trail of a package. */
import type { Entry, EntryKind } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import type { Chosen } from './chosen.ts';
import type { PackageSource } from './source.ts';

/** What holds from then on, or says what there is: without those of earlier years nothing of the period can be understood. */
const holding: ReadonlySet<EntryKind> = new Set<EntryKind>([
  'technologist-added',
  'technologist-changed',
  'technologist-retired',
  'analyzer-added',
  'analyzer-changed',
  'analyzer-retired',
  'syringe-added',
  'syringe-changed',
  'syringe-retired',
  'cylinder-added',
  'cylinder-changed',
  'cylinder-retired',
  'subject-added',
  'subject-changed',
  'subject-retired',
  'subject-state-set',
  'cylinder-fitted',
  'service-set',
  'schedule-set',
  'laboratory-described',
  'limits-adopted',
  'check-limits-adopted',
  'policy-set',
  'closing-rules-set',
  'baseline-started',
  'baseline-accepted',
  'key-registered',
]);

/** An entry about a run, control or check: whose analyzer it is, and when that was made. */
interface Subject {
  analyzerId: string | null;
  madeAt: string;
}

/**
 * In are the entries of the period about the chosen analyzers or about none in particular, those that say what there is and what
 * holds, everything about what was made in the period, however much later it was written, and what any row rests on.
 */
export function trailOf(
  { logbook, entries }: Pick<PackageSource, 'logbook' | 'entries'>,
  chosen: Chosen,
  restedOn: ReadonlySet<string>,
): readonly Entry[] {
  const subjects = subjectsOf(logbook);
  return entries.filter((entry) => {
    if (restedOn.has(entry.id)) return true;
    const subject = subjectOf(entry, subjects);
    const analyzerId = subject === undefined ? analyzerOf(entry) : subject.analyzerId;
    if (!chosen.concerns(analyzerId)) return false;
    if (chosen.isWithin(entry.at)) return true;
    if (subject !== undefined) return chosen.isWithin(subject.madeAt);
    return holding.has(entry.kind) && entry.at < chosen.end;
  });
}

function subjectsOf({ runs, controls, checks }: Logbook): ReadonlyMap<string, Subject> {
  const subjects = new Map<string, Subject>();
  for (const { id, body } of runs) subjects.set(id, body);
  for (const { id, control } of controls) subjects.set(id, control);
  for (const { id, entry } of checks)
    subjects.set(id, { analyzerId: entry.body.analyzerId, madeAt: entry.body.doneAt });
  return subjects;
}

function subjectOf({ body }: Entry, subjects: ReadonlyMap<string, Subject>): Subject | undefined {
  if ('runId' in body) return subjects.get(body.runId);
  if ('controlId' in body) return subjects.get(body.controlId);
  return 'checkId' in body ? subjects.get(body.checkId) : undefined;
}

const analyzerOf = ({ body }: Entry): string | null => ('analyzerId' in body ? body.analyzerId : null);
