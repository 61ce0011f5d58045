import { describe, expect, it } from 'vitest';
import { defaultControlPolicy } from '../../../src/core/index.ts';
import { driftOf } from '../../../src/views/fleet/drift.ts';

describe('driftOf', () => {
  // NIST/SEMATECH e-Handbook 6.3.2.4: the limit is L·√(λ/(2−λ)); by hand 2.86 · √(0.2/1.8) = 0.9533 SD, half of it 0.4767.
  it.each([
    [0, 'Steady', '0.0 SD'],
    [0.47, 'Steady', '+0.5 SD'],
    [0.48, 'Leans high', '+0.5 SD'],
    [-0.6, 'Leans low', '−0.6 SD'],
    [0.95, 'Leans high', '+0.9 SD'],
    [0.96, 'Moved high', '+1.0 SD'],
    [-2, 'Moved low', '−2.0 SD'],
  ])('calls an average of %d SD %s', (ewma, words, size) => {
    expect(driftOf({ ewma }, defaultControlPolicy)).toMatchObject({ words, size, sd: ewma });
  });

  it('goes by the policy in force', () => {
    // By hand: 3 · √(0.1/1.9) = 0.688.
    const strict = { ewma: { lambda: 0.1, limit: 3 } };
    expect(driftOf({ ewma: 0.7 }, strict)).toMatchObject({ words: 'Moved high', hasMoved: true });
    expect(driftOf({ ewma: 0.7 }, defaultControlPolicy).hasMoved).toBe(false);
  });

  it('is not known without an average', () => {
    expect(driftOf({ ewma: null }, defaultControlPolicy)).toMatchObject({ words: 'Not known yet', sd: null });
  });
});
