/** The units that a report prints, in the spellings that are met, and what the form makes of them. */
import type { BenchDraft, NumberFieldName } from './benchDraft.ts';

/** What is to be chosen in the form for a number in this unit, and by what the number is multiplied to fit there. */
export interface ReportUnit {
  /** As the form writes it. */
  written: string;
  choice: Partial<BenchDraft>;
  /** Powers of ten by which the decimal mark moves: −3 from mL to L. */
  shift: number;
}

const litres: readonly [RegExp, ReportUnit][] = [
  [/^(?:l|litres?|liters?|liter|litros?)$/, { written: 'L', choice: {}, shift: 0 }],
  [/^ml$/, { written: 'mL', choice: {}, shift: -3 }],
];

const units: Record<NumberFieldName, readonly [RegExp, ReportUnit][]> = {
  va: litres,
  inspiredVolume: litres,
  volumeCheck: litres,
  breathHold: [
    [/^(?:s|sec|sek|seg|seconds?|sekunden?|secondes?|segundos?)$/, { written: 's', choice: {}, shift: 0 }],
  ],
  humidity: [[/^%$/, { written: '%', choice: {}, shift: 0 }]],
  temperature: [
    [/^(?:°|º|deg ?)?c(?:elsius)?$/, { written: '°C', choice: { temperatureUnit: '°C' }, shift: 0 }],
    [/^(?:°|º|deg ?)?f(?:ahrenheit)?$/, { written: '°F', choice: { temperatureUnit: '°F' }, shift: 0 }],
  ],
  pressure: [
    [/^(?:mmhg|torr)$/, { written: 'mmHg', choice: { pressureUnit: 'mmHg' }, shift: 0 }],
    [/^(?:hpa|mbar)$/, { written: 'hPa', choice: { pressureUnit: 'hPa' }, shift: 0 }],
    [/^kpa$/, { written: 'kPa', choice: { pressureUnit: 'kPa' }, shift: 0 }],
  ],
  dlco: [
    [
      /^ml\/(?:min\/mmhg|mmhg\/min|min\/torr|torr\/min)$/,
      { written: 'mL/min/mmHg', choice: { dlcoUnit: 'mL/min/mmHg' }, shift: 0 },
    ],
    [
      /^mmol\/(?:min\/kpa|kpa\/min)$/,
      { written: 'mmol/min/kPa', choice: { dlcoUnit: 'mmol/min/kPa' }, shift: 0 },
    ],
  ],
};

/** Where only one unit is usual, a number without one is read in it. */
const silent: Partial<Record<NumberFieldName, ReportUnit>> = {
  va: { written: 'L', choice: {}, shift: 0 },
  inspiredVolume: { written: 'L', choice: {}, shift: 0 },
  volumeCheck: { written: 'L', choice: {}, shift: 0 },
  breathHold: { written: 's', choice: {}, shift: 0 },
};

/** One spelling: `mmol/(min*kPa)`, `mmol·min⁻¹·kPa⁻¹` and `mmol/min/kPa` are one. */
const plainUnit = (text: string): string =>
  text
    .toLowerCase()
    .replace(/⁻¹|\^-1|-1/g, '^')
    .replace(/[[\]()\s]/g, '')
    .replace(/([a-z]+)\^/g, '/$1')
    .replace(/[·*.]\//g, '/')
    .replace(/^([a-z]+)\/([a-z]+)[·*.]([a-z]+)$/, '$1/$2/$3');

/** The unit that a text names; null where there is none that a field knows; undefined where it names none at all. */
export function unitNamed(field: NumberFieldName, text: string): ReportUnit | null | undefined {
  const plain = plainUnit(text);
  if (plain === '') return silent[field];
  return units[field].find(([pattern]) => pattern.test(plain))?.[1] ?? null;
}

/** Whether a text is any unit at all, such as one between a number and the next label. */
export const isUnit = (text: string): boolean => {
  const plain = plainUnit(text);
  return Object.values(units).some((known) => known.some(([pattern]) => pattern.test(plain)));
};
