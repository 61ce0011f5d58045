/** The checks of an analyzer that have figures and are charted: volume at several flows, and a gas analyzer's linearity. */
import {
  type Linearity,
  linearityCheck,
  type VolumeCalibration,
  volumeCalibrationCheck,
} from '../../core/index.ts';
import type { EntryBody } from '../../journal/entries.ts';
import type { Logbook, LoggedCheck } from '../../journal/logbook.ts';
import type { MarkShape } from '../parts/verdictMark.tsx';
import type { ChartedCheck } from './controlsAddress.ts';

/** Of one analyzer, those that stand, oldest first. */
export function checksOf(
  { checks }: Pick<Logbook, 'checks'>,
  analyzerId: string,
  check: ChartedCheck,
): readonly LoggedCheck[] {
  return checks
    .filter(
      ({ entry, voided }) =>
        voided === null && entry.body.check === check && entry.body.analyzerId === analyzerId,
    )
    .sort((one, other) => Date.parse(one.entry.body.doneAt) - Date.parse(other.entry.body.doneAt));
}

export const volumeOf = ({ entry }: LoggedCheck): VolumeCalibration | null =>
  entry.body.volume && volumeCalibrationCheck(entry.body.volume);

type LinearityReadings = NonNullable<EntryBody<'check-done'>['linearity']>[number];

export interface GasLinearity {
  gas: LinearityReadings['gas'];
  readings: LinearityReadings;
  judged: Linearity;
}

export const linearityOf = ({ entry }: LoggedCheck): readonly GasLinearity[] =>
  (entry.body.linearity ?? []).map((readings) => ({
    gas: readings.gas,
    readings,
    judged: linearityCheck(readings),
  }));

/** As it was written; null where it was noted without a word. */
export function markOfCheck({ entry }: LoggedCheck): Extract<MarkShape, 'pass' | 'fail'> | null {
  const { outcome } = entry.body;
  return outcome === 'noted' ? null : outcome === 'passed' ? 'pass' : 'fail';
}
