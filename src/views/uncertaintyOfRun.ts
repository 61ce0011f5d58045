/** How well the simulated VA of one run is known. Pure. */
import { reduceRun, type UncertaintyBudget, uncertaintyBudget } from '../core/index.ts';
import type { LoggedRun } from '../journal/logbook.ts';

/**
 * Null where a source cannot be varied: a room at 0 °C or a VA below the display step, as a foreign entry may hold, cannot be
 * lowered by what they are uncertain by.
 */
export function budgetOfRun({ simulation }: LoggedRun): UncertaintyBudget | null {
  const { reading, ambient, conversion, syringe, analyzerDeadSpaceL } = simulation;
  try {
    return uncertaintyBudget({
      reportedVaL: reading.vaL,
      reportedAs: reading.vaReportedAs,
      ambient,
      conversion,
      syringeDeadSpaceL: syringe.deadSpaceL,
      analyzerDeadSpaceL,
      inspiredVolumeL: reduceRun(simulation).inspiredVolumeL,
    });
  } catch (problem) {
    if (problem instanceof RangeError) return null;
    throw problem;
  }
}
