/** One gas analyzer against known dilutions: the newest check point by point, and the largest deviation over time. */
import type { Gas } from '../../journal/entries.ts';
import type { LoggedCheck } from '../../journal/logbook.ts';
import { gasFormulas } from '../gasNames.ts';
import { counted, day, dayAndTime, plain, signedPercent } from '../parts/figures.ts';
import { valueAxis } from '../parts/valueAxis.ts';
import { type GasLinearity, linearityOf } from './chartedChecks.ts';
import { percentWords, railsAt, timeAxis } from './deviationAxes.ts';
import type { Mark, MarkChartModel } from './markChartModel.ts';

export interface GasChecks {
  gas: Gas;
  /** Oldest first; at least one. */
  checks: readonly (GasLinearity & { check: LoggedCheck })[];
}

/** By gas, in the order in which they were first checked. */
export function gasesOf(checks: readonly LoggedCheck[]): GasChecks[] {
  const byGas = new Map<Gas, (GasLinearity & { check: LoggedCheck })[]>();
  for (const check of checks) {
    for (const one of linearityOf(check)) {
      const known = byGas.get(one.gas);
      if (known) known.push({ ...one, check });
      else byGas.set(one.gas, [{ ...one, check }]);
    }
  }
  return [...byGas].map(([gas, ofGas]) => ({ gas, checks: ofGas }));
}

const ticksOf = (ticks: readonly number[], step: number) =>
  new Map(ticks.map((tick) => [tick, signedPercent(tick / 100, step < 0.1 ? 2 : 1)]));

/** What was read less what was expected, at each dilution of the newest check. */
export function buildResidualChart({ gas, checks }: GasChecks): MarkChartModel | null {
  const newest = checks.at(-1);
  if (newest === undefined) return null;
  const { readings, judged, check } = newest;
  const { unit, limitFraction } = readings;
  const limit = limitFraction * 100;
  const marks = [...judged.points]
    .sort((one, other) => one.expected - other.expected)
    .map(
      ({ expected, read, deviationFraction, within }, index): Mark => ({
        key: `${index}`,
        x: expected,
        y: deviationFraction * 100,
        shape: 'circle',
        isOut: !within,
        label: `${signedPercent(deviationFraction, 2)} %`,
        told: `${plain(expected)} ${unit} expected, ${plain(read)} ${unit} read: ${signedPercent(deviationFraction, 2)} % of full scale${
          within ? '' : ', outside'
        }.`,
      }),
    );
  const y = valueAxis([0, limit, -limit, ...marks.map((mark) => mark.y)], 0.02);
  const content = valueAxis([0, readings.fullScale, ...marks.map(({ x }) => x)], readings.fullScale / 50);
  return {
    title: `${gasFormulas[gas]}, ${day(check.entry.body.doneAt, check.entry.zone)}: each dilution`,
    description: `${counted(marks.length, 'dilution')} of ${gasFormulas[gas]}, read less expected in % of full scale, limits ±${percentWords(limit)} %: ${marks
      .map(({ told }) => told)
      .join(' ')}`,
    x: {
      from: content.from,
      to: content.to,
      ticks: content.ticks
        .filter((tick) => tick >= 0)
        .map((at) => ({ at, text: plain(Number(at.toPrecision(6))) })),
      title: `expected, ${unit}`,
    },
    y,
    yTicks: ticksOf(y.ticks, y.step),
    yTitle: 'read less expected, % of full scale',
    rails: railsAt(limit),
    lines: [{ key: gas, points: marks.map((mark) => ({ x: mark.x, y: mark.y })) }],
    marks,
    shapes: [],
  };
}

/** The deviation farthest from 0 of each check. */
export function buildWorstChart({ gas, checks }: GasChecks): MarkChartModel | null {
  const marks = checks.map(({ check, judged }): Mark => {
    const { doneAt } = check.entry.body;
    const words = `${signedPercent(judged.worstFraction, 2)} %`;
    return {
      key: check.id,
      x: Date.parse(doneAt),
      y: judged.worstFraction * 100,
      shape: 'circle',
      isOut: !judged.within,
      label: words,
      told: `${dayAndTime(doneAt, check.entry.zone)}: ${words} of full scale at the most${judged.within ? '' : ', outside'}.`,
    };
  });
  const [first, last, newest] = [marks[0], marks.at(-1), checks.at(-1)];
  if (first === undefined || last === undefined || newest === undefined) return null;
  const limit = newest.readings.limitFraction * 100;
  const y = valueAxis([0, limit, -limit, ...marks.map((mark) => mark.y)], 0.02);
  return {
    title: `${gasFormulas[gas]}: largest deviation of each check`,
    description: `${counted(marks.length, 'check')} of ${gasFormulas[gas]} from ${day(first.x)} to ${day(last.x)}, limits ±${percentWords(limit)} % of full scale. Last: ${last.told} The table has the same numbers.`,
    x: timeAxis(first.x, last.x),
    y,
    yTicks: ticksOf(y.ticks, y.step),
    yTitle: 'largest deviation, % of full scale',
    rails: railsAt(limit),
    lines: [{ key: gas, points: marks.map((mark) => ({ x: mark.x, y: mark.y })) }],
    marks,
    shapes: [],
  };
}
