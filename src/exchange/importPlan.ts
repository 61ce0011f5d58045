/**
 * How a file's columns are to be read: what a person has said, and what is proposed to them. A proposal says what it
 * rests on; nothing is read by it before it was confirmed.
 */
import type { GasCondition } from '../core/index.ts';
import type { DateCounts, DateOrder } from './importDates.ts';
import {
  type ColumnGuess,
  guessColumn,
  type ImportField,
  importFields,
  ownColumns,
  ownUnitOf,
} from './importFields.ts';
import type { ColumnOutline, ImportOutline } from './importOutline.ts';
import type { ImportUnit } from './importUnits.ts';

export type DecimalMark = '.' | ',';

/** Stands in for a column that the file lacks, and for its empty cells. Empty: none, or as the equipment is described. */
export interface ImportConstants {
  analyzer: string;
  syringe: string;
  technologist: string;
  route: string;
  reason: string;
  vaCondition: string;
  /** Numbers as typed, with a decimal point, in the unit of the field. */
  temperature: string;
  pressure: string;
  humidity: string;
  /** ATPD, ATPS, `fixed`, or empty: as the analyzer is described. */
  conversion: string;
  fixedFactor: string;
  /** In millilitres. */
  syringeDeadSpace: string;
  analyzerDeadSpace: string;
}
export type ConstantField = keyof ImportConstants;

export interface ImportPlan {
  /** Our own export, whose columns need no guessing. */
  isOwnExport: boolean;
  columns: ReadonlyMap<ImportField, number>;
  units: ReadonlyMap<ImportField, ImportUnit>;
  /** Null while a person has to choose. */
  decimalMark: DecimalMark | null;
  dateOrder: DateOrder | null;
  /** For a column of names: the id in the logbook by the cell's text. */
  names: ReadonlyMap<ImportField, ReadonlyMap<string, string>>;
  constants: ImportConstants;
}

/** What a proposed unit rests on. */
export type UnitSource = 'name' | 'values' | 'choice';

export interface ProposedPlan {
  plan: ImportPlan;
  unitSources: ReadonlyMap<ImportField, UnitSource>;
  /** Fields that more than one column could be; the first was taken. */
  rivals: ReadonlyMap<ImportField, readonly string[]>;
}

const noConstants: ImportConstants = {
  analyzer: '',
  syringe: '',
  technologist: '',
  route: '',
  reason: 'weekly',
  vaCondition: '',
  temperature: '',
  pressure: '',
  humidity: '',
  conversion: '',
  fixedFactor: '',
  syringeDeadSpace: '',
  analyzerDeadSpace: '',
};

/** Fields whose cells are numbers. */
export const numberFields: readonly ImportField[] = [
  'temperature',
  'pressure',
  'humidity',
  'va',
  'dlco',
  'inspiredVolume',
  'volumeCheck',
  'breathHold',
  'fixedFactor',
  'stroke',
  'volumeInside',
  'syringeDeadSpace',
  'analyzerDeadSpace',
  'limitVa',
  'limitDlcoMl',
  'limitDlcoMmol',
  'limitVolumeCheck',
  'limitHoldTarget',
  'limitHoldTolerance',
];

export function proposePlan(outline: ImportOutline): ProposedPlan {
  const own = ownColumns(outline.header);
  return own ? proposeOwn(own) : proposeForeign(outline);
}

function proposeOwn(columns: ReadonlyMap<ImportField, number>): ProposedPlan {
  const units = new Map<ImportField, ImportUnit>();
  for (const field of columns.keys()) {
    const unit = ownUnitOf(field);
    if (unit) units.set(field, unit);
  }
  return {
    plan: {
      isOwnExport: true,
      columns,
      units,
      decimalMark: '.',
      dateOrder: 'YMD',
      names: new Map(),
      constants: noConstants,
    },
    unitSources: new Map([...units.keys()].map((field) => [field, 'name'])),
    rivals: new Map(),
  };
}

function proposeForeign(outline: ImportOutline): ProposedPlan {
  const columns = new Map<ImportField, number>();
  const units = new Map<ImportField, ImportUnit>();
  const unitSources = new Map<ImportField, UnitSource>();
  const rivals = new Map<ImportField, string[]>();
  let condition: GasCondition | null = null;
  for (const [index, name] of outline.header.entries()) {
    const guess = guessColumn(name, outline.units[index]);
    const { field } = guess;
    if (field === null || (outline.columns[index]?.filled ?? 0) === 0) continue;
    if (columns.has(field)) {
      rivals.set(field, [...(rivals.get(field) ?? []), name]);
      continue;
    }
    columns.set(field, index);
    condition ??= guess.condition;
    const unit = proposeUnit(field, guess, outline.columns[index]);
    if (unit) {
      units.set(field, unit.unit);
      unitSources.set(field, unit.source);
    }
  }
  const plan: ImportPlan = {
    isOwnExport: false,
    columns,
    units,
    decimalMark: decimalMarkBy(decimalEvidence(outline, columns)),
    dateOrder: dateOrderBy(dateEvidence(outline, columns)),
    names: new Map(),
    constants: { ...noConstants, vaCondition: condition ?? '' },
  };
  return { plan, unitSources, rivals };
}

