/** The published limits of syringe runs in words. Pure. */
import type { PublishedLimits } from '../core/index.ts';
import { withoutBinaryNoise } from '../journal/binaryNoise.ts';
import type { FieldInWords } from './parts/fieldsInWords.ts';
import { plain } from './parts/figures.ts';

export type LimitValues = Omit<PublishedLimits, 'edition' | 'source'>;

export const millilitres = (litres: number) => withoutBinaryNoise(litres * 1000);
export const percentOf = (fraction: number) => withoutBinaryNoise(fraction * 100);

export const valuesInWords = (limits: LimitValues): FieldInWords[] => [
  { name: 'VA', value: `±${plain(millilitres(limits.vaToleranceL))} mL, ends included` },
  { name: 'DLCO in mL/min/mmHg', value: `below ${plain(limits.dlcoMlMinMmHg)} on either side of zero` },
  { name: 'DLCO in mmol/min/kPa', value: `below ${plain(limits.dlcoMmolMinKPa)} on either side of zero` },
  { name: 'Volume check', value: `±${plain(percentOf(limits.volumeCheckFraction))} % of what is expected` },
  {
    name: 'Breath-hold',
    value: `${plain(limits.breathHoldS.target)} ± ${plain(limits.breathHoldS.tolerance)} s`,
  },
];

export const limitsInWords = (limits: PublishedLimits): FieldInWords[] => [
  { name: 'Edition', value: limits.edition },
  { name: 'Source', value: limits.source },
  ...valuesInWords(limits),
];
