/** Which analyzers an entry is about, and under which heading the worklist names it. Pure. */
import type { Entry, EntryKind } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';

export type GroupId =
  | 'runs'
  | 'controls'
  | 'changed'
  | 'failures'
  | 'events'
  | 'checks'
  | 'settings'
  | 'equipment'
  | 'journal';

/** In the order of the page. */
export const groupTitles: Record<GroupId, string> = {
  runs: 'Runs recorded',
  controls: 'Biological controls and simulator',
  changed: 'Amended, voided, set aside',
  failures: 'Failures',
  events: 'Events and service',
  checks: 'Checks',
  settings: 'Settings',
  equipment: 'People and equipment',
  journal: 'The journal itself',
};

export const groupOf: Record<EntryKind, GroupId> = {
  'run-recorded': 'runs',
  'runs-imported': 'runs',
  'run-amended': 'changed',
  'run-voided': 'changed',
  'run-set-aside': 'changed',
  'import-voided': 'changed',
  'failure-closed': 'failures',
  'action-taken': 'failures',
  'look-back-reviewed': 'failures',
  'event-recorded': 'events',
  'service-set': 'events',
  'cylinder-fitted': 'events',
  'baseline-started': 'events',
  'check-done': 'checks',
  'check-voided': 'checks',
  'policy-set': 'settings',
  'baseline-accepted': 'settings',
  'limits-adopted': 'settings',
  'schedule-set': 'settings',
  'laboratory-described': 'settings',
  'closing-rules-set': 'settings',
  'analyzer-added': 'equipment',
  'analyzer-changed': 'equipment',
  'analyzer-retired': 'equipment',
  'syringe-added': 'equipment',
  'syringe-changed': 'equipment',
  'syringe-retired': 'equipment',
  'syringe-dropped': 'equipment',
  'cylinder-added': 'equipment',
  'cylinder-changed': 'equipment',
  'cylinder-retired': 'equipment',
  'technologist-added': 'equipment',
  'technologist-changed': 'equipment',
  'technologist-retired': 'equipment',
  'key-registered': 'equipment',
  'control-recorded': 'controls',
  'control-amended': 'changed',
  'control-voided': 'changed',
  'control-set-aside': 'changed',
  'control-closed': 'failures',
  'check-limits-adopted': 'settings',
  'gap-explained': 'checks',
  'subject-added': 'equipment',
  'subject-changed': 'equipment',
  'subject-retired': 'equipment',
  'subject-state-set': 'equipment',
  'period-signed': 'journal',
  'entries-lost': 'journal',
};

/** Sorts entries by analyzer: what is about none of them is the laboratory's. Look-ups are made once for all entries. */
export function analyzersOfEntries({
  runs,
  checks,
  controls,
}: Pick<Logbook, 'runs' | 'checks' | 'controls'>) {
  const ofRun = new Map<string, Set<string>>();
  const ofBatch = new Map<string, Set<string>>();
  const add = (known: Map<string, Set<string>>, key: string, analyzerId: string) => {
    const there = known.get(key);
    if (there) there.add(analyzerId);
    else known.set(key, new Set([analyzerId]));
  };
  for (const { id, entry, body, amendments } of runs) {
    // An amendment may have moved a run to another analyzer: both are told of it.
    for (const { analyzerId } of [entry.body, ...amendments.map((one) => one.body.run), body]) {
      add(ofRun, id, analyzerId);
    }
    if (entry.body.origin.kind === 'import') add(ofBatch, entry.body.origin.batchId, body.analyzerId);
  }
  const ofControl = new Map(
    controls.map(({ id, entry, control, amendments }) => [
      id,
      [
        ...new Set(
          [entry.body.control, ...amendments.map(({ body }) => body.control), control].map(
            ({ analyzerId }) => analyzerId,
          ),
        ),
      ],
    ]),
  );
  const ofCheck = new Map(checks.map(({ id, entry }) => [id, entry.body.analyzerId]));
  return (entry: Entry): readonly string[] => {
    switch (entry.kind) {
      case 'run-recorded':
        return [entry.body.analyzerId];
      case 'run-amended':
      case 'run-voided':
      case 'run-set-aside':
        return [...(ofRun.get(entry.body.runId) ?? [])];
      case 'runs-imported':
      case 'import-voided':
        return [...(ofBatch.get(entry.body.batchId) ?? [])];
      case 'control-recorded':
        return [entry.body.control.analyzerId];
      case 'control-amended':
      case 'control-voided':
      case 'control-set-aside':
        return ofControl.get(entry.body.controlId) ?? [];
      case 'check-voided': {
        const analyzerId = ofCheck.get(entry.body.checkId) ?? null;
        return analyzerId === null ? [] : [analyzerId];
      }
      default: {
        const analyzerId = 'analyzerId' in entry.body ? entry.body.analyzerId : null;
        return analyzerId === null ? [] : [analyzerId];
      }
    }
  };
}
