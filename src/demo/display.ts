/** What stands on an analyzer's display after a run, and in the room beside it: the truth, with the digits they have. */
import { type Ambient, dlcoFromMlMinMmHg, pressureInMmHg } from '../core/index.ts';
import type { PressureUnit, RunBody } from '../journal/entries.ts';
import { reportOf } from './analyzerModel.ts';
import type { Deviates, Room } from './chance.ts';
import { type AnalyzerPlan, type RouteTruth, syringes } from './scenario.ts';

export interface Moment {
  room: Room;
  truth: RouteTruth;
  /** What a fault adds in this week. */
  leak: number;
  addedDlcoOffset: number;
  deviates: Deviates;
}

const pressureDecimals: Record<PressureUnit, number> = { mmHg: 0, kPa: 1, hPa: 0 };
/** Scatter of the volume check, as a fraction, of the breath-hold time in s, and of the humidity. */
const [checkSd, breathHoldSd, humiditySd] = [0.005, 0.15, 0.05];

export const rounded = (value: number, decimals: number) => Number(value.toFixed(decimals));

export function displayOf(
  { description, reports }: Pick<AnalyzerPlan, 'description' | 'reports'>,
  { room, truth, leak, addedDlcoOffset, deviates }: Moment,
): Pick<RunBody, 'ambient' | 'pressureAsTyped' | 'reading'> {
  const { pressureUnit, volumeInsideL, analyzerDeadSpaceL, dlcoUnit, vaReportedAs } = description;
  const [{ volumeL, deadSpaceL }] = syringes;
  const breathHoldS = rounded(10.2 + breathHoldSd * deviates.check, 1);
  const reported = reportOf({
    ambient: { temperatureC: room.temperatureC, barometricMmHg: room.pressureMmHg },
    strokeL: volumeL - volumeInsideL,
    volumeInsideL,
    syringeDeadSpaceL: deadSpaceL,
    analyzerDeadSpaceL,
    gain: truth.gain + truth.gainSd * deviates.va,
    leak,
    dlcoOffset: truth.dlcoOffset + truth.dlcoSd * deviates.dlco + addedDlcoOffset,
    breathHoldS,
  });

  const pressure = room.pressureMmHg / pressureInMmHg(1, pressureUnit);
  const typed = rounded(pressure, pressureDecimals[pressureUnit]);
  const ambient: Ambient = {
    temperatureC: rounded(room.temperatureC, 1),
    barometricMmHg: pressureInMmHg(typed, pressureUnit),
    ...(reports.humidity ? { relativeHumidity: rounded(0.4 + humiditySd * deviates.check, 2) } : {}),
  };
  const dlco = dlcoFromMlMinMmHg(reported.dlcoMlMinMmHg, dlcoUnit);
  const reading: RunBody['reading'] = {
    vaL: rounded(reported.vaL, 2),
    vaReportedAs,
    dlco: rounded(dlco, dlcoUnit === 'mmol/min/kPa' ? 3 : 2),
    dlcoUnit,
    breathHoldS,
    ...(reports.inspiredVolume ? { inspiredVolumeL: rounded(reported.inspiredVolumeL, 2) } : {}),
    ...(reports.volumeCheck
      ? { volumeCheckL: rounded(reported.volumeCheckL * (1 + checkSd * deviates.check), 2) }
      : {}),
  };
  return { ambient, pressureAsTyped: { value: typed, unit: pressureUnit }, reading };
}
