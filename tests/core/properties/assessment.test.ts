import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  assessRuns,
  defaultControlPolicy,
  type SeriesClosure,
  type SimulationRun,
} from '../../../src/core/index.ts';
import { goodRun } from '../runFixtures.ts';
import { arbitrarySteps } from './arbitraries.ts';

const runs = { numRuns: 150 };

const arbitraryRun = fc.record({
  analyzerId: fc.constantFrom('north', 'south', 'east'),
  route: fc.constantFrom('patient-test' as const, 'built-in' as const),
  method: fc.constantFrom('syringe' as const, 'syringe' as const, 'precision-gas' as const),
  va: fc.integer({ min: -12, max: 12 }),
  dlco: fc.integer({ min: -40, max: 40 }),
  isSi: fc.boolean(),
  isFar: fc.integer({ min: 0, max: 24 }).map((roll) => roll === 0),
  isExcluded: fc.integer({ min: 0, max: 14 }).map((roll) => roll === 0),
  startsEpoch: fc.integer({ min: 0, max: 29 }).map((roll) => roll === 0),
  wait: fc.constantFrom(0, 0, 1),
  temperatureC: fc.integer({ min: 18, max: 26 }),
});

const laboratory = fc
  .record({
    steps: fc.array(arbitraryRun, { maxLength: 120 }),
    closures: fc.array(
      fc.record({
        analyzerId: fc.constantFrom('north', 'south', 'east'),
        method: fc.constant('syringe' as const),
        route: fc.constantFrom('patient-test' as const, 'built-in' as const),
        quantity: fc.constantFrom('va' as const, 'dlco' as const),
        at: fc.integer({ min: 0, max: 40 }),
      }),
      { maxLength: 12 },
    ),
  })
  .map(({ steps, closures }) => {
    let at = 0;
    const epochs = new Map<string, number>();
    const made = steps.map((step, index): SimulationRun => {
      at += step.wait;
      const { analyzerId, route, method, isExcluded: excluded } = step;
      const epoch = (epochs.get(analyzerId) ?? 0) + (step.startsEpoch ? 1 : 0);
      epochs.set(analyzerId, epoch);
      const reading = {
        ...goodRun.reading,
        vaL: 3.45 + step.va / 100 + (step.isFar ? 0.6 : 0),
        dlco: step.isSi ? step.dlco / 300 : step.dlco / 100,
        dlcoUnit: step.isSi ? ('mmol/min/kPa' as const) : ('mL/min/mmHg' as const),
      };
      const ambient = { temperatureC: step.temperatureC, barometricMmHg: 760 };
      const series = { analyzerId, route, method, epoch };
      return { ...goodRun, ...series, id: `run ${index}`, at, reading, ambient, excluded };
    });
    const known: readonly SeriesClosure[] = closures;
    return { runs: made, closures: known };
  });

/** So that short series are judged. */
const policyStepsFor = () => [
  { from: -1, policy: { ...defaultControlPolicy, minimumSize: 3, baselineSize: 6 } },
];

describe('assessRuns', () => {
  it('gives for one more run what it gives for it among all', () => {
    const policies = fc.tuple(arbitrarySteps, arbitrarySteps);
    fc.assert(
      fc.property(laboratory, policies, ({ runs: all, closures }, [north, others]) => {
        const options = {
          closures,
          policyStepsFor: (analyzerId: string) => (analyzerId === 'north' ? north : others),
        };
        const whole = assessRuns(all, options);
        for (const [place, run] of all.entries()) {
          const earlier = assessRuns(all.slice(0, place), options);
          const once = earlier.oneMore(run);
          expect(once).toEqual(whole.get(run.id));
          expect(earlier.oneMore(run)).toEqual(once);
        }
      }),
      { numRuns: 200 },
    );
  });

  it('taken up run by run is what assessing all runs again gives, whatever was looked at in between', () => {
    fc.assert(
      fc.property(laboratory, fc.infiniteStream(fc.boolean()), ({ runs: all, closures }, looks) => {
        const options = { closures, policyStepsFor };
        let taken = assessRuns([], options);
        for (const [place, run] of all.entries()) {
          const before = taken;
          const { value: isLookedAt } = looks.next();
          if (isLookedAt) for (const { id } of all.slice(0, place)) before.get(id);
          taken = before.withOneMore(run);
          const whole = assessRuns(all.slice(0, place + 1), options);
          expect(new Map(taken)).toEqual(new Map(whole));
          expect(all.map(({ id }) => taken.outline(id))).toEqual(all.map(({ id }) => whole.outline(id)));
          // What was there goes on as if nothing had been added, and so does another next run.
          expect(before.has(run.id)).toBe(false);
          expect(before.oneMore(run)).toEqual(whole.get(run.id));
          expect(before.size).toBe(place);
        }
      }),
      { numRuns: 100 },
    );
  });

  it('changes nothing when simultaneous runs of different series change places', () => {
    fc.assert(
      fc.property(laboratory, ({ runs: all, closures }) => {
        // Sorting by series within a moment is one such permutation, and keeps each series' own order.
        const seriesOf = (run: SimulationRun) => `${run.analyzerId} ${run.method} ${run.route}`;
        const permuted = [...all].sort(
          (first, second) => first.at - second.at || seriesOf(first).localeCompare(seriesOf(second)),
        );
        const expected = assessRuns(all, { closures, policyStepsFor });
        for (const [id, assessment] of assessRuns(permuted, { closures, policyStepsFor })) {
          expect(assessment).toEqual(expected.get(id));
        }
      }),
      runs,
    );
  });

  it('assesses an analyzer alike whether the others are there or not', () => {
    fc.assert(
      fc.property(laboratory, ({ runs: all, closures }) => {
        const alone = assessRuns(
          all.filter(({ analyzerId }) => analyzerId === 'north'),
          { closures, policyStepsFor },
        );
        const together = assessRuns(all, { closures, policyStepsFor });
        for (const [id, assessment] of alone) expect(together.get(id)).toEqual(assessment);
      }),
      runs,
    );
  });

  it('leaves out a run with impossible numbers as if it had not been made, and reports it', () => {
    const impossibleReading = fc.constantFrom(
      { vaL: -1 },
      { vaL: Number.NaN },
      { dlco: Number.NaN },
      { breathHoldS: 0 },
    );
    fc.assert(
      fc.property(laboratory, fc.nat(119), impossibleReading, ({ runs: all, closures }, place, change) => {
        const at = all[Math.min(place, all.length - 1)]?.at ?? 0;
        const bad = { ...goodRun, id: 'bad', at, epoch: 9, reading: { ...goodRun.reading, ...change } };
        const withIt = [...all.slice(0, place), bad, ...all.slice(place)];
        const reported: string[] = [];
        const onImpossible = (run: SimulationRun, problem: RangeError) =>
          reported.push(`${run.id}: ${problem.message}`);
        const found = assessRuns(withIt, { closures, policyStepsFor, onImpossible });
        expect(new Map(found)).toEqual(new Map(assessRuns(all, { closures, policyStepsFor })));
        expect(reported).toHaveLength(1);
        expect(reported[0]).toMatch(/^bad: assessRuns: run bad: /);
        expect(() => assessRuns(withIt, { closures, policyStepsFor })).toThrow(RangeError);
      }),
      runs,
    );
  });
});
