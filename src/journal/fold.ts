/**
 * The fold from entries to logbook. It gives the same logbook whatever order the entries come in, so that two
 * workstations that hold the same entries show the same, however these reached them.
 */
import type { SeriesClosure, SimulationRun } from '../core/index.ts';
import type { Entry, EntryOf, RunBody } from './entries.ts';
import { bringsSomething, inFoldOrder } from './foldOrder.ts';
import { unknownReferences } from './foldReferences.ts';
import type {
  Analyzer,
  ImportBatch,
  Logbook,
  LogbookProblem,
  LoggedRun,
  Retirement,
  Syringe,
  Technologist,
} from './logbook.ts';
import { isSameRow } from './union.ts';

type Growing<T extends { history: readonly Entry[] }> = Omit<T, 'history'> & { history: Entry[] };

interface Draft {
  technologists: Map<string, Growing<Technologist>>;
  analyzers: Map<string, Growing<Analyzer>>;
  syringes: Map<string, Growing<Syringe>>;
  runs: Map<
    string,
    { entry: EntryOf<'run-recorded'>; amendments: EntryOf<'run-amended'>[]; voided: LoggedRun['voided'] }
  >;
  events: Map<string, EntryOf<'event-recorded'>>;
  baselineStarts: Map<string, EntryOf<'baseline-started'>>;
  closures: Map<string, EntryOf<'failure-closed'>>;
  imports: Map<string, ImportBatch>;
  keys: Map<string, EntryOf<'key-registered'>>;
}

/** What does not add up about an entry, as a sentence; null when all is well. */
type Complaint = string | null;

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

function apply(entry: Entry, draft: Draft): Complaint {
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
      return keepFirst(draft.runs, entry.body.runId, { entry, amendments: [], voided: null }, 'Run');
    case 'run-voided': {
      const run = draft.runs.get(entry.body.runId);
      if (!run) return `Voids run ${entry.body.runId}, which is not in the logbook.`;
      if (run.voided) return `Voids run ${entry.body.runId} a second time; the first time counts.`;
      run.voided = { at: entry.at, by: entry.by, reason: entry.body.reason };
      return null;
    }
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
    case 'import-voided': {
      const batch = draft.imports.get(entry.body.batchId);
      if (!batch) return `Voids import ${entry.body.batchId}, which is not in the logbook.`;
      if (batch.voided) return `Voids import ${entry.body.batchId} a second time; the first time counts.`;
      draft.imports.set(batch.id, {
        ...batch,
        voided: { at: entry.at, by: entry.by, reason: entry.body.reason },
      });
      return null;
    }
    case 'key-registered': {
      const complaint = keepFirst(draft.keys, entry.body.keyId, entry, 'Key');
      if (complaint !== null || entry.by === entry.body.technologistId) return complaint;
      return 'Registers a key in the name of somebody else; a key is registered by its owner.';
    }
    case 'event-recorded':
      return keepFirst(draft.events, entry.body.eventId, entry, 'Event');
    case 'baseline-started':
      return keepFirst(draft.baselineStarts, entry.body.baselineId, entry, 'Baseline');
    case 'failure-closed': {
      const complaint = keepFirst(draft.closures, entry.body.closureId, entry, 'Closure');
      if (complaint !== null) return complaint;
      // Their role as it was then: a later change of role is not applied yet.
      return draft.technologists.get(entry.by)?.role === 'technologist'
        ? 'Closes a failure, which only a supervisor may; its author was none at that time.'
        : null;
    }
    case 'entries-lost':
      return null; // it is about the journal, not about what the journal says
    default:
      // A kind added to the schemas and forgotten here does not compile.
      return entry satisfies never;
  }
}

/** How many baselines of an analyzer had been started when a run was made: the core's epoch. */
export function epochAt(
  baselineStarts: readonly EntryOf<'baseline-started'>[],
  analyzerId: string,
  madeAt: string,
): number {
  return baselineStarts.filter(({ body }) => body.analyzerId === analyzerId && body.from <= madeAt).length;
}

