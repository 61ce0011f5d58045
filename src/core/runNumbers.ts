import {
  isDlcoWithinPublished,
  isVaWithinPublished,
  type PublishedLimits,
  requirePublishedLimits,
} from './fixedLimits.ts';
import type { Ambient, GasCondition } from './gas.ts';
import { coTracerDisagreement, type DlcoUnit, dlcoInMlMinMmHg } from './singleBreath.ts';
import {
  ambientFactor,
  areVolumesPossible,
  type Conversion,
  customaryFixedFactor,
  expectedVolumeCheckL,
  simulatedVa,
  volumeFound,
} from './syringe.ts';

/** The numbers that the analyzer reported. */
export interface RunReading {
  vaL: number;
  vaReportedAs: GasCondition;
  dlco: number;
  dlcoUnit: DlcoUnit;
  /** In the same condition as VA. */
  inspiredVolumeL?: number | undefined;
  /** The syringe's stroke as a vital capacity, BTPS. */
  volumeCheckL?: number | undefined;
  breathHoldS?: number | undefined;
}

/** The syringe as it was used. */
export interface SyringeSetUp {
  /** Nominal volume drawn in, ambient: 3 L, or 2 L with 1 L left inside. */
  strokeL: number;
  /** Room air inside before the manoeuvre: 0 or 1 L. */
  volumeInsideL: number;
  /** What the plunger cannot expel, with any hose or filter left on it. */
  deadSpaceL: number;
}

/** What `reduceRun` reads of a run. */
export interface RunInputs {
  ambient: Ambient;
  conversion: Conversion;
  reading: RunReading;
  syringe: SyringeSetUp;
  analyzerDeadSpaceL: number;
  limits: PublishedLimits;
}

/** Volumes in litres, ambient unless named otherwise. */
export interface RunNumbers {
  /** Multiplies a reported volume to give ambient litres. */
  factor: number;
  /** The reported VA in ambient litres. */
  ambientVaL: number;
  /** As reported and converted, or the nominal stroke when it was not recorded. */
  inspiredVolumeL: number;
  /** `ambientVaL` with what the analyzer subtracted put back: all that lay between plunger and valve. */
  totalVolumeL: number;
  /** From `totalVolumeL` to `simulatedVaL`: the syringe's dead space. */
  deadSpaceTakenOffL: number;
  simulatedVaL: number;
  /** Nominal: a volume the analyzer measured wrongly must not move its own target. */
  targetVaL: number;
  vaOffTargetMl: number;
  /**
   * What the other choice would have given: the customary fixed factor where the computed one is in force, the
   * computed dry one where a fixed one is. Null when VA was not reported in BTPS, where neither applies, and when
   * the other would leave no more inspired than the analyzer subtracts.
   */
  otherConversion: { conversion: Conversion; factor: number; simulatedVaL: number } | null;
  /** The value of the DLCO series, whatever the unit it was reported in. */
  dlcoMlMinMmHg: number;
  /** Fraction by which CO reads low against the tracer; null when VA was not reported in BTPS. */
  coTracerDisagreement: number | null;
  /** The breath-hold time that the disagreement rests on, and whether it was recorded or taken to be the target. */
  breathHoldS: number;
  breathHoldAssumed: boolean;
  /** What the volume check should read, BTPS. */
  expectedVolumeCheckL: number;
  /** How far it read from that, as a fraction; null when it was not recorded. */
  volumeCheckFraction: number | null;
  vaWithinPublished: boolean;
  dlcoWithinPublished: boolean;
}

const computedDry: Conversion = { kind: 'computed', assumed: 'ATPD' };
const customaryFixed: Conversion = { kind: 'fixed', factor: customaryFixedFactor };

/**
 * All that one run's recorded numbers say by themselves, without any other run.
 * @throws {RangeError} if a number is impossible, or the inspired volume does not exceed what the analyzer subtracts.
 * @example 3.45 L BTPS at 22 °C and 760 mmHg, 3 L drawn in, 0.110 L dead space: simulated VA 2.970 L, 30 mL below its target
 */
export function reduceRun(run: RunInputs): RunNumbers {
  const { ambient, conversion, reading, syringe, limits } = run;
  requireConduct(run);
  const { factor, inspiredVolumeL, ambientVaL, simulatedVaL } = convert(run, conversion);
  const targetVaL = targetOf(syringe);
  const expected = expectedVolumeCheckL({ strokeL: targetVaL, ambient, conversion });
  const dlcoMlMinMmHg = dlcoInMlMinMmHg(reading.dlco, reading.dlcoUnit);
  const breathHoldS = reading.breathHoldS ?? limits.breathHoldS.target;
  const isBtps = reading.vaReportedAs === 'BTPS';
  return {
    factor,
    ambientVaL,
    inspiredVolumeL,
    totalVolumeL: simulatedVaL + syringe.deadSpaceL,
    deadSpaceTakenOffL: syringe.deadSpaceL,
    simulatedVaL,
    targetVaL,
    vaOffTargetMl: (simulatedVaL - targetVaL) * 1000,
    otherConversion: isBtps ? otherOutcome(run) : null,
    dlcoMlMinMmHg,
    coTracerDisagreement: isBtps
      ? coTracerDisagreement({ dlcoMlMinMmHg, vaBtpsL: reading.vaL, breathHoldS })
      : null,
    breathHoldS,
    breathHoldAssumed: reading.breathHoldS === undefined,
    expectedVolumeCheckL: expected,
    volumeCheckFraction: reading.volumeCheckL === undefined ? null : reading.volumeCheckL / expected - 1,
    vaWithinPublished: isVaWithinPublished(simulatedVaL, targetVaL, limits),
    dlcoWithinPublished: isDlcoWithinPublished(reading.dlco, reading.dlcoUnit, limits),
  };
}

