import type { ControlPolicy } from './controlPolicy.ts';
import { feedRules, type RuleId, RuleMemory, ruleBits } from './controlRules.ts';
import { normalQuantile } from './quantiles.ts';

/** Stops at this relative standard error, about that of 10,000 run lengths … */
const wantedRelativeError = 0.01;
/** … or at this many simulated runs, about a second's work. */
const mostRuns = 5_000_000;
const fewestLengths = 400;

/**
 * Mean runs until the first of the rules fires, by simulation with the very rules that judge a series, and its standard
 * error. The seed is fixed: the same question has the same answer. Infinity for what did not happen once in all the simulated runs.
 */
export function simulatedRunLength(
  rules: readonly RuleId[],
  shiftSd: number,
  policy: ControlPolicy,
): { runs: number; standardError: number } {
  const bits = ruleBits(rules);
  const memory = new RuleMemory(policy);
  const random = seededRandom(1981);
  let lengths = 0;
  let mean = 0;
  let squares = 0;
  let total = 0;
  while (total < mostRuns) {
    memory.restart();
    let length = 0;
    let fired = 0;
    while ((fired & bits) === 0 && total < mostRuns) {
      const z = shiftSd + normalQuantile(random());
      fired = feedRules(memory, z, z);
      length += 1;
      total += 1;
    }
    // The last one was cut short.
    if ((fired & bits) === 0) break;
    lengths += 1;
    const delta = length - mean;
    mean += delta / lengths;
    squares += delta * (length - mean);
    const error = Math.sqrt(squares / Math.max(1, lengths - 1) / lengths);
    if (lengths >= fewestLengths && error <= wantedRelativeError * mean) break;
  }
  if (lengths === 0) return { runs: Number.POSITIVE_INFINITY, standardError: Number.POSITIVE_INFINITY };
  return { runs: mean, standardError: Math.sqrt(squares / Math.max(1, lengths - 1) / lengths) };
}

/**
 * Uniform numbers strictly between 0 and 1 from a seed, 32 bits each.
 * Source: mulberry32 by Tommy Ettinger, public domain; the same numbers in every browser.
 */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return (((mixed ^ (mixed >>> 14)) >>> 0) + 0.5) / 4294967296;
  };
}
