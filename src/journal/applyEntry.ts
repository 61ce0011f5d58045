/** What each kind of entry does to the logbook that is being folded. */
import type { Entry, EntryKind, EntryOf } from './entries.ts';
import type {
  Analyzer,
  Cylinder,
  ImportBatch,
  LoggedCheck,
  LoggedRun,
  Retirement,
  Subject,
  Syringe,
  Technologist,
} from './logbook.ts';

type Growing<T extends { history: readonly Entry[] }> = Omit<T, 'history'> & { history: Entry[] };

export interface DraftRun {
  entry: EntryOf<'run-recorded'>;
  amendments: EntryOf<'run-amended'>[];
  voided: LoggedRun['voided'];
  setAside: LoggedRun['setAside'];
}

/** A logbook while entries are still read into it. */
export interface Draft {
  technologists: Map<string, Growing<Technologist>>;
  analyzers: Map<string, Growing<Analyzer>>;
  syringes: Map<string, Growing<Syringe>>;
  runs: Map<string, DraftRun>;
  events: Map<string, EntryOf<'event-recorded'>>;
  baselineStarts: Map<string, EntryOf<'baseline-started'>>;
  closures: Map<string, EntryOf<'failure-closed'>>;
  imports: Map<string, ImportBatch>;
  keys: Map<string, EntryOf<'key-registered'>>;
  cylinders: Map<string, Growing<Cylinder>>;
  fittings: Map<string, EntryOf<'cylinder-fitted'>>;
  services: Map<string, EntryOf<'service-set'>>;
  drops: Map<string, EntryOf<'syringe-dropped'>>;
  checks: Map<string, LoggedCheck>;
  schedules: Map<string, EntryOf<'schedule-set'>>;
  laboratory: Map<string, EntryOf<'laboratory-described'>>;
  limitEditions: Map<string, EntryOf<'limits-adopted'>>;
  policies: Map<string, EntryOf<'policy-set'>>;
  actions: Map<string, EntryOf<'action-taken'>>;
  lookBacks: Map<string, EntryOf<'look-back-reviewed'>>;
  closingRules: Map<string, EntryOf<'closing-rules-set'>>;
  acceptedBaselines: Map<string, EntryOf<'baseline-accepted'>>;
  signOffs: Map<string, EntryOf<'period-signed'>>;
  subjects: Map<string, Growing<Subject>>;
  subjectStates: Map<string, EntryOf<'subject-state-set'>>;
  controls: Map<
    string,
    {
      entry: EntryOf<'control-recorded'>;
      amendments: EntryOf<'control-amended'>[];
      voided: LoggedRun['voided'];
      setAside: LoggedRun['setAside'];
    }
  >;
  controlClosures: Map<string, EntryOf<'control-closed'>>;
  checkLimitEditions: Map<string, EntryOf<'check-limits-adopted'>>;
  gaps: Map<string, EntryOf<'gap-explained'>>;
}

/** What does not add up about an entry, as a sentence; null when all is well. */
export type Complaint = string | null;

function keepFirst<T>(kept: Map<string, T>, id: string, value: T, what: string): Complaint {
  if (kept.has(id)) return `${what} ${id} is already in the logbook; the earlier entry counts.`;
  kept.set(id, value);
  return null;
}

function retire(
  thing: { retired: Retirement | null; history: Entry[] } | undefined,
  entry: Entry,
  reason: string,
): Complaint {
  if (thing === undefined) return 'Retires something that is not in the logbook.';
  thing.history.push(entry);
  if (thing.retired) return 'Retires something a second time; the first retirement counts.';
  thing.retired = { at: entry.at, by: entry.by, reason };
  return null;
}

function change<T extends { history: Entry[] }>(
  thing: T | undefined,
  entry: Entry,
  change: Partial<T>,
): Complaint {
  if (thing === undefined) return 'Changes something that is not in the logbook.';
  Object.assign(thing, change);
  thing.history.push(entry);
  return null;
}

function voidOnce<T extends Pick<LoggedRun, 'voided'>>(
  kept: Map<string, T>,
  id: string,
  { at, by, body: { reason } }: EntryOf<'run-voided' | 'import-voided' | 'check-voided' | 'control-voided'>,
  what: string,
): Complaint {
  const known = kept.get(id);
  if (!known) return `Voids ${what} ${id}, which is not in the logbook.`;
  if (known.voided) return `Voids ${what} ${id} a second time; the first time counts.`;
  kept.set(id, { ...known, voided: { at, by, reason } });
  return null;
}

