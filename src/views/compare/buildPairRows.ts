/** The pair table, newest first, every cell already written. */
import type { Quantity, RouteDifference, RoutePair } from '../../core/index.ts';
import type { LoggedRun } from '../../journal/logbook.ts';
import { civilDay, zInTable } from '../parts/figures.ts';
import { findingOf, type PairFinding } from './buildPairStory.ts';
import type { Comparison } from './comparison.ts';
import { differenceScale } from './differenceScale.ts';

export interface PairRow {
  key: string;
  day: string;
  patientTest: LoggedRun;
  builtIn: LoggedRun;
  va: QuantityCells;
  dlco: QuantityCells;
}

/** As the pair stands in one quantity, in the units of its scale. */
export interface QuantityCells {
  patientTest: string;
  builtIn: string;
  difference: string;
  /** `12 ± 11`, by the earlier pairs; a dash while that is not known. */
  usual: string;
  z: string;
  finding: PairFinding;
}

/** Stands where there is no number yet. */
export const notKnown = '–';

export function buildPairRows(comparison: Comparison): PairRow[] {
  return comparison.pairs.flatMap((pair) => pairRow(pair, comparison) ?? []).reverse();
}

function pairRow(pair: RoutePair, comparison: Comparison): PairRow | null {
  const { date, patientTestId, builtInId } = pair;
  const patientTest = comparison.runs.get(patientTestId);
  const builtIn = comparison.runs.get(builtInId);
  if (patientTest === undefined || builtIn === undefined) return null;
  return {
    key: `${patientTestId} ${builtInId}`,
    day: civilDay(date),
    patientTest,
    builtIn,
    va: cells('va', pair, comparison),
    dlco: cells('dlco', pair, comparison),
  };
}

function cells(quantity: Quantity, pair: RoutePair, { readings, dlcoUnit }: Comparison): QuantityCells {
  const scale = differenceScale(quantity, dlcoUnit);
  const { value, mean, sd, z }: RouteDifference = pair[quantity];
  const read = (id: string) => {
    const reading = readings.get(id)?.[quantity].value;
    return reading === undefined ? notKnown : scale.reading(reading);
  };
  return {
    patientTest: read(pair.patientTestId),
    builtIn: read(pair.builtInId),
    difference: scale.signed(scale.inUnit(value)),
    usual: mean === null || sd === null ? notKnown : scale.meanAndSd(scale.inUnit(mean), scale.inUnit(sd)),
    z: z === null ? notKnown : zInTable(z),
    finding: findingOf(pair[quantity]),
  };
}
