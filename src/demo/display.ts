/** What stands on an analyzer's display after a run, and in the room beside it: the truth, with the digits they have. */
import { type Ambient, dlcoFromMlMinMmHg, pressureInMmHg } from '../core/index.ts';
import { withoutBinaryNoise } from '../journal/binaryNoise.ts';
import type { PressureUnit, RunContent } from '../journal/entries.ts';
import { reportOf } from './analyzerModel.ts';
import type { Deviates, Room } from './chance.ts';
import type { AnalyzerPlan, RouteTruth } from './plan.ts';

export interface Moment {
  room: Room;
  truth: RouteTruth;
  leak: number;
  deviates: Deviates;
}

const pressureDecimals: Record<PressureUnit, number> = { mmHg: 0, kPa: 1, hPa: 0 };
/** Scatter of the volume check, as a fraction, of the breath-hold time in s, and of the humidity. */
const [checkSd, breathHoldSd, humiditySd] = [0.005, 0.15, 0.05];

export const rounded = (value: number, decimals: number) => Number(value.toFixed(decimals));

export function displayOf(
  {
    description,
    reports,
    readsFahrenheit,
  }: Pick<AnalyzerPlan, 'description' | 'reports' | 'readsFahrenheit'>,
  syringe: RunContent['syringe'],
  { room, truth, leak, deviates }: Moment,
): Pick<RunContent, 'ambient' | 'pressureAsTyped' | 'temperatureAsTyped' | 'reading'> {
  const { pressureUnit, analyzerDeadSpaceL, dlcoUnit, vaReportedAs } = description;
  const breathHoldS = rounded(10.2 + breathHoldSd * deviates.check, 1);
  const reported = reportOf({
    ambient: { temperatureC: room.temperatureC, barometricMmHg: room.pressureMmHg },
    strokeL: syringe.strokeL,
    volumeInsideL: syringe.volumeInsideL,
    syringeDeadSpaceL: syringe.deadSpaceL,
    analyzerDeadSpaceL,
    gain: truth.gain + truth.gainSd * deviates.va,
    leak,
    dlcoOffset: truth.dlcoOffset + truth.dlcoSd * deviates.dlco,
    breathHoldS,
  });

  const pressure = room.pressureMmHg / pressureInMmHg(1, pressureUnit);
  const typed = rounded(pressure, pressureDecimals[pressureUnit]);
  const fahrenheit = rounded(room.temperatureC * 1.8 + 32, 1);
  const ambient: Ambient = {
    temperatureC: readsFahrenheit
      ? withoutBinaryNoise((fahrenheit - 32) / 1.8)
      : rounded(room.temperatureC, 1),
    barometricMmHg: pressureInMmHg(typed, pressureUnit),
    ...(reports.humidity ? { relativeHumidity: rounded(0.4 + humiditySd * deviates.check, 2) } : {}),
  };
  const dlco = dlcoFromMlMinMmHg(reported.dlcoMlMinMmHg, dlcoUnit);
  const reading: RunContent['reading'] = {
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
  return {
    ambient,
    pressureAsTyped: { value: typed, unit: pressureUnit },
    ...(readsFahrenheit ? { temperatureAsTyped: { value: fahrenheit, unit: '°F' } } : {}),
    reading,
  };
}
