/** The differences over time as a drawing, in per cent of its width and height: it needs no measuring to fill its page. */
import type { RoutePair } from '../../core/index.ts';
import { civilDay, counted } from '../parts/figures.ts';
import { valueAxis } from '../parts/valueAxis.ts';
import { findingOf } from './buildPairStory.ts';
import type { DifferenceScale } from './differenceScale.ts';

export interface DifferenceChartModel {
  points: readonly {
    key: string;
    x: number;
    y: number;
    mark: 'fail' | 'warn' | null;
    /** What is usual was known. */
    judged: boolean;
  }[];
  /** From pair to pair of one epoch. */
  hairlines: readonly { key: string; x1: number; y1: number; x2: number; y2: number }[];
  /** Own mean ± 2 SD as it was known at a pair, drawn from the pair before it. */
  bands: readonly { key: string; x: number; width: number; y: number; height: number; meanY: number }[];
  /** Where a new epoch begins. */
  epochs: readonly number[];
  ticks: readonly { y: number; text: string }[];
  zeroY: number;
  firstDay: string;
  lastDay: string;
  description: string;
}

/** Three years of weekly pairs: more would be a smear. The pair table has them all. */
export const mostPairsDrawn = 156;

export function buildDifferenceChart(
  allPairs: readonly RoutePair[],
  scale: DifferenceScale,
): DifferenceChartModel | null {
  const pairs = allPairs.slice(-mostPairsDrawn);
  const first = pairs[0];
  const last = pairs.at(-1);
  if (first === undefined || last === undefined) return null;
  const drawn = pairs.map((pair) => {
    const { value, mean, sd } = pair[scale.quantity];
    const band =
      mean === null || sd === null
        ? null
        : { low: scale.inUnit(mean - 2 * sd), mean: scale.inUnit(mean), high: scale.inUnit(mean + 2 * sd) };
    return { pair, value: scale.inUnit(value), band };
  });
  const axis = valueAxis(
    [0, ...drawn.flatMap(({ value, band }) => (band === null ? [value] : [value, band.low, band.high]))],
    scale.resolution,
  );
  const y = (value: number) => (100 * (axis.to - value)) / (axis.to - axis.from);
  const span = last.at - first.at;
  const x = ({ at }: RoutePair) => (span === 0 ? 50 : (100 * (at - first.at)) / span);
  const key = ({ patientTestId, builtInId }: RoutePair) => `${patientTestId} ${builtInId}`;
  const steps = drawn.flatMap((to, index) => {
    const from = drawn[index - 1];
    return from === undefined ? [] : [{ from, to, isOneEpoch: from.pair.epoch === to.pair.epoch }];
  });
  return {
    points: drawn.map(({ pair, value }) => ({
      key: key(pair),
      x: x(pair),
      y: y(value),
      mark: markOf(pair, scale),
      judged: pair[scale.quantity].z !== null,
    })),
    hairlines: steps.flatMap(({ from, to, isOneEpoch }) =>
      isOneEpoch
        ? [{ key: key(to.pair), x1: x(from.pair), y1: y(from.value), x2: x(to.pair), y2: y(to.value) }]
        : [],
    ),
    bands: steps.flatMap(({ from, to: { pair, band }, isOneEpoch }) => {
      if (band === null || !isOneEpoch) return [];
      const left = x(from.pair);
      const top = y(band.high);
      return [
        {
          key: key(pair),
          x: left,
          width: x(pair) - left,
          y: top,
          height: y(band.low) - top,
          meanY: y(band.mean),
        },
      ];
    }),
    epochs: steps.flatMap(({ to, isOneEpoch }) => (isOneEpoch ? [] : [x(to.pair)])),
    ticks: axis.ticks.map((tick) => ({ y: y(tick), text: scale.tick(tick, axis.step) })),
    zeroY: y(0),
    firstDay: civilDay(first.date),
    lastDay: civilDay(last.date),
    description: describe(
      drawn.map(({ value }) => value),
      [civilDay(first.date), civilDay(last.date)],
      scale,
    ),
  };
}

function markOf(pair: RoutePair, { quantity }: DifferenceScale): 'fail' | 'warn' | null {
  const finding = findingOf(pair[quantity]);
  if (finding === 'parted') return 'fail';
  return finding === 'unusual' ? 'warn' : null;
}

function describe(
  values: readonly number[],
  [from, to]: readonly [string, string],
  scale: DifferenceScale,
): string {
  const lowest = scale.signed(values.reduce((least, value) => Math.min(least, value)));
  const highest = scale.signed(values.reduce((most, value) => Math.max(most, value)));
  const newest = scale.signed(values.at(-1) ?? 0);
  const days = from === to ? `of ${from}` : `from ${from} to ${to}`;
  return `${counted(values.length, 'pair')} ${days}: patient test less built-in routine lies between ${lowest} and ${highest} ${scale.unit}, newest ${newest} ${scale.unit}. The pair table has the same numbers.`;
}
