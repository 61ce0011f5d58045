/** The table under a chart of controls: the same controls, newest first, every cell already written. */
import type { Control } from '../../journal/entries.ts';
import type { Logbook, LoggedControl, LoggedRun } from '../../journal/logbook.ts';
import { type Former, formerTexts, initialsIn } from '../amendments.ts';
import type { FiredRule } from '../charting/controlChartModel.ts';
import { type ControlScale, withSign } from '../charting/controlScale.ts';
import type { SeriesControl } from '../charting/controlSeries.ts';
import { firedRules } from '../charting/ruleNames.ts';
import { contentsOf } from '../controlAsWritten.ts';
import { day, plain, signedPercent, zInTable } from '../parts/figures.ts';

export interface MeasuredCells {
  value: string;
  former: readonly Former[];
  z: string;
  signals: readonly FiredRule[];
}

export interface ControlRow {
  logged: LoggedControl;
  id: string;
  /** What each series of the table has of it; null where it has none of that level. */
  measured: readonly (MeasuredCells | null)[];
  /** From the mean of the first tests, in the unit of the table and in per cent; empty where there is none. */
  off: string;
  haemoglobin: { text: string; former: readonly Former[] };
  runs: readonly LoggedRun[];
  by: string;
  /** R-4s between the two levels. */
  acrossLevels: boolean;
  notes: readonly string[];
}

const none = '–';

export interface RowSources {
  technologists: Logbook['technologists'];
  /** The simulations of a control's day, by its id. */
  sameDay: ReadonlyMap<string, readonly LoggedRun[]>;
}

/** `series`: of one or more series of the same controls, in the order of their columns. */
export function buildControlRows(
  series: readonly { items: readonly SeriesControl[]; scale: ControlScale }[],
  sources: RowSources,
): ControlRow[] {
  const byId = series.map(({ items }) => new Map(items.map((item) => [item.id, item])));
  const all = new Map(
    series.flatMap(({ items, scale }) => items.map((item) => [item.id, { item, scale }] as const)),
  );
  return [...all.values()]
    .sort((one, other) => other.item.at - one.item.at)
    .map(({ item, scale: first }) => {
      const measured = series.map(({ scale }, index) => {
        const own = byId[index]?.get(item.id);
        return own === undefined ? null : cellsOf(own, scale);
      });
      return rowOf({ item, scale: first, measured }, sources);
    });
}

const cellsOf = (item: SeriesControl, { value }: ControlScale): MeasuredCells => ({
  value: value(item.value),
  former: item.former,
  z: item.evaluation.z === null ? none : zInTable(item.evaluation.z),
  signals: item.voided === null ? firedRules(item) : [],
});

function rowOf(
  {
    item: { logged, assessment, setAside },
    scale,
    measured,
  }: { item: SeriesControl; scale: ControlScale; measured: ControlRow['measured'] },
  { technologists, sameDay }: RowSources,
): ControlRow {
  const { control, voided, amendments } = logged;
  const written = contentsOf(logged).map(haemoglobinOf);
  return {
    logged,
    id: logged.id,
    measured,
    off: 'levels' in assessment ? '' : offWords(assessment, scale),
    haemoglobin: {
      text: haemoglobinOf(control),
      former: formerTexts(amendments, technologists, written),
    },
    runs: sameDay.get(logged.id) ?? [],
    by: initialsIn(technologists, control.technologistId),
    acrossLevels: voided === null && 'levels' in assessment && assessment.acrossLevels,
    notes: [
      ...(control.comment.trim() === '' ? [] : [control.comment.trim()]),
      ...(setAside === null ? [] : [`In no mean and no pattern: ${setAside.reason}`]),
      ...amendments.map(
        ({ by, at, zone, body }) =>
          `Amended by ${initialsIn(technologists, by)}, ${day(at, zone)}: ${body.reason}`,
      ),
      ...(voided === null
        ? []
        : [`Voided by ${initialsIn(technologists, voided.by)}, ${day(voided.at)}: ${voided.reason}`]),
    ],
  };
}

function offWords(
  { offMlMinMmHg, offFraction }: { offMlMinMmHg: number | null; offFraction: number | null },
  { inUnit, value }: ControlScale,
): string {
  if (offMlMinMmHg === null || offFraction === null) return none;
  return `${withSign(value(inUnit(offMlMinMmHg)))} (${signedPercent(offFraction)} %)`;
}

function haemoglobinOf(control: Control): string {
  if (control.kind !== 'biological' || control.haemoglobin === undefined) return none;
  return `${plain(control.haemoglobin.value)} ${control.haemoglobin.unit}`;
}

/** One line for each level, with its name; what stands between the levels is said once. */
export function signalLines(
  { measured, acrossLevels }: Pick<ControlRow, 'measured' | 'acrossLevels'>,
  columns: readonly { of: string }[],
): string[] {
  const ofEach = measured.flatMap((cells, index) => {
    const rules = (cells?.signals ?? []).filter((rule) => !(acrossLevels && rule === 'R-4s'));
    if (rules.length === 0) return [];
    const of = columns.length > 1 ? `${columns[index]?.of ?? ''}: ` : '';
    return [`${of}${rules.join(', ')}`];
  });
  return acrossLevels ? ['R-4s across the levels', ...ofEach] : ofEach;
}
