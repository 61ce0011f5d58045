/** The columns of the published limits that a run was judged by. */
import { type RunRow, recorded, text, type WrittenColumn } from './columnKinds.ts';
import { always } from './columns.ts';

const limits = ({ run }: RunRow) => run.body.limits;

export const limitColumns: readonly WrittenColumn[] = [
  text(
    'limits_edition',
    'Edition of the published limits in force on the day',
    (row) => limits(row).edition,
    always,
  ),
  recorded(
    'limit_va_l',
    'L',
    'Published: largest distance of VA from its target, ends allowed',
    (row) => limits(row).vaToleranceL,
    always,
  ),
  recorded(
    'limit_dlco_ml_min_mmhg',
    'mL/min/mmHg',
    'Published: DLCO must be below, where reported in mL/min/mmHg',
    (row) => limits(row).dlcoMlMinMmHg,
    always,
  ),
  recorded(
    'limit_dlco_mmol_min_kpa',
    'mmol/min/kPa',
    'Published: DLCO must be below, where reported in mmol/min/kPa',
    (row) => limits(row).dlcoMmolMinKPa,
    always,
  ),
  recorded(
    'limit_volume_check_fraction',
    'fraction',
    'Largest distance of the volume check from what is expected, ends allowed',
    (row) => limits(row).volumeCheckFraction,
    always,
  ),
  recorded(
    'limit_breath_hold_target_s',
    's',
    'Breath-hold time that is aimed at',
    (row) => limits(row).breathHoldS.target,
    always,
  ),
  recorded(
    'limit_breath_hold_tolerance_s',
    's',
    'Largest distance of the breath-hold time from its target, ends allowed',
    (row) => limits(row).breathHoldS.tolerance,
    always,
  ),
  text('limits_source', 'Where the published limits come from', (row) => limits(row).source, always),
];
