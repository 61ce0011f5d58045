/** A typed DLCO in its other unit, said beside the field. Pure. */
import { type DlcoUnit, dlcoFromMlMinMmHg, dlcoInMlMinMmHg } from '../../core/index.ts';
import { dlco } from '../parts/figures.ts';
import { readNumber } from '../parts/readNumber.ts';
import { dlcoUnits } from '../parts/words.ts';
import { uptakeSpec } from './controlNumbers.ts';

/** `= 8.500 mmol/min/kPa`; null where nothing that can be is typed. */
export function inOtherDlcoUnit(text: string, unit: DlcoUnit): string | null {
  const read = readNumber(text, uptakeSpec(unit));
  const other = dlcoUnits.find((one) => one !== unit);
  if (read.state !== 'number' || other === undefined) return null;
  return `= ${dlco(dlcoFromMlMinMmHg(dlcoInMlMinMmHg(read.value, unit), other), other)} ${other}`;
}
