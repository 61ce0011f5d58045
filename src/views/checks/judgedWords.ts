/** How figures come out, in sentences beside their fields. Pure. */
import type { AgainstReference, Linearity } from '../../core/index.ts';
import { limitPercent, plain, signedMillilitres, signedPercent } from '../parts/figures.ts';
import type { GasDraft } from './checkDraft.ts';
import type { JudgedVolume } from './readVolume.ts';

const inOrOut = (within: boolean) => (within ? 'inside' : 'outside');

/** `+0.7 %`, or `−3.3 %, outside`. */
export const offInWords = (
  { deviationFraction, within }: { deviationFraction: number; within: boolean },
  decimals = 1,
) => `${signedPercent(deviationFraction, decimals)} %${within ? '' : ', outside'}`;

/** `Furthest +2.7 %, outside ±2.5 %. Published: three flows; one is not read.` */
export function volumeSentence({ calibration, limitFraction, missing }: JudgedVolume): string {
  const { worstFraction, within } = calibration;
  const judged = `Furthest ${signedPercent(worstFraction ?? 0)} %, ${inOrOut(within ?? true)} ±${limitPercent(limitFraction)} %.`;
  if (missing <= 0) return judged;
  return `${judged} Published: three flows; ${missing === 1 ? 'one is' : 'two are'} not read.`;
}

export function againstLimit(
  { deviationFraction, within }: AgainstReference,
  limitFraction: number,
  of: string,
): string {
  return `${signedPercent(deviationFraction, 2)} % of ${of}, ${inOrOut(within)} ±${limitPercent(limitFraction)} %.`;
}

/** `+12 mL, +0.40 % of the nominal volume, inside ±0.5 %.` */
export const syringeSentence = (judged: AgainstReference, limitFraction: number) =>
  `${signedMillilitres(judged.deviation * 1000)} mL, ${againstLimit(judged, limitFraction, 'the nominal volume')}`;

/** `Furthest +0.40 % of full scale, at 0.15 %, inside ±0.5 %.` */
export function linearitySentence(
  { worstFraction, within, points }: Linearity,
  limitFraction: number,
  unit: GasDraft['unit'],
): string {
  const farthest = points.find(({ deviationFraction }) => deviationFraction === worstFraction);
  const where = farthest === undefined ? '' : `, at ${plain(farthest.expected)} ${unit}`;
  return `Furthest ${signedPercent(worstFraction, 2)} % of full scale${where}, ${inOrOut(within)} ±${limitPercent(limitFraction)} %.`;
}
