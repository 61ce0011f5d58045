/** Every baseline of the series of a package: the accepted runs or controls that the limits of an epoch rest on. */
import {
  biologicalPolicy,
  type ControlPolicy,
  mean,
  type PointEvaluation,
  policyAt,
  type Quantity,
  sampleSd,
} from '../../core/index.ts';
import type { EntryOf, SeriesName } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { policyStepsOf } from '../../journal/standing.ts';
import type { Chosen } from './chosen.ts';
import type { PackageSource } from './source.ts';

interface BaselineSeries {
  of: 'run' | 'biological' | 'simulator';
  analyzerId: string;
  /** Of runs alone. */
  run: Pick<SeriesName, 'method' | 'route'> | null;
  subjectId: string | null;
  part: 'va' | 'dlco' | 'low' | 'high';
}

interface Point {
  id: string;
  /** ISO 8601 instant. */
  madeAt: string;
  epoch: number;
  value: number;
  accepted: boolean;
}

export interface Baseline {
  logbook: Logbook;
  series: BaselineSeries;
  epoch: number;
  /** What the epoch began with; null for the first. */
  start: EntryOf<'baseline-started'> | null;
  /** What the next one began with; null where this one is in force at the period's end. */
  next: EntryOf<'baseline-started'> | null;
  /** Runs or controls of the epoch up to the period's end, struck out ones apart. */
  made: number;
  accepted: number;
  state: 'too-few' | 'provisional' | 'frozen' | 'rolling';
  /** Of those that the limits rest on; mean and SD null while they are too few to judge by. */
  n: number;
  mean: number | null;
  sd: number | null;
  /** The newest acceptance of this baseline by a supervisor. */
  acceptance: EntryOf<'baseline-accepted'> | null;
}

interface Collected {
  series: BaselineSeries;
  points: Point[];
}

export function baselinesOf(source: PackageSource, chosen: Chosen): readonly Baseline[] {
  return [...runSeries(source, chosen), ...controlSeries(source, chosen)].flatMap((collected) =>
    epochsOf(collected, source.logbook, chosen),
  );
}

const quantities: readonly Quantity[] = ['va', 'dlco'];

class Collection {
  readonly #known = new Map<string, Collected>();

  add(series: BaselineSeries, point: Point): void {
    const key = JSON.stringify([series.of, series.analyzerId, series.run, series.subjectId, series.part]);
    const known = this.#known.get(key);
    if (known) known.points.push(point);
    else this.#known.set(key, { series, points: [point] });
  }

  values = () => [...this.#known.values()];
}

function runSeries({ logbook, assessments }: PackageSource, chosen: Chosen): readonly Collected[] {
  const collection = new Collection();
  for (const { id, body, simulation, voided } of logbook.runs) {
    const { analyzerId, method, route, madeAt } = body;
    if (voided !== null || !chosen.concerns(analyzerId) || madeAt >= chosen.end) continue;
    const assessment = assessments.get(id);
    if (assessment === undefined) continue;
    for (const part of quantities) {
      const { accepted } = assessment[part];
      const { numbers } = assessment;
      const value = part === 'va' ? numbers.simulatedVaL : numbers.dlcoMlMinMmHg;
      const series = { of: 'run' as const, analyzerId, run: { method, route }, subjectId: null, part };
      collection.add(series, { id, madeAt, epoch: simulation.epoch, value, accepted });
    }
  }
  return collection.values();
}

function controlSeries({ logbook, controls }: PackageSource, chosen: Chosen): readonly Collected[] {
  const collection = new Collection();
  for (const { id, control, epoch, voided } of logbook.controls) {
    const { analyzerId, madeAt, kind: of } = control;
    if (voided !== null || !chosen.concerns(analyzerId) || madeAt >= chosen.end) continue;
    const assessment = controls.get(id);
    if (assessment === undefined) continue;
    const add = (part: BaselineSeries['part'], value: number, { accepted }: PointEvaluation) => {
      const subjectId = control.kind === 'biological' ? control.subjectId : null;
      collection.add({ of, analyzerId, run: null, subjectId, part }, { id, madeAt, epoch, value, accepted });
    };
    if ('levels' in assessment) {
      for (const { level, deviationMlMinMmHg, evaluation } of assessment.levels)
        add(level, deviationMlMinMmHg, evaluation);
    } else {
      add('dlco', assessment.dlcoMlMinMmHg, assessment.dlco);
      add('va', assessment.vaL, assessment.va);
    }
  }
  return collection.values();
}

/** Those in force on any day of the period in which something had been made. */
function epochsOf({ series, points }: Collected, logbook: Logbook, chosen: Chosen): readonly Baseline[] {
  const starts = logbook.baselineStarts
    .filter(({ body }) => body.analyzerId === series.analyzerId && body.from < chosen.end)
    .toSorted((one, other) => Date.parse(one.body.from) - Date.parse(other.body.from));
  return [null, ...starts].flatMap((start, epoch): Baseline[] => {
    const next = starts[epoch] ?? null;
    const own = points.filter((point) => point.epoch === epoch);
    if (own.length === 0 || (next !== null && next.body.from <= chosen.start)) return [];
    const accepted = own.filter((point) => point.accepted);
    const limits = limitsOf(accepted, policyOf(series, logbook, next?.body.from ?? chosen.end));
    const acceptance = acceptanceOf(series, own, logbook);
    return [
      {
        logbook,
        series,
        epoch,
        start,
        next,
        made: own.length,
        accepted: accepted.length,
        acceptance,
        ...limits,
      },
    ];
  });
}

/** The policy of the last millisecond before an instant. */
function policyOf(series: BaselineSeries, logbook: Logbook, before: string): ControlPolicy {
  const policy = policyAt(policyStepsOf(logbook, series.analyzerId), Date.parse(before) - 1);
  return series.of === 'biological' ? biologicalPolicy(policy) : policy;
}

function limitsOf(
  accepted: readonly Point[],
  { limits, baselineSize, minimumSize }: ControlPolicy,
): Pick<Baseline, 'state' | 'n' | 'mean' | 'sd'> {
  const members = limits === 'baseline' ? accepted.slice(0, baselineSize) : accepted.slice(-baselineSize);
  const values = members.map(({ value }) => value);
  const n = values.length;
  if (n < minimumSize) return { state: 'too-few', n, mean: null, sd: null };
  const full = limits === 'rolling' ? 'rolling' : n < baselineSize ? 'provisional' : 'frozen';
  return { state: full, n, mean: mean(values) ?? null, sd: sampleSd(values) ?? null };
}

function acceptanceOf(
  { analyzerId, run, part }: BaselineSeries,
  own: readonly Point[],
  { acceptedBaselines }: Logbook,
): EntryOf<'baseline-accepted'> | null {
  if (run === null) return null;
  const ids = new Set(own.map(({ id }) => id));
  return (
    acceptedBaselines.findLast(
      ({ body: { series, runIds, analyzerId: of } }) =>
        of === analyzerId &&
        series.method === run.method &&
        series.route === run.route &&
        series.quantity === part &&
        runIds.some((id) => ids.has(id)),
    ) ?? null
  );
}
