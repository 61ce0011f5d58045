/** What was written of a control when it was made, or last amended: the verdict of the day, which nothing later moves. Pure. */
import { predictionFactor } from '../core/index.ts';
import type { Control, ControlJudgement } from '../journal/entries.ts';
import type { LoggedControl } from '../journal/logbook.ts';

export const judgedAsWritten = ({ entry, amendments }: LoggedControl): ControlJudgement =>
  amendments.at(-1)?.body.judged ?? entry.body.judged;

/** What it said when it was recorded and after each amendment; the last is as it stands. */
export const contentsOf = ({ entry, amendments }: LoggedControl): Control[] => [
  entry.body.control,
  ...amendments.map(({ body }) => body.control),
];

/** Beyond this many SD a series has moved, whether or not a rule is set to notice one test alone; wider where few tests made the SD. */
const movedFromSd = 2;
const hasMoved = (z: number | null, n: number) =>
  z !== null && n >= 2 && Math.abs(z) > predictionFactor(n, movedFromSd);

/**
 * What a control says of its analyzer on its day: off where a published limit, an action rule or 2 SD are passed in any of its
 * series. Undefined where nothing could judge it yet, and where it takes part in nothing.
 */
export function standingOfControl(control: LoggedControl): 'good' | 'off' | undefined {
  const { series } = judgedAsWritten(control);
  if (control.excluded || series.every(({ withinPublished, z }) => withinPublished === null && z === null))
    return undefined;
  const isOff = series.some(
    ({ withinPublished, z, n, signals }) =>
      withinPublished === false || hasMoved(z, n) || signals.some(({ severity }) => severity === 'action'),
  );
  return isOff ? 'off' : 'good';
}