function setAside(
  thing: Pick<LoggedRun, 'setAside'> | undefined,
  { at, by, body: { isSetAside, reason } }: EntryOf<'run-set-aside' | 'control-set-aside'>,
  what: string,
): Complaint {
  if (!thing) return `Sets aside a ${what} that is not in the logbook.`;
  thing.setAside = isSetAside ? { at, by, reason } : null;
  return null;
}

/** What only a supervisor may do, as the complaint about anybody else begins. */
const supervisorsActs: Partial<Record<EntryKind, string>> = {
  'baseline-started': 'Starts a new baseline',
  'failure-closed': 'Closes a failure',
  'schedule-set': 'Sets a schedule',
  'laboratory-described': 'Describes the laboratory',
  'limits-adopted': 'Adopts limits',
  'policy-set': 'Sets a policy',
  'look-back-reviewed': 'Reviews a look-back',
  'closing-rules-set': 'Sets what a closure needs',
  'baseline-accepted': 'Accepts a baseline',
  'period-signed': 'Signs off',
  'run-set-aside': 'Sets a run aside, or takes it back in',
  'service-set': 'Puts an analyzer back in service',
  'control-closed': 'Closes a failure of a control',
  'control-set-aside': 'Sets a control aside, or takes it back in',
  'check-limits-adopted': 'Adopts limits',
  'subject-state-set': 'Excludes or takes back a subject',
};

/** Their role as it was then: a later change of role is not applied yet. */
function supervisorsOnly(entry: Entry, { technologists }: Draft): Complaint {
  const act = supervisorsActs[entry.kind];
  const isAnybodys =
    act === undefined || (entry.kind === 'service-set' && !entry.body.inService) || isPause(entry);
  return isAnybodys || technologists.get(entry.by)?.role !== 'technologist'
    ? null
    : `${act}, which only a supervisor may; its author was none at that time.`;
}

/** Anybody may see that a person cannot be tested; that tests do not count is a decision. */
const isPause = (entry: Entry) => entry.kind === 'subject-state-set' && entry.body.state === 'paused';

/** Takes one entry in; nothing is thrown away for what does not add up. */
export const applyEntry = (entry: Entry, draft: Draft): Complaint =>
  takeIn(entry, draft) ?? supervisorsOnly(entry, draft);

