/** What the figures of a noted check say, a sentence each: wherever noted checks are listed. Pure. */
import { barometerCheck, linearityCheck, syringeVolumeCheck, volumeCalibrationCheck } from '../core/index.ts';
import type { EntryBody, Linearity } from '../journal/entries.ts';
import { gasFormulas } from './gasNames.ts';
import { counted, limitPercent, litresAsTyped, plain, signedPercent } from './parts/figures.ts';

type Body = EntryBody<'check-done'>;
type Figures = Pick<Body, 'volume' | 'linearity' | 'syringe' | 'barometer'>;

/** A reading stands whole on its line. */
const unbroken = '\u00a0';

/** Empty for a check of which only a word was noted. */
export function figuresInWords({ volume, linearity, syringe, barometer }: Figures): string[] {
  return [
    ...(volume === null ? [] : [volumeInWords(volume)]),
    ...(linearity ?? []).map(linearityInWords),
    ...(syringe === undefined ? [] : [syringeVolumeInWords(syringe)]),
    ...(barometer === undefined ? [] : [barometerInWords(barometer)]),
  ];
}

/** `3.02 L (+0.7 %) at 0.5 L/s, 2.99 L (−0.3 %) at 6 L/s, of 3.00 L`. */
function volumeInWords(volume: NonNullable<Body['volume']>): string {
  const { expectedL, flowLPerS } = volume;
  const readings = volumeCalibrationCheck(volume).readings.map(({ readL, deviationFraction }, index) => {
    const flow = flowLPerS?.[index];
    const at = flow === undefined ? '' : ` at ${plain(flow)} L/s`;
    return `${litresAsTyped(readL)} L (${signedPercent(deviationFraction)} %)${at}`.replaceAll(' ', unbroken);
  });
  return `${readings.join(', ')}${flowLPerS === undefined ? '' : ','} of ${litresAsTyped(expectedL)}${unbroken}L`;
}

/** `CO: +0.40 % of full scale at the most, at 0.15 % of 0.3 %; 5 points, limit ±0.5 %`. */
function linearityInWords({ gas, unit, fullScale, points, limitFraction }: Linearity): string {
  const { worstFraction, points: judged } = linearityCheck({ points, fullScale, limitFraction });
  const farthest = judged.find(({ deviationFraction }) => deviationFraction === worstFraction);
  const where = farthest === undefined ? '' : `, at ${plain(farthest.expected)} ${unit}`;
  return (
    `${gasFormulas[gas]}: ${signedPercent(worstFraction, 2)} % of full scale (${plain(fullScale)} ${unit}) at the most${where}; ` +
    `${counted(points.length, 'point')}, limit ±${limitPercent(limitFraction)} %`
  );
}

/** `3.012 L, +0.40 % of 3.00 L; certificate 71-204, some institute`. */
function syringeVolumeInWords({ certificate, issuedBy, ...volume }: NonNullable<Body['syringe']>): string {
  const { measuredL, nominalL } = volume;
  const off = signedPercent(syringeVolumeCheck(volume).deviationFraction, 2);
  const papers = [certificate === '' ? '' : `certificate ${certificate}`, issuedBy]
    .filter((part) => part !== '')
    .join(', ');
  return `${litresAsTyped(measuredL)} L, ${off} % of ${litresAsTyped(nominalL)} L${papers === '' ? '' : `; ${papers}`}`;
}

/** `751 hPa read, 760 hPa by the reference: −1.2 %`. */
function barometerInWords(pressures: NonNullable<Body['barometer']>): string {
  const { read, reference, unit } = pressures;
  const off = signedPercent(barometerCheck(pressures).deviationFraction);
  return `${plain(read)} ${unit} read, ${plain(reference)} ${unit} by the reference: ${off} %`;
}
