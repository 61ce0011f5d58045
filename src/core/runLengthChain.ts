import type { RuleId } from './controlRules.ts';
import { solveLinear } from './linearSystem.ts';
import { normalTail } from './probabilities.ts';

export type ZRule = Exclude<RuleId, '7T' | 'EWMA' | 'CUSUM'>;

/** What a set of z-rules has to remember of the runs so far: runs on one side count upwards, on the other downwards. */
interface ChainState {
  /** 1, 0 or −1: the newest run beyond 2 SD above, within, below. */
  beyond2: number;
  beyond1: number;
  side: number;
}

/** Every threshold of a z-rule. Between two neighbours the rules cannot tell one z from another. */
const thresholds = [-3, -2, -1, 0, 1, 2, 3];

/** A z of each zone, from the lowest zone to the highest. */
const zoneZ = [-3.5, -2.5, -1.5, -0.5, 0.5, 1.5, 2.5, 3.5];

/**
 * Mean runs until the first of the rules fires, exactly, for z with mean `shiftSd` and SD 1 and a start without history.
 * The states that the rules can be in form an absorbing Markov chain; the mean times t to absorption solve (I − Q) t = 1.
 * Source: Champ & Woodall, Technometrics 29 (1987), 393–399.
 */
export function chainRunLength(rules: readonly ZRule[], shiftSd: number): number {
  const probabilities = zoneProbabilities(shiftSd);
  const states: ChainState[] = [];
  const indexByKey = new Map<string, number>();
  const indexOf = (state: ChainState): number => {
    const key = `${state.beyond2} ${state.beyond1} ${state.side}`;
    const known = indexByKey.get(key);
    if (known !== undefined) return known;
    indexByKey.set(key, states.length);
    return states.push(state) - 1;
  };

  const moves: { from: number; to: number; probability: number }[] = [];
  indexOf({ beyond2: 0, beyond1: 0, side: 0 });
  // The list of states grows while it is gone through.
  for (let from = 0; from < states.length; from += 1) {
    const state = states[from];
    if (state === undefined) break;
    for (const [zone, z] of zoneZ.entries()) {
      const next = step(rules, state, z);
      if (next !== null) moves.push({ from, to: indexOf(next), probability: probabilities[zone] ?? 0 });
    }
  }

  const matrix = states.map((_, row) =>
    Float64Array.from(states, (_state, column) => (row === column ? 1 : 0)),
  );
  for (const { from, to, probability } of moves) {
    const row = matrix[from];
    if (row !== undefined) row[to] = (row[to] ?? 0) - probability;
  }
  return solveLinear(matrix, new Float64Array(states.length).fill(1))[0] ?? Number.NaN;
}

/** The state after one more run, or null when a rule fires at it. What no rule asks for is not remembered. */
function step(rules: readonly ZRule[], state: ChainState, z: number): ChainState | null {
  const has = (rule: ZRule) => rules.includes(rule);
  const side = Math.sign(z);
  const beyond2 = Math.abs(z) > 2 ? side : 0;
  const beyond1 = Math.abs(z) > 1 ? countOn(state.beyond1, side) : 0;
  const onSide = countOn(state.side, side);
  const fires =
    (has('1-2s') && beyond2 !== 0) ||
    (has('1-3s') && Math.abs(z) > 3) ||
    (has('2-2s') && beyond2 !== 0 && beyond2 === state.beyond2) ||
    (has('R-4s') && beyond2 !== 0 && beyond2 === -state.beyond2) ||
    (has('4-1s') && Math.abs(beyond1) >= 4) ||
    (has('10x') && Math.abs(onSide) >= 10);
  if (fires) return null;
  return {
    beyond2: has('2-2s') || has('R-4s') ? beyond2 : 0,
    beyond1: has('4-1s') ? beyond1 : 0,
    side: has('10x') ? onSide : 0,
  };
}

function countOn(count: number, side: number): number {
  return Math.sign(count) === side ? count + side : side;
}

function zoneProbabilities(shiftSd: number): readonly number[] {
  const above = thresholds.map((threshold) => normalTail(threshold - shiftSd));
  const below = thresholds.map((threshold) => normalTail(shiftSd - threshold));
  return zoneZ.map((_, zone) => {
    if (zone === 0) return below[0] ?? 0;
    if (zone === thresholds.length) return above[zone - 1] ?? 0;
    // The difference of the smaller tails: that of the larger ones loses digits.
    const isUpper = (thresholds[zone - 1] ?? 0) >= shiftSd;
    return isUpper
      ? (above[zone - 1] ?? 0) - (above[zone] ?? 0)
      : (below[zone] ?? 0) - (below[zone - 1] ?? 0);
  });
}
