/** The typed number in another unit of the same quantity: said beside the field, or put in its place at a press. Pure. */
import { dlcoFromMlMinMmHg, dlcoInMlMinMmHg, pressureInMmHg } from '../../core/index.ts';
import { dlco, inField, plain } from '../parts/figures.ts';
import { type NumberSpec, readNumber } from '../parts/readNumber.ts';
import { dlcoUnits, pressureUnits } from '../parts/words.ts';
import type { BenchDraft, NumberFieldName } from './benchDraft.ts';
import { celsiusOf, dlcoSpec, pressureSpec, temperatureSpec } from './quantities.ts';

const typed = (text: string, spec: NumberSpec): number | null => {
  const read = readNumber(text, spec);
  return read.state === 'number' ? read.value : null;
};

const tenths = (value: number) => plain(Number(value.toFixed(1)));

/** `= 759.8 mmHg`: in the unit that the run is judged in, or DLCO's other one; null where there is nothing to say. */
export function inOtherUnit(draft: BenchDraft, field: NumberFieldName): string | null {
  switch (field) {
    case 'pressure': {
      const { pressureUnit: unit } = draft;
      const value = unit === 'mmHg' ? null : typed(draft.pressure, pressureSpec(unit));
      return value === null ? null : `= ${tenths(pressureInMmHg(value, unit))} mmHg`;
    }
    case 'temperature': {
      const { temperatureUnit: unit } = draft;
      const value = unit === '°C' ? null : typed(draft.temperature, temperatureSpec(unit));
      return value === null ? null : `= ${tenths(celsiusOf(value, unit))} °C`;
    }
    case 'dlco': {
      const value = typed(draft.dlco, dlcoSpec(draft.dlcoUnit));
      const other = dlcoUnits.find((unit) => unit !== draft.dlcoUnit);
      if (value === null || other === undefined) return null;
      return `= ${dlco(dlcoFromMlMinMmHg(dlcoInMlMinMmHg(value, draft.dlcoUnit), other), other)} ${other}`;
    }
    default:
      return null;
  }
}

/**
 * The typed number, which can only have been read in `unit`, in the unit that is chosen now, to four digits; null where
 * the field knows no such unit.
 */
export function convertedFrom(draft: BenchDraft, field: NumberFieldName, unit: string): string | null {
  const spec =
    field === 'pressure'
      ? pressureSpec(draft.pressureUnit)
      : field === 'temperature'
        ? temperatureSpec(draft.temperatureUnit)
        : null;
  const other = spec?.otherUnits?.find((one) => one.unit === unit);
  if (other === undefined) return null;
  const value = typed(draft[field], { ...other, name: '', example: '' });
  return value === null ? null : inField(Number(other.inThisUnit(value).toPrecision(4)));
}

/** The change that chooses a unit for a field. */
export function choosing(field: NumberFieldName, unit: string): Partial<BenchDraft> {
  if (field === 'temperature') return unit === '°C' || unit === '°F' ? { temperatureUnit: unit } : {};
  const pressureUnit = pressureUnits.find((one) => one === unit);
  return field === 'pressure' && pressureUnit !== undefined ? { pressureUnit } : {};
}
