/** A DLCO that is more likely typed in the wrong unit than read off a faulty analyzer: the two units differ threefold. Pure. */
import { type DlcoUnit, dlcoFromMlMinMmHg, dlcoInMlMinMmHg } from '../../core/index.ts';
import { dlco as writeDlco } from '../parts/figures.ts';
import { dlcoUnits } from '../parts/words.ts';

interface TypedDlco {
  dlco: number;
  dlcoUnit: DlcoUnit;
}

/**
 * Recalled, no source at hand: a healthy person takes up some 3 to 7 mL/min/mmHg for each litre of VA. The bounds leave room
 * beyond that, and three times or a third of it lies outside them.
 */
const likelyPerLitre = { lowest: 2.5, highest: 8.5 };

/** `usual`: the person's earlier tests, in mL/min/mmHg. Null where nothing speaks against the unit. */
export function doubtOfPerson(
  { dlco, dlcoUnit }: TypedDlco,
  { vaL, usual }: { vaL: number | undefined; usual: number | undefined },
): string | null {
  const inMl = dlcoInMlMinMmHg(dlco, dlcoUnit);
  if (usual !== undefined) {
    if (isWithin(inMl / usual, 0.5, 2)) return null;
    const inUnit = writeDlco(dlcoFromMlMinMmHg(usual, dlcoUnit), dlcoUnit);
    return `Far from this person’s usual ${inUnit} ${dlcoUnit}. Is the unit right, and the person?`;
  }
  if (vaL === undefined) return null;
  const perLitre = inMl / vaL;
  if (isWithin(perLitre, likelyPerLitre.lowest, likelyPerLitre.highest)) return null;
  const inUnit = writeDlco(dlcoFromMlMinMmHg(perLitre, dlcoUnit), dlcoUnit);
  return `${inUnit} ${dlcoUnit} for each litre of VA: hardly a healthy person’s. Are the unit and both numbers right?`;
}

/** How near its target a reading must come in the other unit, and how far from it be in its own. */
const nearTarget = 0.25;

/** Null where nothing speaks against the unit. */
export function doubtOfLevel({ dlco, dlcoUnit }: TypedDlco, targetMlMinMmHg: number): string | null {
  const other = dlcoUnits.find((unit) => unit !== dlcoUnit);
  const isNear = (unit: DlcoUnit) =>
    isWithin(dlcoInMlMinMmHg(dlco, unit) / targetMlMinMmHg, 1 - nearTarget, 1 + nearTarget);
  if (other === undefined || isNear(dlcoUnit) || !isNear(other)) return null;
  return `In ${other} this would be near its target. Are the units of both right?`;
}

const isWithin = (value: number, lowest: number, highest: number) => value >= lowest && value <= highest;
