/** What the analyzer should read for the syringe's stroke in today's room, and what a typed reading says. */
import { isWithinTolerance, reduceRun } from '../../core/index.ts';
import { limitPercent, litresTyped, percent } from '../parts/figures.ts';
import type { BenchDraft } from '../runForm/benchDraft.ts';
import type { BenchSurroundings } from '../runForm/readBenchDraft.ts';
import { readWith } from './standIn.ts';

export interface VolumeCheck {
  /** L BTPS, as written; the ends are the outermost readings of two decimals that still lie inside. */
  expected: string;
  lowest: string;
  highest: string;
  /** `±3 %`. */
  limit: string;
  /** Null until a reading is typed that can be one. */
  outcome: { isInside: boolean; found: string } | null;
}

/** Null while the room, the analyzer or the syringe is not known. Judged as the recorded run will be. */
export function buildVolumeCheck(draft: BenchDraft, surroundings: BenchSurroundings): VolumeCheck | null {
  const unread = readWith([], draft, surroundings);
  if (unread === null) return null;
  const { expectedVolumeCheckL } = reduceRun(unread);
  const { volumeCheckFraction } = unread.limits;
  const limit = `±${limitPercent(volumeCheckFraction)} %`;
  const run = readWith(['volumeCheck'], draft, surroundings);
  const fraction = run && reduceRun(run).volumeCheckFraction;
  return {
    expected: litresTyped(expectedVolumeCheckL),
    lowest: litresTyped(Math.ceil(expectedVolumeCheckL * (1 - volumeCheckFraction) * 100) / 100),
    highest: litresTyped(Math.floor(expectedVolumeCheckL * (1 + volumeCheckFraction) * 100) / 100),
    limit,
    outcome: fraction === null ? null : outcomeOf(fraction, volumeCheckFraction, limit),
  };
}

function outcomeOf(fraction: number, tolerance: number, limit: string): VolumeCheck['outcome'] {
  const isInside = isWithinTolerance(fraction, 0, tolerance);
  const size = percent(Math.abs(fraction));
  const where = size === percent(0) ? 'As expected' : `${size} % ${fraction > 0 ? 'high' : 'low'}`;
  return { isInside, found: `${where}, ${isInside ? 'inside' : 'outside'} ${limit}.` };
}
