/** What can be typed at the bench: plausible ranges and the slips that are worth naming. */
import { type DlcoUnit, type PressureUnit, pressureInMmHg } from '../../core/index.ts';
import type { TemperatureUnit } from '../../journal/entries.ts';
import type { NumberSpec, OtherUnit } from '../parts/readNumber.ts';
import { pressureUnits } from '../parts/words.ts';
import type { BenchDraft, NumberFieldName } from './benchDraft.ts';

/** The lowest is a laboratory at about 5,500 m, the highest lies above any weather at sea level. */
const pressureRanges: Record<PressureUnit, { lowest: number; highest: number; example: string }> = {
  mmHg: { lowest: 375, highest: 825, example: '758' },
  kPa: { lowest: 50, highest: 110, example: '101.1' },
  hPa: { lowest: 500, highest: 1100, example: '1011' },
};

/** One inch of mercury is 25.4 of its millimetres, by the definition of the inch. */
const mmHgPerInHg = 25.4;

/** What an aviation or household barometer shows; no analyzer takes it, so that it is only recognised. */
const inchesOfMercury = (unit: PressureUnit): OtherUnit => ({
  unit: 'inHg',
  lowest: pressureRanges.mmHg.lowest / mmHgPerInHg,
  highest: pressureRanges.mmHg.highest / mmHgPerInHg,
  inThisUnit: (inches) => (inches * mmHgPerInHg) / pressureInMmHg(1, unit),
  canBeChosen: false,
});

export function pressureSpec(unit: PressureUnit): NumberSpec {
  const otherUnits = pressureUnits
    .filter((other) => other !== unit)
    .map(
      (other): OtherUnit => ({
        unit: other,
        lowest: pressureRanges[other].lowest,
        highest: pressureRanges[other].highest,
        inThisUnit: (value) => pressureInMmHg(value, other) / pressureInMmHg(1, unit),
        canBeChosen: true,
      }),
    );
  return {
    name: 'pressure',
    unit,
    ...pressureRanges[unit],
    otherUnits: [...otherUnits, inchesOfMercury(unit)],
  };
}

export const celsiusOf = (value: number, unit: TemperatureUnit) =>
  unit === '°C' ? value : (value - 32) / 1.8;

const temperatureRanges: Record<TemperatureUnit, { lowest: number; highest: number; example: string }> = {
  '°C': { lowest: 5, highest: 45, example: '22.0' },
  '°F': { lowest: 46, highest: 113, example: '72.0' },
};

export function temperatureSpec(unit: TemperatureUnit): NumberSpec {
  const other = unit === '°C' ? '°F' : '°C';
  const { lowest, highest } = temperatureRanges[other];
  const inThisUnit = (value: number) => (unit === '°C' ? celsiusOf(value, '°F') : value * 1.8 + 32);
  return {
    name: 'temperature',
    unit,
    ...temperatureRanges[unit],
    otherUnits: [{ unit: other, lowest, highest, inThisUnit, canBeChosen: true }],
  };
}

export const humiditySpec: NumberSpec = {
  name: 'relative humidity',
  unit: '%',
  lowest: 2,
  highest: 100,
  example: '45',
  otherUnits: [
    {
      unit: 'a fraction',
      lowest: 0.02,
      highest: 1,
      inThisUnit: (fraction) => fraction * 100,
      canBeChosen: false,
    },
  ],
};

const typedInMillilitres: OtherUnit = {
  unit: 'mL',
  lowest: 500,
  highest: 9000,
  inThisUnit: (millilitres) => millilitres / 1000,
  canBeChosen: false,
};

function volumeSpec(name: string, example: string): NumberSpec {
  return { name, unit: 'L', lowest: 0.5, highest: 9, example, otherUnits: [typedInMillilitres] };
}

export const vaSpec = volumeSpec('alveolar volume', '3.36');
export const inspiredVolumeSpec = volumeSpec('inspired volume', '3.32');
export const volumeCheckSpec = volumeSpec('volume check', '3.31');

export const breathHoldSpec: NumberSpec = {
  name: 'breath-hold time',
  unit: 's',
  lowest: 3,
  highest: 30,
  example: '10.1',
};

const dlcoSpecs: Record<DlcoUnit, NumberSpec> = {
  'mL/min/mmHg': { name: 'DLCO', unit: 'mL/min/mmHg', lowest: -20, highest: 20, example: '0.12' },
  'mmol/min/kPa': { name: 'DLCO', unit: 'mmol/min/kPa', lowest: -6.7, highest: 6.7, example: '0.040' },
};

export const dlcoSpec = (unit: DlcoUnit): NumberSpec => dlcoSpecs[unit];

/** How a field is read, in the units that a form has chosen. */
export function specOf(field: NumberFieldName, draft: BenchDraft): NumberSpec {
  switch (field) {
    case 'temperature':
      return temperatureSpec(draft.temperatureUnit);
    case 'pressure':
      return pressureSpec(draft.pressureUnit);
    case 'dlco':
      return dlcoSpec(draft.dlcoUnit);
    case 'humidity':
      return humiditySpec;
    case 'va':
      return vaSpec;
    case 'inspiredVolume':
      return inspiredVolumeSpec;
    case 'volumeCheck':
      return volumeCheckSpec;
    case 'breathHold':
      return breathHoldSpec;
  }
}
