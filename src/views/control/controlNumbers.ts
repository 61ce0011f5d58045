/** What can be typed of a control: plausible ranges and the slips that are worth naming. */
import type { DlcoUnit } from '../../core/index.ts';
import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import type { HaemoglobinUnit } from '../../journal/entries.ts';
import { inField } from '../parts/figures.ts';
import type { NumberSpec, OtherUnit } from '../parts/readNumber.ts';
import { inspiredVolumeSpec, vaSpec } from '../runForm/quantities.ts';

/** A person or a simulator takes up gas, unlike a syringe; from a child's lung to a large athlete's. */
const dlcoSpecs: Record<DlcoUnit, NumberSpec> = {
  'mL/min/mmHg': { name: 'DLCO', unit: 'mL/min/mmHg', lowest: 1, highest: 90, example: '25.40' },
  'mmol/min/kPa': { name: 'DLCO', unit: 'mmol/min/kPa', lowest: 0.3, highest: 30, example: '8.500' },
};
export const uptakeSpec = (unit: DlcoUnit): NumberSpec => dlcoSpecs[unit];
export const targetSpec = (unit: DlcoUnit): NumberSpec => ({ ...dlcoSpecs[unit], name: 'target' });

export const personsVaSpec: NumberSpec = { ...vaSpec, highest: 12, example: '5.92' };
export const personsInspiredSpec: NumberSpec = { ...inspiredVolumeSpec, example: '4.80' };

const haemoglobinRanges: Record<HaemoglobinUnit, { lowest: number; highest: number; example: string }> = {
  'g/dL': { lowest: 4, highest: 24, example: '14.2' },
  'g/L': { lowest: 40, highest: 240, example: '142' },
  'mmol/L': { lowest: 2.5, highest: 15, example: '8.8' },
};

export const haemoglobinUnits: readonly HaemoglobinUnit[] = ['g/dL', 'g/L', 'mmol/L'];

/** g/dL and g/L cannot be mistaken for each other. mmol/L lies within the range of g/dL: what was meant cannot be told. */
export function haemoglobinSpec(unit: HaemoglobinUnit): NumberSpec {
  const other: HaemoglobinUnit = unit === 'g/L' ? 'g/dL' : 'g/L';
  const { lowest, highest } = haemoglobinRanges[other];
  const inThisUnit = (value: number) => (unit === 'g/L' ? value * 10 : value / 10);
  const otherUnits: OtherUnit[] = [{ unit: other, lowest, highest, inThisUnit, canBeChosen: true }];
  return {
    name: 'haemoglobin',
    unit,
    ...haemoglobinRanges[unit],
    ...(unit === 'mmol/L' ? {} : { otherUnits }),
  };
}

const asFraction: OtherUnit = {
  unit: 'a fraction',
  lowest: 0.0001,
  highest: 0.0099,
  inThisUnit: (fraction) => fraction * 100,
  canBeChosen: false,
};
const partsPerMillion = (highestPercent: number): OtherUnit => ({
  unit: 'ppm',
  lowest: 100,
  highest: highestPercent * 10_000,
  inThisUnit: (ppm) => ppm / 10_000,
  canBeChosen: false,
});

export const carbonMonoxideSpec: NumberSpec = {
  name: 'carbon monoxide',
  unit: '%',
  lowest: 0.01,
  highest: 1,
  example: '0.300',
  otherUnits: [asFraction, partsPerMillion(1)],
};
export const tracerSpec: NumberSpec = {
  name: 'tracer gas',
  unit: '%',
  lowest: 0.01,
  highest: 30,
  example: '0.300',
  otherUnits: [asFraction, partsPerMillion(30)],
};

/** 0.29 % is 0.0029, not 0.0028999999999999998. */
export const fractionOfPercent = (percent: number) => withoutBinaryNoise(percent / 100);
export const percentInField = (fraction: number) => inField(withoutBinaryNoise(fraction * 100));
