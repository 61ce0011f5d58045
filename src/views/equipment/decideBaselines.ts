/** What a supervisor decides about the baselines behind a changed syringe. Pure. */

export interface BaselineDecision {
  because: 'changed' | 'slip';
  /** By analyzer, where a tick was set or taken away by hand. */
  ticked: Readonly<Record<string, boolean>>;
}

export interface SyringeUser {
  analyzerId: string;
  label: string;
  hasOpenFailure: boolean;
}

/** A new baseline goes with a syringe that is different now, unless unticked; never while a failure is open. */
export const startsBaseline = (
  { because, ticked }: BaselineDecision,
  { analyzerId, hasOpenFailure }: SyringeUser,
): boolean => !hasOpenFailure && (ticked[analyzerId] ?? because === 'changed');
