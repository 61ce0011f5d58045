/** Reads an imported number as a typed one is read: the same plausible range, the same slips, the same words. */
import type { ReadMeasured } from '../../exchange/importCells.ts';
import { type NumberSpec, readNumber } from '../parts/readNumber.ts';
import {
  breathHoldSpec,
  dlcoSpec,
  humiditySpec,
  inspiredVolumeSpec,
  pressureSpec,
  temperatureSpec,
  vaSpec,
  volumeCheckSpec,
} from './quantities.ts';

type MeasuredField = Parameters<ReadMeasured>[0];
type Unit = Parameters<ReadMeasured>[1];

const pressureSpecs: ReadonlyMap<Unit, NumberSpec> = new Map(
  (['mmHg', 'hPa', 'kPa'] as const).map((unit) => [unit, pressureSpec(unit)]),
);
const dlcoSpecs: ReadonlyMap<Unit, NumberSpec> = new Map(
  (['mL/min/mmHg', 'mmol/min/kPa'] as const).map((unit) => [unit, dlcoSpec(unit)]),
);
const specs: Partial<Record<MeasuredField, NumberSpec>> = {
  temperature: temperatureSpec('°C'),
  humidity: humiditySpec,
  va: vaSpec,
  inspiredVolume: inspiredVolumeSpec,
  volumeCheck: volumeCheckSpec,
  breathHold: breathHoldSpec,
};

function specOf(field: MeasuredField, unit: Unit): NumberSpec | undefined {
  if (field === 'pressure') return pressureSpecs.get(unit);
  if (field === 'dlco') return dlcoSpecs.get(unit);
  // Whatever the column's unit, it comes here in the logbook's own; without one nobody knows what it is.
  return unit === null ? undefined : specs[field];
}

export const readMeasured: ReadMeasured = (field, unit, text) => {
  const spec = specOf(field, unit);
  if (!spec) return { state: 'wrong', message: 'its unit has not been chosen.' };
  const read = readNumber(text, spec);
  if (read.state !== 'empty') return read;
  return { state: 'wrong', message: 'it is empty.' };
};
