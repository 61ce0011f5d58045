/** Units as spreadsheets write them, and what brings a number from one into the logbook's own. */

import type { DlcoUnit, PressureUnit } from '../core/index.ts';
import { withoutBinaryNoise } from '../journal/binaryNoise.ts';

export type VolumeUnit = 'L' | 'mL';
export type TemperatureUnit = '°C' | '°F';
export type HumidityUnit = '%' | 'fraction';
export type ImportUnit = VolumeUnit | TemperatureUnit | HumidityUnit | PressureUnit | DlcoUnit | 's';

/** Letters only: case, blanks, brackets, dots and the signs of multiplying and dividing say nothing that is needed. */
const bare = (text: string) =>
  text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[\s[\](){}.·⋅*×^_]/g, '')
    .replaceAll('−', '-');

const unitWords: Readonly<Record<string, ImportUnit>> = Object.assign(Object.create(null), {
  l: 'L',
  lit: 'L',
  liter: 'L',
  liters: 'L',
  litre: 'L',
  litres: 'L',
  dm3: 'L',
  ml: 'mL',
  cc: 'mL',
  cm3: 'mL',
  milliliter: 'mL',
  millilitres: 'mL',
  '°c': '°C',
  ºc: '°C',
  oc: '°C',
  c: '°C',
  degc: '°C',
  celsius: '°C',
  '°f': '°F',
  ºf: '°F',
  of: '°F',
  f: '°F',
  degf: '°F',
  fahrenheit: '°F',
  mmhg: 'mmHg',
  torr: 'mmHg',
  kpa: 'kPa',
  hpa: 'hPa',
  mbar: 'hPa',
  mb: 'hPa',
  '%': '%',
  '%rh': '%',
  percent: '%',
  fraction: 'fraction',
  s: 's',
  sec: 's',
  secs: 's',
  second: 's',
  seconds: 's',
});

/** What a unit's text means; null for a text that names none. `L BTPS` is litres: the condition is another matter. */
export function unitOf(text: string): ImportUnit | null {
  const word = bare(text)
    .replace(/(btps|atps|atpd|atp|stpd)$/, '')
    .replace(/,$/, '');
  if (word.length > 24) return null;
  const plain = unitWords[word];
  if (plain) return plain;
  // The orders and exponents in which uptake units are written are many, the parts are three.
  if (/^mmol(?=.*min)(?=.*kpa)/.test(word)) return 'mmol/min/kPa';
  if (/^ml(?=.*min)(?=.*mmhg)/.test(word)) return 'mL/min/mmHg';
  return null;
}

/** The number in the unit that the logbook keeps: litres, °C, percent; pressure and DLCO stay in the unit they have. */
export function inOwnUnit(value: number, unit: ImportUnit): number {
  switch (unit) {
    case 'mL':
      return withoutBinaryNoise(value / 1000);
    case '°F':
      // A hundredth of a degree is finer than any thermometer in a laboratory.
      return Number(((value - 32) / 1.8).toFixed(2));
    case 'fraction':
      return withoutBinaryNoise(value * 100);
    default:
      return value;
  }
}
