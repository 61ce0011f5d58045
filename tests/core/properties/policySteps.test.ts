import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  assessRuns,
  defaultControlPolicy,
  type PointEvaluation,
  type PolicyStep,
  type SeriesClosure,
  type SeriesPoint,
} from '../../../src/core/index.ts';
import { isBreached, isExcluded, judgedRows, runInput } from '../../../src/core/judgedRows.ts';
import { policyHistory } from '../../../src/core/policySteps.ts';
import { createMachine } from '../../../src/core/series.ts';
import type { SeriesMachine } from '../../../src/core/seriesMachine.ts';
import { runsOfSeries } from '../seriesRuns.ts';
import { arbitraryPolicy, arbitrarySeries, arbitrarySteps } from './arbitraries.ts';
import { referenceEvaluation } from './referenceEvaluation.ts';

const series = { analyzerId: 'north', method: 'syringe', route: 'patient-test', quantity: 'va' } as const;

function assessed(points: readonly SeriesPoint[], closures: readonly number[], steps: readonly PolicyStep[]) {
  const known = closures.map((at): SeriesClosure => ({ ...series, at }));
  return assessRuns(runsOfSeries(points), { closures: known, policyStepsFor: () => steps });
}

function evaluated(...[points, closures, steps]: Parameters<typeof assessed>): PointEvaluation[] {
  return [...assessed(points, closures, steps).values()].map(({ va }) => va);
}

/** By the definition, apart from the core: the last of those not after the moment, in the order of their beginnings. */
function ofDay(steps: readonly PolicyStep[], at: number) {
  const begun = steps.filter(({ from }) => from <= at);
  const newest = Math.max(...begun.map(({ from }) => from));
  return begun.findLast(({ from }) => from === newest)?.policy ?? defaultControlPolicy;
}

const digits = (value: number | null) =>
  value === null ? null : value.toFixed(9).replace(/^-(0\.0*)$/, '$1');

/** Nine places: the reference adds up in another order, and without the 64 L. */
const rounded = ({ mean, sd, z, ewma, cusumHigh, cusumLow, ...rest }: PointEvaluation, offset: number) => ({
  ...rest,
  numbers: [mean === null ? null : mean - offset, sd, z, ewma, cusumHigh, cusumLow].map(digits),
});

describe('policies that change', () => {
  it('judge as a plain evaluation from the definitions does', () => {
    fc.assert(
      fc.property(arbitrarySeries, arbitrarySteps, ({ points, closures }, steps) => {
        const expected = referenceEvaluation(points, (at) => ofDay(steps, at), closures);
        expect(evaluated(points, closures, steps).map((each) => rounded(each, 64))).toEqual(
          expected.map((each) => rounded(each, 0)),
        );
      }),
      { numRuns: 1000 },
    );
  });

  it('never judge anew what was judged before', () => {
    fc.assert(
      fc.property(
        arbitrarySeries,
        arbitrarySteps,
        arbitraryPolicy,
        fc.nat(60),
        ({ points, closures }, steps, policy, from) => {
          const judgedBefore = (evaluations: readonly PointEvaluation[]) =>
            evaluations.filter((_, index) => (points[index]?.at ?? 0) < from);
          const later = [...steps, { from, policy }];
          expect(judgedBefore(evaluated(points, closures, later))).toEqual(
            judgedBefore(evaluated(points, closures, steps)),
          );
        },
      ),
      { numRuns: 300 },
    );
  });

  it('change nothing by a step that says again what is in force', () => {
    fc.assert(
      fc.property(arbitrarySeries, arbitrarySteps, fc.nat(60), ({ points, closures }, steps, from) => {
        const again = [...steps, { from, policy: structuredClone(ofDay(steps, from)) }];
        expect(evaluated(points, closures, again)).toEqual(evaluated(points, closures, steps));
      }),
      { numRuns: 300 },
    );
  });

  it('judge one more run as they judge it among all', () => {
    fc.assert(
      fc.property(arbitrarySeries, arbitrarySteps, ({ points, closures }, steps) => {
        const whole = assessed(points, closures, steps);
        for (const [place, run] of runsOfSeries(points).entries()) {
          const found = assessed(points.slice(0, place), closures, steps).oneMore(run);
          expect(found).toEqual(whole.get(run.id));
        }
      }),
      { numRuns: 200 },
    );
  });

  it('are known to a copy of what judges, which goes on by itself', () => {
    fc.assert(
      fc.property(arbitrarySeries, arbitrarySteps, fc.nat(60), ({ points, closures }, steps, place) => {
        const original = createMachine('test', policyHistory('test', steps), closures);
        const found = judgedBy(original, points.slice(0, place));
        const copy = original.copy();
        const rest = points.slice(place);
        const goneOn = judgedBy(copy, rest);
        expect(judgedBy(original, rest)).toEqual(goneOn);
        const whole = createMachine('test', policyHistory('test', steps), closures);
        expect([...found, ...goneOn]).toEqual(judgedBy(whole, points));
      }),
      { numRuns: 300 },
    );
  });
});

function judgedBy(machine: SeriesMachine, points: readonly SeriesPoint[]): readonly number[][] {
  const input = runInput();
  return points.map(({ at, epoch, value, excluded, breached }) => {
    const row = judgedRows(1);
    const marks = (excluded === true ? isExcluded : 0) | (breached === true ? isBreached : 0);
    input.set([at, epoch, value, marks]);
    machine.judge(input, row, 0);
    return [...row];
  });
}