function takeIn(entry: Entry, draft: Draft): Complaint {
  switch (entry.kind) {
    case 'technologist-added': {
      const { technologistId: id, ...description } = entry.body;
      const technologist = { id, ...description, retired: null, history: [entry] };
      return keepFirst(draft.technologists, id, technologist, 'Technologist');
    }
    case 'technologist-changed': {
      const { technologistId: id, reason: _, ...description } = entry.body;
      return change(draft.technologists.get(id), entry, description);
    }
    case 'technologist-retired':
      return retire(draft.technologists.get(entry.body.technologistId), entry, entry.body.reason);
    case 'analyzer-added': {
      const { analyzerId: id, ...description } = entry.body;
      return keepFirst(draft.analyzers, id, { id, description, retired: null, history: [entry] }, 'Analyzer');
    }
    case 'analyzer-changed': {
      const { analyzerId: id, reason: _, ...description } = entry.body;
      return change(draft.analyzers.get(id), entry, { description });
    }
    case 'analyzer-retired':
      return retire(draft.analyzers.get(entry.body.analyzerId), entry, entry.body.reason);
    case 'syringe-added': {
      const { syringeId: id, ...description } = entry.body;
      return keepFirst(draft.syringes, id, { id, description, retired: null, history: [entry] }, 'Syringe');
    }
    case 'syringe-changed': {
      const { syringeId: id, reason: _, ...description } = entry.body;
      return change(draft.syringes.get(id), entry, { description });
    }
    case 'syringe-retired':
      return retire(draft.syringes.get(entry.body.syringeId), entry, entry.body.reason);
    case 'run-recorded':
      return keepFirst(
        draft.runs,
        entry.body.runId,
        { entry, amendments: [], voided: null, setAside: null },
        'Run',
      );
    case 'run-voided':
      return voidOnce(draft.runs, entry.body.runId, entry, 'run');
    case 'run-amended': {
      const run = draft.runs.get(entry.body.runId);
      if (!run) return `Amends run ${entry.body.runId}, which is not in the logbook.`;
      run.amendments.push(entry);
      return null;
    }
    case 'runs-imported':
      return keepFirst(
        draft.imports,
        entry.body.batchId,
        { id: entry.body.batchId, entry, voided: null },
        'Import',
      );
    case 'import-voided':
      return voidOnce(draft.imports, entry.body.batchId, entry, 'import');
    case 'key-registered': {
      const complaint = keepFirst(draft.keys, entry.body.keyId, entry, 'Key');
      if (complaint !== null || entry.by === entry.body.technologistId) return complaint;
      return 'Registers a key in the name of somebody else; a key is registered by its owner.';
    }
    case 'event-recorded':
      return keepFirst(draft.events, entry.body.eventId, entry, 'Event');
    case 'baseline-started':
      return keepFirst(draft.baselineStarts, entry.body.baselineId, entry, 'Baseline');
    case 'failure-closed':
      return keepFirst(draft.closures, entry.body.closureId, entry, 'Closure');
    case 'cylinder-added': {
      const { cylinderId: id, ...description } = entry.body;
      return keepFirst(draft.cylinders, id, { id, description, retired: null, history: [entry] }, 'Cylinder');
    }
    case 'cylinder-changed': {
      const { cylinderId: id, reason: _, ...description } = entry.body;
      return change(draft.cylinders.get(id), entry, { description });
    }
    case 'cylinder-retired':
      return retire(draft.cylinders.get(entry.body.cylinderId), entry, entry.body.reason);
    case 'cylinder-fitted':
      return keepFirst(draft.fittings, entry.body.fittingId, entry, 'Fitting');
    case 'service-set':
      return keepFirst(draft.services, entry.body.serviceId, entry, 'Service');
    case 'syringe-dropped':
      return keepFirst(draft.drops, entry.body.dropId, entry, 'Drop');
    case 'check-done':
      return keepFirst(
        draft.checks,
        entry.body.checkId,
        { id: entry.body.checkId, entry, voided: null },
        'Check',
      );
    case 'check-voided':
      return voidOnce(draft.checks, entry.body.checkId, entry, 'check');
    case 'schedule-set':
      return keepFirst(draft.schedules, entry.body.scheduleId, entry, 'Schedule');
    case 'laboratory-described':
      return keepFirst(draft.laboratory, entry.body.descriptionId, entry, 'Description');
    case 'limits-adopted':
      return keepFirst(draft.limitEditions, entry.body.adoptionId, entry, 'Limits');
    case 'policy-set':
      return keepFirst(draft.policies, entry.body.policyId, entry, 'Policy');
    case 'run-set-aside':
      return setAside(draft.runs.get(entry.body.runId), entry, 'run');
    case 'action-taken':
      return keepFirst(draft.actions, entry.body.actionId, entry, 'Action');
    case 'look-back-reviewed':
      return keepFirst(draft.lookBacks, entry.body.lookBackId, entry, 'Look-back');
    case 'closing-rules-set':
      return keepFirst(draft.closingRules, entry.body.closingRulesId, entry, 'Closing rules');
    case 'baseline-accepted':
      return keepFirst(draft.acceptedBaselines, entry.body.acceptanceId, entry, 'Acceptance');
    case 'period-signed':
      return keepFirst(draft.signOffs, entry.body.signOffId, entry, 'Sign-off');
    case 'subject-added': {
      const { subjectId: id, ...description } = entry.body;
      return keepFirst(draft.subjects, id, { id, description, retired: null, history: [entry] }, 'Subject');
    }
    case 'subject-changed': {
      const { subjectId: id, reason: _, ...description } = entry.body;
      return change(draft.subjects.get(id), entry, { description });
    }
    case 'subject-retired':
      return retire(draft.subjects.get(entry.body.subjectId), entry, entry.body.reason);
    case 'subject-state-set':
      draft.subjects.get(entry.body.subjectId)?.history.push(entry);
      return keepFirst(draft.subjectStates, entry.body.settingId, entry, 'State');
    case 'control-recorded': {
      const control = { entry, amendments: [], voided: null, setAside: null };
      return keepFirst(draft.controls, entry.body.controlId, control, 'Control');
    }
    case 'control-amended': {
      const control = draft.controls.get(entry.body.controlId);
      if (!control) return `Amends control ${entry.body.controlId}, which is not in the logbook.`;
      if (control.entry.body.control.kind !== entry.body.control.kind)
        return `Amends control ${entry.body.controlId} into one of another kind; it counts as it stood.`;
      control.amendments.push(entry);
      return null;
    }
    case 'control-voided':
      return voidOnce(draft.controls, entry.body.controlId, entry, 'control');
    case 'control-set-aside':
      return setAside(draft.controls.get(entry.body.controlId), entry, 'control');
    case 'control-closed':
      return keepFirst(draft.controlClosures, entry.body.closureId, entry, 'Closure');
    case 'check-limits-adopted':
      return keepFirst(draft.checkLimitEditions, entry.body.adoptionId, entry, 'Limits');
    case 'gap-explained':
      return keepFirst(draft.gaps, entry.body.gapId, entry, 'Gap');
    case 'entries-lost':
      return null; // it is about the journal, not about what the journal says
    default:
      // A kind added to the schemas and forgotten here does not compile.
      return entry satisfies never;
  }
}
