import { type ControlPolicy, hasSameLimits } from './controlPolicy.ts';
import { BaselineLimits, type OwnLimits, RollingLimits } from './ownLimits.ts';
import type { PolicyHistory } from './policySteps.ts';

/**
 * The own limits of every policy of a series, by the place of the policy in the history. They are made together and fed from the
 * start of the epoch on, so that those of a later policy are ready at the run where it begins; no run has to be kept for them.
 * Policies that make the same limits of the same runs share one.
 */
export class LimitsInTurn {
  readonly #distinct: readonly OwnLimits[];
  /** For each policy the place of its limits among the distinct. */
  readonly #placeOf: readonly number[];

  private constructor(distinct: readonly OwnLimits[], placeOf: readonly number[]) {
    this.#distinct = distinct;
    this.#placeOf = placeOf;
  }

  static of(history: PolicyHistory): LimitsInTurn {
    const policies: ControlPolicy[] = [];
    const placeOf = history.map(({ policy }) => {
      const known = policies.findIndex((other) => hasSameLimits(policy, other));
      return known === -1 ? policies.push(policy) - 1 : known;
    });
    return new LimitsInTurn(policies.map(limitsOf), placeOf);
  }

  at(place: number): OwnLimits {
    const limits = this.#distinct[this.#placeOf[place] ?? Number.NaN];
    if (limits === undefined) throw new RangeError(`LimitsInTurn: there is no policy ${place}`);
    return limits;
  }

  /** Those that later policies will need and that are not in force at this place. */
  waitingAt(place: number): readonly OwnLimits[] {
    const later = new Set(this.#placeOf.slice(place + 1));
    return this.#distinct.filter((limits, index) => later.has(index) && limits !== this.at(place));
  }

  copy(): LimitsInTurn {
    return new LimitsInTurn(
      this.#distinct.map((limits) => limits.copy()),
      this.#placeOf,
    );
  }
}

function limitsOf({ limits, baselineSize, minimumSize }: ControlPolicy): OwnLimits {
  return limits === 'baseline'
    ? new BaselineLimits(baselineSize, minimumSize)
    : new RollingLimits(baselineSize, minimumSize);
}
