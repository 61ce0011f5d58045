/** The trade's words for what the core says in data. Every sentence that a screen, chart and table share is made here. */
import type {
  Conversion,
  DlcoUnit,
  Finding,
  GasCondition,
  PressureUnit,
  Quantity,
  Route,
  RuleId,
  VerdictWord,
} from '../../core/index.ts';
import type { EventType, Role, RunReason, TemperatureUnit } from '../../journal/entries.ts';
import { limitPercent, millilitres, percent, plain } from './figures.ts';

export const verdictWords: Record<VerdictWord, string> = { pass: 'Pass', warn: 'Warning', fail: 'Fail' };

export const routeWords: Record<Route, string> = {
  'patient-test': 'Patient test',
  'built-in': 'Built-in routine',
};

export const reasonWords: Record<RunReason, string> = {
  weekly: 'Weekly',
  'suspected-fault': 'Suspected fault',
  'after-service': 'After service',
  repeat: 'Repeat',
};

export const roleWords: Record<Role, string> = { technologist: 'Technologist', supervisor: 'Supervisor' };

export const eventWords: Record<EventType, string> = {
  service: 'Service',
  part: 'Part replaced',
  bag: 'Sample bag',
  sensor: 'Sensor',
  cylinder: 'Cylinder',
  software: 'Software',
  move: 'Moved',
  other: 'Other',
};

export const quantityWords: Record<Quantity, string> = { va: 'VA', dlco: 'DLCO' };

export const gasConditions: readonly GasCondition[] = ['BTPS', 'ATPS', 'ATP', 'ATPD', 'STPD'];
export const pressureUnits: readonly PressureUnit[] = ['mmHg', 'kPa', 'hPa'];
export const temperatureUnits: readonly TemperatureUnit[] = ['°C', '°F'];
export const dlcoUnits: readonly DlcoUnit[] = ['mL/min/mmHg', 'mmol/min/kPa'];

/** What each rule says, without its numbers; the numbers are the policy's. */
export const ruleWords: Record<RuleId, string> = {
  '1-2s': 'one run beyond 2 SD',
  '1-3s': 'one run beyond 3 SD',
  '2-2s': 'two runs in a row beyond 2 SD on the same side',
  'R-4s': 'two runs in a row beyond 2 SD on opposite sides',
  '4-1s': 'four runs in a row beyond 1 SD on the same side',
  '10x': 'ten runs in a row on one side of the mean',
  '7T': 'seven runs in a row each further the same way',
  EWMA: 'the weighted average of the runs has moved off the mean',
  CUSUM: 'small deviations have added up on one side',
};

export function conversionWords(conversion: Conversion): string {
  if (conversion.kind === 'fixed') return `fixed factor ${plain(conversion.factor)}`;
  return conversion.assumed === 'ATPD'
    ? 'computed from the room, dry test gas'
    : 'computed from the room, saturated gas';
}

/** One finding as a sentence that can stand beside the verdict. */
export function findingSentence(finding: Finding): string {
  switch (finding.kind) {
    case 'published-limit':
      return finding.quantity === 'va'
        ? `Simulated VA is outside the published ${millilitres(finding.limit * 1000)} mL.`
        : `DLCO is not below the published ${plain(finding.limit)} ${finding.unit}.`;
    case 'signal':
      return `${quantityWords[finding.quantity]}: ${finding.rule}, ${ruleWords[finding.rule]}.`;
    case 'volume-check':
      return `The volume check is ${percent(Math.abs(finding.fraction))} % ${
        finding.fraction > 0 ? 'high' : 'low'
      }, outside ±${limitPercent(finding.limit)} %: look at volume measurement first.`;
    case 'breath-hold':
      return `Breath-hold time ${plain(finding.breathHoldS)} s is outside ${plain(finding.targetS)} ± ${plain(finding.toleranceS)} s.`;
  }
}

/** CO–tracer disagreement in words: which analyzer reads how far off. */
export function disagreementSentence(fraction: number): string {
  const size = percent(Math.abs(fraction), 2);
  // Half of the last digit written.
  if (Math.abs(fraction) < 0.00005) return `CO and tracer agree within ${plain(0.005)} %`;
  return fraction > 0
    ? `CO reads ${size} % low against the tracer`
    : `CO reads ${size} % high against the tracer`;
}
