import { type ControlPolicy, defaultControlPolicy, isSamePolicy, requirePolicy } from './controlPolicy.ts';

/** A laboratory's decision: runs of an analyzer made at `from` (ms) or later are judged by `policy`. */
export interface PolicyStep {
  from: number;
  policy: ControlPolicy;
}

/**
 * The policy that a run made at a moment (ms) is judged by: that of the newest step not after it, of steps from the same moment
 * the one that stands later; before the first the default policy.
 * @throws {RangeError} if the moment is not finite.
 * @example policyAt([{ from: 100, policy: rolling }], 99) // defaultControlPolicy; at 100: rolling
 */
export function policyAt(steps: readonly PolicyStep[], at: number): ControlPolicy {
  if (!Number.isFinite(at)) throw new RangeError(`policyAt: at is ${at} ms`);
  let newest: PolicyStep | undefined;
  for (const step of steps) {
    if (step.from <= at && (newest === undefined || step.from >= newest.from)) newest = step;
  }
  return newest?.policy ?? defaultControlPolicy;
}

/** The policies of a series in the order of their beginnings, no two the same at once. The first is in force from ever on. */
export type PolicyHistory = readonly [PolicyStep, ...PolicyStep[]];

/**
 * Steps in any order, led by the default policy. A step that says again what is in force is none: it must not end a pattern.
 * @throws {RangeError} naming the caller, if a step's moment is not finite or its policy cannot be worked with.
 */
export function policyHistory(caller: string, steps: readonly PolicyStep[]): PolicyHistory {
  for (const [index, { from, policy }] of steps.entries()) {
    if (!Number.isFinite(from)) throw new RangeError(`${caller}: policy step ${index} is from ${from} ms`);
    requirePolicy(caller, policy);
  }
  const later: PolicyStep[] = [];
  // A sort that keeps the order of equals.
  for (const step of [...steps].sort((one, other) => one.from - other.from)) {
    if (later.at(-1)?.from === step.from) later.pop();
    if (!isSamePolicy(later.at(-1)?.policy ?? defaultControlPolicy, step.policy)) later.push(step);
  }
  return [{ from: Number.NEGATIVE_INFINITY, policy: defaultControlPolicy }, ...later];
}
