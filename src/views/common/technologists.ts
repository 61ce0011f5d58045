/**
 * How far the technologists of one analyzer and route read apart. For teaching: nobody stands before anybody else but by the
 * alphabet. Pure.
 */
import {
  type Assessments,
  confidenceOfEach,
  type DlcoUnit,
  dlcoFromMlMinMmHg,
  type MeanDifference,
  meanDifference,
  type Quantity,
  type Route,
} from '../../core/index.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { quantities } from '../failures.ts';

/** Fewer do not show how somebody works: common practice, no source. */
export const fewestRuns = 5;

/** With which all intervals of a quantity together hold. */
const jointConfidence = 0.95;

export interface PractisedSeries {
  analyzerId: string;
  route: Route;
  /** Accepted runs of each technologist since the newest baseline began. */
  runsOf: ReadonlyMap<string, readonly LoggedRun[]>;
}

/** Every analyzer in use by each route that it was run by, in the order of the logbook, patient test before built-in. */
export function practisedSeries(
  logbook: Pick<Logbook, 'runs' | 'analyzers'>,
  assessments: Assessments,
): readonly PractisedSeries[] {
  const newestEpoch = new Map<string, number>();
  const runsOf = new Map<string, Map<string, LoggedRun[]>>();
  for (let index = logbook.runs.length - 1; index >= 0; index -= 1) {
    const run = logbook.runs[index];
    if (run === undefined || run.body.method !== 'syringe') continue;
    const { analyzerId, route, technologistId } = run.body;
    const { epoch } = run.simulation;
    if (epoch !== (newestEpoch.get(analyzerId) ?? epoch)) continue;
    newestEpoch.set(analyzerId, epoch);
    // A mean of accepted runs alone: a fault is the analyzer's, and nobody's way of working.
    if (assessments.outline(run.id)?.accepted !== true) continue;
    const key = `${analyzerId} ${route}`;
    const ofSeries = runsOf.get(key) ?? new Map<string, LoggedRun[]>();
    runsOf.set(key, ofSeries);
    const own = ofSeries.get(technologistId);
    if (own) own.push(run);
    else ofSeries.set(technologistId, [run]);
  }
  return [...logbook.analyzers.values()]
    .filter(({ retired }) => retired === null)
    .flatMap(({ id }) =>
      routes.flatMap((route) => {
        const found = runsOf.get(`${id} ${route}`);
        return found === undefined ? [] : [{ analyzerId: id, route, runsOf: found }];
      }),
    );
}

const routes: readonly Route[] = ['patient-test', 'built-in'];

/** At least two technologists have runs enough to be compared. */
export const isComparable = ({ runsOf }: PractisedSeries) =>
  [...runsOf.values()].filter(({ length }) => length >= fewestRuns).length >= 2;

export interface Practitioner {
  technologistId: string;
  initials: string;
  runs: number;
}

export interface TechnologistPair {
  one: Practitioner;
  other: Practitioner;
  /** Each by itself at 95 %; undefined where the readings of both are all alike. */
  byItself: MeanDifference | undefined;
  /** The same, for all pairs of the table to hold together at 95 %. */
  together: MeanDifference | undefined;
}

export interface Technique {
  /** By the alphabet. */
  compared: readonly Practitioner[];
  /** Those with fewer runs than it takes, by the alphabet. */
  leftOut: readonly Practitioner[];
  quantities: readonly { quantity: Quantity; unit: 'mL' | DlcoUnit; pairs: readonly TechnologistPair[] }[];
  /** From when to when the runs were made, in ms. */
  from: number;
  to: number;
}

export function compareTechnologists(
  { runsOf }: PractisedSeries,
  logbook: Pick<Logbook, 'technologists'>,
  assessments: Assessments,
): Technique {
  const all = [...runsOf]
    .map(([technologistId, runs]) => ({
      technologistId,
      initials: logbook.technologists.get(technologistId)?.initials ?? '?',
      runs: runs.length,
    }))
    .sort(byInitials);
  const compared = all.filter(({ runs }) => runs >= fewestRuns);
  const used = compared.flatMap(({ technologistId }) => runsOf.get(technologistId) ?? []);
  const times = used.map(({ simulation }) => simulation.at).sort((one, other) => one - other);
  const newest = used.find(({ simulation }) => simulation.at === times.at(-1));
  const dlcoUnit = newest?.body.reading.dlcoUnit ?? 'mL/min/mmHg';
  const pairs = compared.flatMap((one, index) => compared.slice(index + 1).map((other) => ({ one, other })));
  return {
    compared,
    leftOut: all.filter(({ runs }) => runs < fewestRuns),
    quantities: quantities.map((quantity) => {
      const unit = quantity === 'va' ? 'mL' : dlcoUnit;
      const values = (technologistId: string) =>
        (runsOf.get(technologistId) ?? []).flatMap((run) => readingOf(run, unit, assessments));
      return {
        quantity,
        unit,
        pairs: pairs.map(({ one, other }) => {
          const [ofOne, ofOther] = [values(one.technologistId), values(other.technologistId)];
          const confidence = confidenceOfEach(jointConfidence, pairs.length);
          return {
            one,
            other,
            byItself: meanDifference(ofOne, ofOther),
            together: meanDifference(ofOne, ofOther, confidence),
          };
        }),
      };
    }),
    from: times[0] ?? 0,
    to: times.at(-1) ?? 0,
  };
}

function readingOf(run: LoggedRun, unit: 'mL' | DlcoUnit, assessments: Assessments): number[] {
  const numbers = assessments.get(run.id)?.numbers;
  if (numbers === undefined) return [];
  return [unit === 'mL' ? numbers.simulatedVaL * 1000 : dlcoFromMlMinMmHg(numbers.dlcoMlMinMmHg, unit)];
}

/** Two people may have the same initials: then by the id, which says nothing of either. */
function byInitials(one: Practitioner, other: Practitioner): number {
  const key = ({ initials, technologistId }: Practitioner) => `${initials} ${technologistId}`;
  return key(one) < key(other) ? -1 : 1;
}
