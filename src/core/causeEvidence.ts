import type { EvidenceId } from './causeTable.ts';
import { medianPolish } from './medianPolish.ts';

export type Movement = 'high' | 'low' | 'good';

/** What was observed about a failed run, as far as it is known; undefined is "not known". */
export interface Observations {
  va?: Movement | undefined;
  /** Distance of simulated VA from its usual value, as a fraction of it. */
  vaFraction?: number | undefined;
  dlco?: Movement | undefined;
  /** Distance of the volume check from what is expected, as a fraction. */
  volumeCheckFraction?: number | undefined;
  /** Tolerance of the volume check. */
  volumeCheckLimit?: number | undefined;
  /** The same quantity through the other route on the same day. */
  otherRoute?: Movement | undefined;
  /** See `splitShift`. */
  acrossAnalyzers?: ShiftSplit | undefined;
  /** Weeks on end with the same temperature and pressure typed, this one included. */
  weeksOfSameConditions?: number | undefined;
  /** Events logged on the analyzer, and between which two moments (ms) the change is likely to have begun. */
  events?: readonly { id: string; at: number }[] | undefined;
  onset?: { after: number; before: number } | undefined;
  biologicalControl?: 'good' | 'off' | undefined;
  /** What was off, in a run made after the conditions were read anew. */
  afterReadingConditions?: Movement | undefined;
  /** What was off, in a run made after the gas analyzers were zeroed and the cylinder's concentrations checked. */
  afterGasCheck?: Movement | undefined;
}

export interface Evidence {
  id: EvidenceId;
  /** The events it rests on, when it rests on events. */
  eventIds: readonly string[];
}

/** Fractions this close together are "about the same": the tolerance of the volume check itself would be too wide. */
const sameFraction = 0.02;

/** Common practice, no source: weather does not stand still for four weeks. */
const weeksOfSuspicion = 4;

/** Turns observations into the evidence that the rules ask for. What is not known gives none. */
export function evidenceOf(seen: Observations): readonly Evidence[] {
  const ids: (EvidenceId | null)[] = [
    seen.va === undefined ? null : `va-${seen.va}`,
    seen.dlco === undefined ? null : seen.dlco === 'good' ? 'dlco-good' : 'dlco-off',
    seen.va === 'good' && seen.dlco === 'good' ? 'simulation-good' : null,
    volumeCheckEvidence(seen),
    routeEvidence(seen),
    acrossEvidence(seen.acrossAnalyzers),
    (seen.weeksOfSameConditions ?? 0) >= weeksOfSuspicion ? 'same-conditions-typed' : null,
    seen.biologicalControl === 'off' ? 'biological-control-off' : null,
    afterEvidence(seen.afterReadingConditions, 'good-after-conditions', 'off-after-conditions'),
    afterEvidence(seen.afterGasCheck, 'good-after-gas-check', 'off-after-gas-check'),
  ];
  const evidence = ids.flatMap((id): Evidence[] => (id === null ? [] : [{ id, eventIds: [] }]));
  return [...evidence, ...eventEvidence(seen)];
}

function volumeCheckEvidence(seen: Observations): EvidenceId | null {
  const { volumeCheckFraction: fraction, volumeCheckLimit: limit = 0.03, vaFraction } = seen;
  if (fraction === undefined) return null;
  if (Math.abs(fraction) <= limit) return 'volume-check-good';
  const isAlike = vaFraction !== undefined && Math.abs(fraction - vaFraction) <= sameFraction;
  const isOut = seen.va === 'high' || seen.va === 'low';
  return isAlike && isOut ? 'volume-check-off-with-va' : 'volume-check-off-alone';
}

function routeEvidence({ va, dlco, otherRoute }: Observations): EvidenceId | null {
  const off = va === 'high' || va === 'low' ? va : dlco;
  if (otherRoute === undefined || off === undefined || off === 'good') return null;
  if (otherRoute === 'good') return 'other-route-good';
  return otherRoute === off ? 'other-route-off-alike' : null;
}

function acrossEvidence(split: ShiftSplit | undefined): EvidenceId | null {
  if (split === undefined) return null;
  if (split.kind === 'common') return 'all-analyzers-moved';
  return split.kind === 'own' ? 'only-this-analyzer-moved' : null;
}

function afterEvidence(
  movement: Movement | undefined,
  ifGood: EvidenceId,
  ifOff: EvidenceId,
): EvidenceId | null {
  if (movement === undefined) return null;
  return movement === 'good' ? ifGood : ifOff;
}

function eventEvidence({ events, onset }: Observations): readonly Evidence[] {
  if (events === undefined || onset === undefined) return [];
  const eventIds = events.filter(({ at }) => at >= onset.after && at <= onset.before).map(({ id }) => id);
  return [{ id: eventIds.length > 0 ? 'begins-at-event' : 'no-event-near', eventIds }];
}

export interface ShiftSplit {
  /** Shift that the analyzers of the day have in common, in SD. */
  commonSd: number;
  /** What the analyzer's own shift is besides, in SD. */
  ownSd: number;
  kind: 'common' | 'own' | 'both' | 'neither';
}

/** SDs beyond which a part of a shift counts. */
const countsFromSd = 2;

/** Fewer analyzers cannot tell whose shift it is. */
const fewestAnalyzers = 3;

/**
 * Splits the shift of each analyzer on the last of some days into what all analyzers tested with the same syringe have in
 * common on that day and what is its own. `z[a][d]` is the z of analyzer `a` on day `d`, null when it was not tested.
 * Undefined for an analyzer that was not tested on the last day, and for all of them where fewer than three were. Robust: one
 * analyzer that is far out does not count as common.
 * Method: two-way fit by median polish; see medianPolish.ts.
 * @throws {RangeError} if rows differ in length or a z is not finite.
 * @example splitShifts([[2.5], [2.4], [7]]) // 2.5 SD in common; their own are 0, −0.1 and 4.5 SD
 */
export function splitShifts(z: readonly (readonly (number | null)[])[]): readonly (ShiftSplit | undefined)[] {
  const last = (z[0]?.length ?? 0) - 1;
  const fit = medianPolish(z);
  const commonSd = fit.overall + (fit.columns[last] ?? 0);
  const isTold = z.filter((row) => typeof row[last] === 'number').length >= fewestAnalyzers;
  return z.map((row) => {
    const own = row[last];
    return isTold && typeof own === 'number' ? splitOf(own, commonSd) : undefined;
  });
}

/**
 * The split of one of the analyzers, as `splitShifts` gives it for each of them.
 * @throws {RangeError} as `splitShifts` does, and if the analyzer is none of them or not tested on the last day.
 */
export function splitShift(
  z: readonly (readonly (number | null)[])[],
  analyzer: number,
): ShiftSplit | undefined {
  if (typeof z[analyzer]?.at(-1) !== 'number') {
    throw new RangeError(`splitShift: analyzer is ${analyzer}, which has no z on the last day`);
  }
  return splitShifts(z)[analyzer];
}

function splitOf(z: number, commonSd: number): ShiftSplit {
  const ownSd = z - commonSd;
  const isCommon = Math.abs(commonSd) > countsFromSd;
  const isOwn = Math.abs(ownSd) > countsFromSd;
  const kind = isCommon ? (isOwn ? 'both' : 'common') : isOwn ? 'own' : 'neither';
  return { commonSd, ownSd, kind };
}
