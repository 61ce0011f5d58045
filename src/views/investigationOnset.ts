/** When what is looked into began, and what was done to the analyzer about then. Pure. */
import { type Assessments, lookBack, type Quantity } from '../core/index.ts';
import type { Entry, EntryOf } from '../journal/entries.ts';
import type { Logbook, LoggedRun } from '../journal/logbook.ts';
import { evaluationOf } from './failures.ts';
import { isOfSameSeries } from './investigationShift.ts';
import { eventWords } from './parts/words.ts';

/** Times in ms. The change began after the one moment and not after the other. */
export interface Onset {
  after: number;
  before: number;
}

/** From the earliest run that may already have been made with the fault to the run itself; undefined where no run tells. */
export function onsetOf(
  about: LoggedRun,
  quantity: Quantity,
  { runs, assessments }: { runs: readonly LoggedRun[]; assessments: Assessments },
): Onset | undefined {
  const series = runs.flatMap((run) => {
    const assessment = isOfSameSeries(run, about) ? assessments.get(run.id) : undefined;
    return assessment === undefined ? [] : [{ run, evaluation: evaluationOf(assessment, quantity) }];
  });
  const back = lookBack({
    points: series.map(({ run: { id, simulation } }) => ({
      id,
      at: simulation.at,
      // lookBack reads the evaluations: the value itself plays no part.
      value: 0,
      epoch: simulation.epoch,
      excluded: simulation.excluded && id !== about.id,
    })),
    evaluations: series.map(({ evaluation }) => evaluation),
    failingRunId: about.id,
  });
  const { earliestOnsetAfter } = back;
  // Before the first run that was judged: then after the last one that could not be.
  const unjudged = series.findLast(
    ({ run: { simulation }, evaluation: { accepted, z } }) =>
      accepted &&
      z === null &&
      simulation.epoch === about.simulation.epoch &&
      simulation.at < about.simulation.at,
  );
  const after =
    earliestOnsetAfter === undefined
      ? back.lastGood?.at
      : (earliestOnsetAfter?.at ?? unjudged?.run.simulation.at);
  return after === undefined ? undefined : { after, before: about.simulation.at };
}

export interface Happening {
  id: string;
  at: number;
  sentence: string;
}

/** What was done to an analyzer, oldest first: events, cylinders fitted, a return to service, its settings changed. */
export function happeningsOf(analyzerId: string, logbook: Logbook): readonly Happening[] {
  const events = logbook.events
    .filter(({ body }) => body.analyzerId === analyzerId)
    .map(({ body }) => ({
      id: body.eventId,
      at: Date.parse(body.happenedAt),
      sentence: `${eventWords[body.type]}: ${body.description}`,
    }));
  // A fitting is written together with its event, which says the same.
  const told = new Set(
    logbook.events.flatMap(({ body: { type, analyzerId: on, happenedAt } }) =>
      type === 'cylinder' && on === analyzerId ? [happenedAt] : [],
    ),
  );
  const fittings = logbook.fittings
    .filter(({ body }) => body.analyzerId === analyzerId && !told.has(body.fittedAt))
    .map(({ body }) => ({
      id: body.fittingId,
      at: Date.parse(body.fittedAt),
      sentence: `Cylinder fitted: ${nameOfCylinder(logbook, body.cylinderId)}`,
    }));
  const services = logbook.services
    .filter(({ body }) => body.analyzerId === analyzerId && body.inService)
    .map(({ body }) => ({
      id: body.serviceId,
      at: Date.parse(body.from),
      sentence: `Back in service: ${body.reason}`,
    }));
  const changes = settingsChanged(logbook.analyzers.get(analyzerId)?.history ?? []).map(
    ({ id, at, body }) => ({ id, at: Date.parse(at), sentence: `Settings changed: ${body.reason}` }),
  );
  return [...events, ...fittings, ...services, ...changes].sort((one, other) => one.at - other.at);
}

/** Not what it is called or where it stands: nothing was done to it by that, and what is found later still counts. */
function settingsChanged(history: readonly Entry[]): EntryOf<'analyzer-changed'>[] {
  let before = '';
  return history.flatMap((entry) => {
    if (entry.kind !== 'analyzer-added' && entry.kind !== 'analyzer-changed') return [];
    const { conversion, vaReportedAs, analyzerDeadSpaceL, volumeInsideL, gasAnalysis, tracer, syringeId } =
      entry.body;
    const settings = JSON.stringify([
      [conversion.kind, conversion.kind === 'fixed' ? conversion.factor : conversion.assumed],
      [vaReportedAs, analyzerDeadSpaceL, volumeInsideL, gasAnalysis, tracer, syringeId],
    ]);
    const isOther = settings !== before;
    before = settings;
    return entry.kind === 'analyzer-changed' && isOther ? [entry] : [];
  });
}

function nameOfCylinder({ cylinders }: Logbook, cylinderId: string | null): string {
  if (cylinderId === null) return 'none';
  return cylinders.get(cylinderId)?.description.label ?? 'unknown';
}
