import type { RuleId } from './controlRules.ts';
import { isWithinTolerance, type PublishedLimits, publishedDlcoLimit } from './fixedLimits.ts';
import type { RunNumbers, RunReading } from './runNumbers.ts';
import type { PointEvaluation } from './series.ts';
import type { DlcoUnit } from './singleBreath.ts';

export type Quantity = 'va' | 'dlco';

export type VerdictWord = 'pass' | 'warn' | 'fail';

/** Why a verdict is not a plain pass, as data: the words are made where they are shown. */
export type Finding =
  /** `value` and `limit` are in `unit`; of VA, `value` is the distance from `target`. */
  | { kind: 'published-limit'; quantity: 'va'; value: number; target: number; limit: number; unit: 'L' }
  | { kind: 'published-limit'; quantity: 'dlco'; value: number; target: 0; limit: number; unit: DlcoUnit }
  | {
      kind: 'signal';
      quantity: Quantity;
      rule: RuleId;
      severity: 'action' | 'warning';
      ids: readonly string[];
    }
  | { kind: 'volume-check'; fraction: number; limit: number }
  | { kind: 'breath-hold'; breathHoldS: number; targetS: number; toleranceS: number };

/**
 * `fail`: a published limit is breached or an action rule fires, in VA or in DLCO. `warn`: a warning rule fires, or the
 * volume check or the breath-hold time lies outside its tolerance. `establishing`: VA or DLCO has no own limits yet.
 */
export interface Verdict {
  word: VerdictWord;
  establishing: boolean;
  findings: readonly Finding[];
}

/** What of a run a verdict rests on, besides its numbers and its place in its series. */
export interface JudgedRun {
  reading: RunReading;
  limits: PublishedLimits;
}

/** Joins what the published limits, the control rules of both quantities and the conduct of the run say. */
export function verdictOf(
  run: JudgedRun,
  numbers: RunNumbers,
  va: PointEvaluation,
  dlco: PointEvaluation,
): Verdict {
  const findings = [
    ...publishedFindings(run, numbers),
    ...signalFindings('va', va),
    ...signalFindings('dlco', dlco),
  ];
  const isFailed = findings.some(
    (finding) =>
      finding.kind === 'published-limit' || (finding.kind === 'signal' && finding.severity === 'action'),
  );
  findings.push(...conductFindings(run, numbers));
  return {
    word: isFailed ? 'fail' : findings.length > 0 ? 'warn' : 'pass',
    establishing: va.z === null || dlco.z === null,
    findings,
  };
}

function publishedFindings(run: JudgedRun, numbers: RunNumbers): Finding[] {
  const { reading, limits } = run;
  const findings: Finding[] = [];
  if (!numbers.vaWithinPublished) {
    const target = numbers.targetVaL;
    const value = numbers.simulatedVaL - target;
    findings.push({
      kind: 'published-limit',
      quantity: 'va',
      value,
      target,
      limit: limits.vaToleranceL,
      unit: 'L',
    });
  }
  if (!numbers.dlcoWithinPublished) {
    const limit = publishedDlcoLimit(reading.dlcoUnit, limits);
    const unit = reading.dlcoUnit;
    findings.push({ kind: 'published-limit', quantity: 'dlco', value: reading.dlco, target: 0, limit, unit });
  }
  return findings;
}

function signalFindings(quantity: Quantity, evaluation: PointEvaluation): Finding[] {
  return evaluation.signals.map(({ rule, severity, ids }) => ({
    kind: 'signal',
    quantity,
    rule,
    severity,
    ids,
  }));
}

/** How the run was conducted: outside these tolerances its numbers are to be doubted, not its analyzer failed. */
function conductFindings(run: JudgedRun, numbers: RunNumbers): Finding[] {
  const { volumeCheckFraction, breathHoldS } = run.limits;
  const findings: Finding[] = [];
  const fraction = numbers.volumeCheckFraction;
  if (fraction !== null && !isWithinTolerance(fraction, 0, volumeCheckFraction)) {
    findings.push({ kind: 'volume-check', fraction, limit: volumeCheckFraction });
  }
  const held = run.reading.breathHoldS;
  if (held !== undefined && !isWithinTolerance(held, breathHoldS.target, breathHoldS.tolerance)) {
    const { target: targetS, tolerance: toleranceS } = breathHoldS;
    findings.push({ kind: 'breath-hold', breathHoldS: held, targetS, toleranceS });
  }
  return findings;
}