/**
 * Of `reduceRun` only what a series is made of: the simulated VA, in litres. It refuses whatever `reduceRun` refuses, so
 * that a run that has entered a series can be read in full later.
 * @throws {RangeError} as `reduceRun` does.
 */
export function checkedVaL(run: RunInputs): number {
  const { reading, ambient, conversion, syringe, analyzerDeadSpaceL } = run;
  requireConduct(run);
  // What the volume check should read rests on the factor of BTPS, whatever VA was reported in.
  if (reading.vaReportedAs !== 'BTPS') ambientFactor('BTPS', ambient, conversion);
  const factor = ambientFactor(reading.vaReportedAs, ambient, conversion);
  const inspiredL = inspiredBy(run, factor);
  // Without the objects that simulatedVa takes and gives: a third of a gigabyte of them for a million runs.
  if (areVolumesPossible(reading.vaL, inspiredL, syringe.deadSpaceL, analyzerDeadSpaceL)) {
    return volumeFound(factor * reading.vaL, inspiredL, syringe.deadSpaceL, analyzerDeadSpaceL);
  }
  return convert(run, conversion).simulatedVaL;
}

/** Nominal: a volume the analyzer measured wrongly must not move its own target. */
export function targetOf(syringe: SyringeSetUp): number {
  return syringe.strokeL + syringe.volumeInsideL;
}

function convert(run: RunInputs, conversion: Conversion) {
  const { ambient, reading, syringe, analyzerDeadSpaceL } = run;
  const factor = ambientFactor(reading.vaReportedAs, ambient, conversion);
  const inspiredVolumeL = inspiredBy(run, factor);
  const { ambientVaL, simulatedVaL } = simulatedVa({
    reportedVaL: reading.vaL,
    reportedAs: reading.vaReportedAs,
    ambient,
    conversion,
    syringeDeadSpaceL: syringe.deadSpaceL,
    analyzerDeadSpaceL,
    inspiredVolumeL,
  });
  return { factor, inspiredVolumeL, ambientVaL, simulatedVaL };
}

function inspiredBy(run: RunInputs, factor: number): number {
  const { inspiredVolumeL } = run.reading;
  return inspiredVolumeL === undefined ? run.syringe.strokeL : inspiredVolumeL * factor;
}

function otherOutcome(run: RunInputs): RunNumbers['otherConversion'] {
  const conversion = run.conversion.kind === 'computed' ? customaryFixed : computedDry;
  const factor = ambientFactor(run.reading.vaReportedAs, run.ambient, conversion);
  // The choice in force is possible; the other may leave less inspired than the analyzer takes off.
  if (inspiredBy(run, factor) <= run.analyzerDeadSpaceL) return null;
  return { conversion, factor, simulatedVaL: convert(run, conversion).simulatedVaL };
}

/** What the conversion does not look at itself. */
function requireConduct(run: RunInputs): void {
  const { reading, syringe } = run;
  requirePublishedLimits('reduceRun', run.limits);
  const isPossible =
    Number.isFinite(reading.dlco) &&
    isPositiveOrNone(reading.volumeCheckL) &&
    isPositiveOrNone(reading.breathHoldS) &&
    isPositiveOrNone(syringe.strokeL) &&
    (syringe.volumeInsideL === 0 || isPositiveOrNone(syringe.volumeInsideL));
  if (!isPossible) throw impossibleConduct(run);
}

/** Apart from the check, for the reason told in impossible.ts. */
function impossibleConduct({ reading, syringe }: RunInputs): RangeError {
  const isPossibleInside = syringe.volumeInsideL === 0 || isPositiveOrNone(syringe.volumeInsideL);
  if (!Number.isFinite(reading.dlco))
    return impossible(`reading.dlco is ${reading.dlco} ${reading.dlcoUnit}`);
  if (!isPositiveOrNone(reading.volumeCheckL))
    return impossible(`reading.volumeCheckL is ${reading.volumeCheckL} L`);
  if (!isPositiveOrNone(reading.breathHoldS))
    return impossible(`reading.breathHoldS is ${reading.breathHoldS} s`);
  if (!isPossibleInside) return impossible(`syringe.volumeInsideL is ${syringe.volumeInsideL} L`);
  return impossible(`syringe.strokeL is ${syringe.strokeL} L`);
}

function impossible(what: string): RangeError {
  return new RangeError(`reduceRun: ${what}`);
}

function isPositiveOrNone(value: number | undefined): boolean {
  return value === undefined || (value > 0 && value < Number.POSITIVE_INFINITY);
}
