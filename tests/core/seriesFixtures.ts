import {
  type ControlPolicy,
  defaultControlPolicy,
  type RuleId,
  ruleIds,
  type SeriesPoint,
} from '../../src/core/index.ts';

export const week = 7 * 24 * 3600 * 1000;

/** Points a week apart, named p1, p2 …, all in epoch 0. */
export function weekly(values: readonly number[], startAt = 0): SeriesPoint[] {
  return values.map((value, index) =>
    Object.freeze({ id: `p${index + 1}`, at: startAt + index * week, value, epoch: 0 }),
  );
}

/** 20 values, alternately above and below, whose mean is exactly `mean` and whose SD (n − 1) is `sd`. None fires a rule. */
export function steadyBaseline(mean: number, sd: number): number[] {
  const distance = sd * Math.sqrt(19 / 20);
  return Array.from({ length: 20 }, (_, index) => (index % 2 === 0 ? mean + distance : mean - distance));
}

/** Baseline of ±1 about 0, so that its SD is √(20/19); `inSd` turns a z into the value that has it. */
export const unitBaseline: readonly number[] = Object.freeze(
  Array.from({ length: 20 }, (_, index) => (index % 2 === 0 ? 1 : -1)),
);
export const unitSd = Math.sqrt(20 / 19);
export const inSd = (z: number): number => z * unitSd;

/** Only the named rules judge; each is a warning, so that no failure opens. */
export function onlyRules(
  rules: readonly RuleId[],
  severity: 'action' | 'warning' = 'warning',
): ControlPolicy {
  return {
    ...defaultControlPolicy,
    severity: Object.fromEntries(ruleIds.map((rule) => [rule, rules.includes(rule) ? severity : 'off'])),
  };
}

export const last = <T>(items: readonly T[]): T => {
  const item = items.at(-1);
  if (item === undefined) throw new Error('nothing there');
  return item;
};
