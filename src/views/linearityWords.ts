/** What the line through the points of a linearity check says, wherever one is shown. Pure. */
import type { Linearity } from '../core/index.ts';
import type { Linearity as WrittenLinearity } from '../journal/entries.ts';
import { counted, plain, signedPercent } from './parts/figures.ts';

/** Four digits: beyond them a line through a handful of points says nothing. */
const rounded = (value: number) => plain(Number(value.toPrecision(4)));

/** The least-squares line through the points, and where they do not pass, what it says of the fault. */
export function lineSentences(
  { line, worstFromLineFraction, within, isStraight, points }: Linearity,
  unit: WrittenLinearity['unit'],
): string[] {
  if (line === null) return ['No two dilutions differ: there is no line through them.'];
  const fit = `Line through ${counted(points.length, 'point')}: reads ${rounded(line.slope)} × the dilution ${
    line.intercept < 0 ? '−' : '+'
  } ${rounded(Math.abs(line.intercept))} ${unit}.`;
  if (isStraight === null || worstFromLineFraction === null) {
    return [fit, 'Two points are always on a line: a third tells whether it is straight.'];
  }
  const scatter = `Furthest from that line ${signedPercent(worstFromLineFraction, 2)} % of full scale.`;
  // Points that pass may bend a little more about their own line than about the one they should lie on: no news.
  if (within) return [fit, scatter];
  const meaning = isStraight
    ? 'On a straight line, though not the right one: gain or zero is off, which a calibration can put right.'
    : 'Not on a straight line: a calibration at two points does not put this right.';
  return [fit, scatter, meaning];
}
