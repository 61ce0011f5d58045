/**
 * The fold from entries to logbook. It gives the same logbook whatever order the entries come in, so that two
 * workstations that hold the same entries show the same, however these reached them.
 */
import type { SeriesClosure, SimulationRun } from '../core/index.ts';
import { applyEntry, type Complaint, type Draft, type DraftRun } from './applyEntry.ts';
import type { Entry, EntryOf, RunBody } from './entries.ts';
import { bringsSomething, inFoldOrder } from './foldOrder.ts';
import { unknownReferences } from './foldReferences.ts';
import type { Logbook, LogbookProblem, LoggedControl, LoggedRun } from './logbook.ts';
import { subjectStateAt } from './standing.ts';
import { isSameRow } from './union.ts';

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

/** A run with all that was said about it later. */
export function loggedRun(
  { entry, amendments, voided, setAside }: DraftRun,
  baselineStarts: Logbook['baselineStarts'],
  imports: Logbook['imports'],
): LoggedRun {
  // An amendment holds the whole run as it should have been, and what it leaves out is no longer said.
  const { runId, origin, judged } = entry.body;
  const body = { ...(amendments.at(-1)?.body.run ?? entry.body), runId, origin, judged };
  const epoch = epochAt(baselineStarts, body.analyzerId, body.madeAt);
  const batch = body.origin.kind === 'import' ? imports.get(body.origin.batchId) : undefined;
  const isVoided = voided ?? batch?.voided ?? null;
  return {
    id: body.runId,
    entry,
    body,
    amendments,
    voided: isVoided,
    setAside,
    simulation: simulationOf(body, { epoch, excluded: isVoided !== null || setAside !== null }),
  };
}

/** So many entries are read between two chances to do something else: a few milliseconds. */
const foldedAtOnce = 2000;

function* inSteps<T>(things: Iterable<T>, take: (thing: T) => void): Generator<void, void> {
  let taken = 0;
  for (const thing of things) {
    take(thing);
    taken += 1;
    if (taken % foldedAtOnce === 0) yield;
  }
}

export function foldJournal(entries: readonly Entry[]): Logbook {
  const steps = foldInSteps(entries);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The same, for a page that has more to do: it yields every few milliseconds. */
export function* foldInSteps(entries: readonly Entry[]): Generator<void, Logbook> {
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
    cylinders: new Map(),
    fittings: new Map(),
    services: new Map(),
    drops: new Map(),
    checks: new Map(),
    schedules: new Map(),
    laboratory: new Map(),
    limitEditions: new Map(),
    policies: new Map(),
    actions: new Map(),
    lookBacks: new Map(),
    closingRules: new Map(),
    acceptedBaselines: new Map(),
    signOffs: new Map(),
    subjects: new Map(),
    subjectStates: new Map(),
    controls: new Map(),
    controlClosures: new Map(),
    checkLimitEditions: new Map(),
    gaps: new Map(),
  };
  const problems: LogbookProblem[] = [];
  const report = (entry: Entry, complaint: Complaint) => {
    if (complaint !== null) problems.push({ entryId: entry.id, sentence: complaint });
  };

  const byId = new Map<string, Entry>();
  yield* inSteps(inFoldOrder(entries), (entry) => {
    const first = byId.get(entry.id);
    if (first === undefined) byId.set(entry.id, entry);
    else if (!isSameRow(first, entry))
      report(entry, 'Two different entries have this id; the earlier one counts.');
  });
  const ordered = [...byId.values()];
  yield* inSteps(ordered, (entry) => {
    if (bringsSomething(entry)) report(entry, applyEntry(entry, draft));
  });
  yield* inSteps(ordered, (entry) => {
    if (!bringsSomething(entry)) report(entry, applyEntry(entry, draft));
  });
  yield* inSteps(ordered, (entry) => {
    for (const complaint of unknownReferences(entry, draft)) report(entry, complaint);
  });

  const baselineStarts = [...draft.baselineStarts.values()];
  const runs: LoggedRun[] = [];
  yield* inSteps(draft.runs.values(), (drafted) => {
    runs.push(loggedRun(drafted, baselineStarts, draft.imports));
  });
  // sort is stable: runs made at one instant stay in fold order.
  runs.sort((a, b) => a.simulation.at - b.simulation.at);

  const subjectStates = [...draft.subjectStates.values()];
  const controls = [...draft.controls.values()].map(
    ({ entry, amendments, voided, setAside }): LoggedControl => {
      const control = (amendments.at(-1) ?? entry).body.control;
      const isOfExcluded =
        control.kind === 'biological' &&
        subjectStateAt({ subjectStates }, control.subjectId, control.madeAt) === 'excluded';
      return {
        id: entry.body.controlId,
        entry,
        control,
        amendments,
        voided,
        setAside,
        at: Date.parse(control.madeAt),
        epoch: epochAt(baselineStarts, control.analyzerId, control.madeAt),
        excluded: voided !== null || setAside !== null || isOfExcluded,
      };
    },
  );
  controls.sort((a, b) => a.at - b.at);

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
    cylinders: draft.cylinders,
    fittings: [...draft.fittings.values()],
    services: [...draft.services.values()],
    drops: [...draft.drops.values()],
    checks: [...draft.checks.values()],
    schedules: [...draft.schedules.values()],
    laboratory: [...draft.laboratory.values()],
    limitEditions: [...draft.limitEditions.values()],
    policies: [...draft.policies.values()],
    actions: [...draft.actions.values()],
    lookBacks: [...draft.lookBacks.values()],
    closingRules: [...draft.closingRules.values()],
    acceptedBaselines: [...draft.acceptedBaselines.values()],
    signOffs: [...draft.signOffs.values()],
    subjects: draft.subjects,
    subjectStates,
    controls,
    controlClosures: [...draft.controlClosures.values()],
    checkLimitEditions: [...draft.checkLimitEditions.values()],
    gaps: [...draft.gaps.values()],
    problems,
    entryCount: ordered.length,
    newestAt,
  };
}