type SimulatedFields =
  | 'runId'
  | 'madeAt'
  | 'analyzerId'
  | 'method'
  | 'route'
  | 'ambient'
  | 'conversion'
  | 'reading'
  | 'syringe'
  | 'analyzerDeadSpaceL'
  | 'limits';

/** A run as the core reads it: its numbers, its epoch, and whether it takes part in anything. */
export function simulationOf(
  body: Pick<RunBody, SimulatedFields>,
  place: { epoch: number; excluded: boolean },
): SimulationRun {
  return {
    id: body.runId,
    at: Date.parse(body.madeAt),
    analyzerId: body.analyzerId,
    method: body.method,
    route: body.route,
    epoch: place.epoch,
    ambient: body.ambient,
    conversion: body.conversion,
    reading: body.reading,
    syringe: body.syringe,
    analyzerDeadSpaceL: body.analyzerDeadSpaceL,
    limits: body.limits,
    excluded: place.excluded,
  };
}

/** The closures as the core's `assessRuns` takes them: one for each series that an entry closes. */
export function seriesClosures({ closures }: Pick<Logbook, 'closures'>): SeriesClosure[] {
  return closures.flatMap(({ body: { analyzerId, failures, closedAt } }) =>
    failures.map(({ method, route, quantity }) => ({
      analyzerId,
      method,
      route,
      quantity,
      at: Date.parse(closedAt),
    })),
  );
}

export function foldJournal(entries: readonly Entry[]): Logbook {
  const draft: Draft = {
    technologists: new Map(),
    analyzers: new Map(),
    syringes: new Map(),
    runs: new Map(),
    events: new Map(),
    baselineStarts: new Map(),
    closures: new Map(),
    imports: new Map(),
    keys: new Map(),
  };
  const problems: LogbookProblem[] = [];
  const report = (entry: Entry, complaint: Complaint) => {
    if (complaint !== null) problems.push({ entryId: entry.id, sentence: complaint });
  };

  const byId = new Map<string, Entry>();
  for (const entry of inFoldOrder(entries)) {
    const first = byId.get(entry.id);
    if (first === undefined) byId.set(entry.id, entry);
    else if (!isSameRow(first, entry))
      report(entry, 'Two different entries have this id; the earlier one counts.');
  }
  const ordered = [...byId.values()];
  for (const entry of ordered) if (bringsSomething(entry)) report(entry, apply(entry, draft));
  for (const entry of ordered) if (!bringsSomething(entry)) report(entry, apply(entry, draft));
  for (const entry of ordered)
    for (const complaint of unknownReferences(entry, draft)) report(entry, complaint);

  const baselineStarts = [...draft.baselineStarts.values()];
  const runs = [...draft.runs.values()].map(({ entry, amendments, voided }): LoggedRun => {
    // An amendment holds the whole run as it should have been: the newest one is the run as it stands.
    const body = { ...entry.body, ...amendments.at(-1)?.body.run };
    const epoch = epochAt(baselineStarts, body.analyzerId, body.madeAt);
    const batch = body.origin.kind === 'import' ? draft.imports.get(body.origin.batchId) : undefined;
    const isVoided = voided ?? batch?.voided ?? null;
    return {
      id: body.runId,
      entry,
      body,
      amendments,
      voided: isVoided,
      simulation: simulationOf(body, { epoch, excluded: isVoided !== null }),
    };
  });
  // sort is stable: runs made at one instant stay in fold order.
  runs.sort((a, b) => a.simulation.at - b.simulation.at);

  let newestAt: string | null = null;
  for (const { at } of ordered) if (newestAt === null || at > newestAt) newestAt = at;
  return {
    technologists: draft.technologists,
    analyzers: draft.analyzers,
    syringes: draft.syringes,
    runs,
    events: [...draft.events.values()],
    baselineStarts,
    closures: [...draft.closures.values()],
    imports: draft.imports,
    keys: draft.keys,
    problems,
    entryCount: ordered.length,
    newestAt,
  };
}
