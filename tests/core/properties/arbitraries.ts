import fc from 'fast-check';
import {
  type ControlPolicy,
  defaultControlPolicy,
  type PolicyStep,
  ruleIds,
  type SeriesPoint,
} from '../../../src/core/index.ts';

/**
 * Values are eighths about 0, so that zeros, ties and repeats come up and moving and stretching by powers of two is exact.
 * Now and then one is far out, breached, excluded, of another epoch, or of the same moment as the one before.
 */
const point = fc.record({
  value: fc.oneof(
    { weight: 12, arbitrary: fc.integer({ min: -16, max: 16 }) },
    { weight: 1, arbitrary: fc.integer({ min: -120, max: 120 }) },
  ),
  wait: fc.constantFrom(0, 1, 1, 1, 1, 2),
  isExcluded: fc.integer({ min: 0, max: 11 }).map((roll) => roll === 0),
  isBreached: fc.integer({ min: 0, max: 29 }).map((roll) => roll === 0),
  startsEpoch: fc.integer({ min: 0, max: 39 }).map((roll) => roll === 0),
});

export const arbitrarySeries = fc
  .record({
    steps: fc.array(point, { minLength: 0, maxLength: 60 }),
    closures: fc.array(fc.integer({ min: 0, max: 60 }), { maxLength: 8 }),
  })
  .map(({ steps, closures }) => {
    let at = 0;
    let epoch = 0;
    const points = steps.map((step, index): SeriesPoint => {
      at += step.wait;
      if (step.startsEpoch) epoch = (epoch + 1) % 3;
      return {
        id: `r${index}`,
        at,
        value: step.value / 8,
        epoch,
        excluded: step.isExcluded,
        breached: step.isBreached,
      };
    });
    return { points, closures };
  });

const severity = fc.constantFrom('action', 'warning', 'warning', 'off' as const);

export const arbitraryPolicy: fc.Arbitrary<ControlPolicy> = fc
  .record({
    limits: fc.constantFrom('baseline' as const, 'rolling' as const),
    minimumSize: fc.integer({ min: 2, max: 6 }),
    more: fc.integer({ min: 0, max: 8 }),
    smallSample: fc.boolean(),
    severities: fc.array(severity, { minLength: ruleIds.length, maxLength: ruleIds.length }),
    isDefault: fc.boolean(),
  })
  .map(({ limits, minimumSize, more, smallSample, severities, isDefault }) => ({
    ...defaultControlPolicy,
    limits,
    minimumSize,
    baselineSize: minimumSize + more,
    smallSample,
    severity: isDefault
      ? {}
      : Object.fromEntries(ruleIds.map((rule, index) => [rule, severities[index] ?? 'off'])),
  }));

/** Up to five changes among few policies, so that the same comes back and two begin at once; one of them the default. */
export const arbitrarySteps: fc.Arbitrary<readonly PolicyStep[]> = fc
  .record({
    others: fc.tuple(arbitraryPolicy, arbitraryPolicy),
    changes: fc.array(
      fc.record({ from: fc.integer({ min: 0, max: 50 }), which: fc.integer({ min: 0, max: 2 }) }),
      { maxLength: 5 },
    ),
  })
  .map(({ others, changes }) =>
    changes.map(({ from, which }) => ({
      from,
      policy: [defaultControlPolicy, ...others][which] ?? others[0],
    })),
  );
