/** The shift of one quantity on a shared day, split into what the analyzers have in common and what each has of its own. Pure. */
import {
  type Assessments,
  type DlcoUnit,
  dlcoFromMlMinMmHg,
  type Quantity,
  type ShiftSplit,
} from '../../core/index.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { evaluationOf, quantities } from '../failures.ts';
import { splitEach } from '../investigationShift.ts';
import type { SharedDay } from './sharedDays.ts';

export interface SplitRow {
  analyzerId: string;
  /** The first run of the day that has a z, or the first of all. */
  run: LoggedRun;
  /** How far it reads from its own mean, in SD; null without own limits. */
  z: number | null;
  /** From the SDs of this analyzer to mL (VA) or the unit of the run (DLCO); null without own limits. */
  perSd: number | null;
  /** Undefined where it cannot be split: no own limits, or two analyzers that do not tell. */
  split: ShiftSplit | undefined;
}

export interface SplitQuantity {
  quantity: Quantity;
  unit: 'mL' | DlcoUnit;
  /** In the order of the logbook's analyzers. */
  rows: readonly SplitRow[];
  kind: DayKind;
}

/**
 * `parts`: a run moved, though neither what is common nor what is its own lies beyond 2 SD by itself. `untold`: two analyzers
 * moved, and they do not tell whose shift it is. `unjudged`: fewer than two have own limits.
 */
export type DayKind = 'common' | 'own' | 'parts' | 'untold' | 'neither' | 'unjudged';

/** Beyond this many SD a run has moved, as for an investigation. */
const movedFromSd = 2;
export const hasMoved = ({ z }: Pick<SplitRow, 'z'>) => z !== null && Math.abs(z) > movedFromSd;

export function splitDay(
  day: SharedDay,
  logbook: Pick<Logbook, 'analyzers' | 'runs'>,
  assessments: Assessments,
): readonly SplitQuantity[] {
  return quantities.map((quantity) => splitOf(quantity, day, logbook, assessments));
}

function splitOf(
  quantity: Quantity,
  { analyzers: ofDay }: SharedDay,
  { analyzers, runs }: Pick<Logbook, 'analyzers' | 'runs'>,
  assessments: Assessments,
): SplitQuantity {
  const evaluated = (run: LoggedRun) => {
    const assessment = assessments.get(run.id);
    return assessment === undefined ? undefined : evaluationOf(assessment, quantity);
  };
  const chosen = [...analyzers.keys()].flatMap((analyzerId) => {
    const made = ofDay.get(analyzerId) ?? [];
    const run = made.find((each) => evaluated(each)?.z != null) ?? made[0];
    return run === undefined ? [] : [{ analyzerId, run }];
  });
  const unit = quantity === 'va' ? 'mL' : dlcoUnitOf(chosen.map(({ run }) => run));
  const splits = splitEach(
    chosen.map(({ run }) => run),
    { runs, assessments, quantity },
  );
  const rows = chosen.map(({ analyzerId, run }, index): SplitRow => {
    const evaluation = evaluated(run);
    const z = evaluation?.z ?? null;
    const sd = evaluation?.sd ?? null;
    return {
      analyzerId,
      run,
      z,
      perSd: sd === null || z === null ? null : unit === 'mL' ? sd * 1000 : dlcoFromMlMinMmHg(sd, unit),
      split: splits[index],
    };
  });
  return { quantity, unit, rows, kind: kindOf(rows) };
}

/** That in which most of the runs were reported: one table is written in one unit. */
function dlcoUnitOf(runs: readonly LoggedRun[]): DlcoUnit {
  const inSi = runs.filter(({ body }) => body.reading.dlcoUnit === 'mmol/min/kPa').length;
  return 2 * inSi > runs.length ? 'mmol/min/kPa' : 'mL/min/mmHg';
}

function kindOf(rows: readonly SplitRow[]): DayKind {
  const judged = rows.filter(({ z }) => z !== null);
  if (judged.length < 2) return 'unjudged';
  const has = (...kinds: ShiftSplit['kind'][]) =>
    judged.some(({ split }) => split !== undefined && kinds.includes(split.kind));
  if (has('common', 'both')) return 'common';
  if (has('own')) return 'own';
  const moved = judged.filter(hasMoved);
  if (moved.some(({ split }) => split === undefined)) return 'untold';
  return moved.length > 0 ? 'parts' : 'neither';
}