/** Between these the middle of a column's numbers fits one unit only, as any laboratory's room and syringe would have it. */
const telling: readonly { field: ImportField; unit: ImportUnit; from: number; to: number }[] = [
  { field: 'temperature', unit: '°C', from: 10, to: 35 },
  { field: 'temperature', unit: '°F', from: 55, to: 95 },
  { field: 'pressure', unit: 'kPa', from: 50, to: 110 },
  { field: 'pressure', unit: 'hPa', from: 850, to: 1100 },
  { field: 'humidity', unit: 'fraction', from: 0.02, to: 1 },
  { field: 'humidity', unit: '%', from: 5, to: 100 },
  { field: 'breathHold', unit: 's', from: 3, to: 30 },
];

/** Fields in litres, where a middle in the hundreds is millilitres. */
const volumes: readonly ImportField[] = ['va', 'inspiredVolume', 'volumeCheck', 'stroke'];

export function proposeUnit(
  field: ImportField,
  guess: Pick<ColumnGuess, 'unit'>,
  column: ColumnOutline | undefined,
): { unit: ImportUnit; source: UnitSource } | null {
  if (importFields[field].units.length === 0) return null;
  if (guess.unit !== null) return { unit: guess.unit, source: 'name' };
  const middle = column?.middle ?? null;
  if (middle === null) return null;
  if (volumes.includes(field)) return { unit: middle > 100 ? 'mL' : 'L', source: 'values' };
  const fit = telling.find((each) => each.field === field && middle >= each.from && middle <= each.to);
  return fit ? { unit: fit.unit, source: 'values' } : null;
}

export interface DecimalEvidence {
  pointed: number;
  comma: number;
  whole: number;
}

/** What the columns of numbers say about the decimal mark. */
export function decimalEvidence(
  { columns: outlines }: Pick<ImportOutline, 'columns'>,
  columns: ImportPlan['columns'],
): DecimalEvidence {
  const sum = { pointed: 0, comma: 0, whole: 0 };
  for (const field of numberFields) {
    const numbers = outlines[columns.get(field) ?? -1]?.numbers;
    if (!numbers) continue;
    sum.pointed += numbers.pointed;
    sum.comma += numbers.comma;
    sum.whole += numbers.whole;
  }
  return sum;
}

/** Proposed only where no number has the other mark. */
export function decimalMarkBy({ pointed, comma }: DecimalEvidence): DecimalMark | null {
  if (pointed > 0 && comma > 0) return null;
  if (comma > 0) return ',';
  return '.';
}

export function dateEvidence(
  { columns: outlines }: Pick<ImportOutline, 'columns'>,
  columns: ImportPlan['columns'],
): DateCounts | null {
  return outlines[columns.get('madeAt') ?? -1]?.dates ?? null;
}

/** Proposed only where at least one date has one reading and none contradicts it. */
export function dateOrderBy(counts: DateCounts | null): DateOrder | null {
  if (counts === null) return null;
  const { clear, dayFirst, monthFirst, either } = counts;
  if (dayFirst > 0) return monthFirst > 0 ? null : 'DMY';
  if (monthFirst > 0) return 'MDY';
  return clear > 0 && either === 0 ? 'YMD' : null;
}

/** What has to be chosen before the rows can be judged. `of`: the field's own value, or its unit. */
export type MissingChoice =
  | { of: 'field' | 'unit'; field: ImportField }
  | { of: 'decimalMark' }
  | { of: 'dateOrder' };

/** In the order of the form. */
export function missingChoices(
  plan: ImportPlan,
  outline: Pick<ImportOutline, 'columns'>,
): readonly MissingChoice[] {
  const missing: MissingChoice[] = [];
  const { columns, constants } = plan;
  if (plan.dateOrder === null && dateEvidence(outline, columns) !== null) missing.push({ of: 'dateOrder' });
  if (plan.decimalMark === null) missing.push({ of: 'decimalMark' });
  for (const field of ['madeAt', 'va', 'dlco'] as const) {
    if (!columns.has(field)) missing.push({ of: 'field', field });
  }
  for (const field of ['analyzer', 'technologist', 'temperature', 'pressure'] as const) {
    if (!columns.has(field) && constants[field].trim() === '') missing.push({ of: 'field', field });
  }
  for (const field of measuredFields) if (lacksUnit(plan, field)) missing.push({ of: 'unit', field });
  return missing;
}

const measuredFields: readonly ImportField[] = [
  'va',
  'dlco',
  'temperature',
  'pressure',
  'humidity',
  'inspiredVolume',
  'volumeCheck',
  'breathHold',
];

function lacksUnit({ columns, constants, units }: ImportPlan, field: ImportField): boolean {
  if (units.has(field)) return false;
  const hasConstant = (field === 'temperature' || field === 'pressure') && constants[field].trim() !== '';
  if (!columns.has(field) && !hasConstant) return false;
  // A column of its own may say it row by row.
  if (field === 'pressure') return !columns.has('pressureUnit');
  return field === 'dlco' ? !columns.has('dlcoUnit') : true;
}
