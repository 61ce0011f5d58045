/** The cells of one row, read one field at a time. What is wrong is collected, so that a row names all of it at once. */
import type { ImportField } from './importFields.ts';
import type { NameField, ReadName } from './importNames.ts';
import type { ConstantField, ImportPlan } from './importPlan.ts';
import type { ImportRow } from './importTable.ts';
import { type ImportUnit, inOwnUnit, unitOf } from './importUnits.ts';
import { trimmed } from './trimmed.ts';

/** What is measured anew at every run and has a plausible range of its own. */
export type MeasuredField =
  | 'temperature'
  | 'pressure'
  | 'humidity'
  | 'va'
  | 'dlco'
  | 'inspiredVolume'
  | 'volumeCheck'
  | 'breathHold';

/** What describes the equipment, and stays the same from run to run. */
export type DescribedField =
  | 'fixedFactor'
  | 'stroke'
  | 'volumeInside'
  | 'syringeDeadSpace'
  | 'analyzerDeadSpace'
  | 'limitVa'
  | 'limitDlcoMl'
  | 'limitDlcoMmol'
  | 'limitVolumeCheck'
  | 'limitHoldTarget'
  | 'limitHoldTolerance';

/**
 * Reads a number as the bench reads a typed one, with its plausible range and its words: temperature in °C, humidity in %,
 * volumes in L, pressure and DLCO in `unit`.
 */
export type ReadMeasured = (
  field: MeasuredField,
  unit: ImportUnit | null,
  text: string,
) => { state: 'number'; value: number } | { state: 'wrong'; message: string };

/** In place of a value that is missing or wrong, and has been named as such. */
export const unread = Symbol('unread');
export type Or<T> = T | typeof unread;

/** As the schemas and the core allow them. */
const describedRanges: Record<DescribedField, { name: string; lowest: number; highest: number }> = {
  fixedFactor: { name: 'fixed factor', lowest: 0.5, highest: 1.5 },
  stroke: { name: 'syringe’s stroke in L', lowest: 0.1, highest: 10 },
  volumeInside: { name: 'plunger’s start in L', lowest: 0, highest: 1 },
  syringeDeadSpace: { name: 'syringe’s dead space in L', lowest: 0, highest: 1 },
  analyzerDeadSpace: { name: 'analyzer’s dead space in L', lowest: 0, highest: 1 },
  limitVa: { name: 'limit of VA in L', lowest: 0.001, highest: 10 },
  limitDlcoMl: { name: 'limit of DLCO', lowest: 0.001, highest: 100 },
  limitDlcoMmol: { name: 'limit of DLCO', lowest: 0.001, highest: 100 },
  limitVolumeCheck: { name: 'limit of the volume check', lowest: 0.0001, highest: 1 },
  limitHoldTarget: { name: 'breath-hold time aimed at', lowest: 0.1, highest: 120 },
  limitHoldTolerance: { name: 'tolerance of the breath-hold time', lowest: 0.01, highest: 120 },
};

const measuredWords: Record<MeasuredField, string> = {
  temperature: 'temperature',
  pressure: 'barometric pressure',
  humidity: 'relative humidity',
  va: 'VA',
  dlco: 'DLCO',
  inspiredVolume: 'inspired volume',
  volumeCheck: 'volume check',
  breathHold: 'breath-hold time',
};

const nameWords: Record<NameField, string> = {
  analyzer: 'analyzer',
  syringe: 'syringe',
  technologist: 'person who made the run',
  method: 'method',
  route: 'route',
  reason: 'reason',
  pressureUnit: 'unit of the pressure',
  vaCondition: 'gas condition of VA',
  dlcoUnit: 'unit of DLCO',
  conversion: 'conversion',
  assumed: 'gas that the conversion assumes',
};

const capital = (text: string) => text.replace(/^./, (first) => first.toUpperCase());
const shown = (text: string) => `“${text.slice(0, 40)}${text.length > 40 ? '…' : ''}”`;
const plainNumber = /^[+\-−]?(\d+\.?\d*|\.\d+)$/;
const isPlain = (text: string) => text.length <= 40 && plainNumber.test(text);
const numberAndUnit = /^([+\-−]?[\d.,]+)\s*([^\d\s.,].*)$/;

export class CellReader {
  readonly doubts: string[] = [];
  readonly refusals: string[] = [];
  readonly #row: ImportRow;
  readonly #plan: ImportPlan;
  readonly #readName: (field: NameField, text: string) => ReadName;
  readonly #readMeasured: ReadMeasured;

  constructor(
    row: ImportRow,
    plan: ImportPlan,
    readName: (field: NameField, text: string) => ReadName,
    readMeasured: ReadMeasured,
  ) {
    this.#row = row;
    this.#plan = plan;
    this.#readName = readName;
    this.#readMeasured = readMeasured;
  }

  refuse(sentence: string): typeof unread {
    this.refusals.push(sentence);
    return unread;
  }

  has(field: ImportField): boolean {
    return this.#plan.columns.has(field);
  }

  /** Empty for a column that the file does not have. */
  text(field: ImportField): string {
    const index = this.#plan.columns.get(field);
    return index === undefined ? '' : trimmed(this.#row.cells[index] ?? '');
  }

  /** The id of what a cell names; of the constant where the cell is empty. */
  name(field: NameField, constant = ''): Or<string> {
    const text = this.text(field);
    if (text !== '') {
      const read = this.#readName(field, text);
      return read.state === 'name' ? read.id : this.refuse(read.message);
    }
    if (constant === '') return this.refuse(`The ${nameWords[field]} is missing.`);
    if (this.has(field))
      this.doubts.push(`The ${nameWords[field]} is not in this row: the one chosen is taken.`);
    return constant;
  }

  /** One of few words, such as a route; `otherwise` where neither the file nor a person says. */
  word<T extends string>(
    field: NameField,
    allowed: readonly T[],
    constant: string,
    otherwise: T | null,
  ): Or<T> {
    const known = (id: string) => allowed.find((each) => each === id);
    const text = this.text(field);
    if (text !== '') {
      const read = this.#readName(field, text);
      if (read.state === 'wrong') return this.refuse(read.message);
      return known(read.id) ?? this.refuse(`${shown(text)} is no ${nameWords[field]}.`);
    }
    return known(constant) ?? otherwise ?? this.refuse(`The ${nameWords[field]} has not been chosen.`);
  }

  /** A reading that a run cannot be without. */
  measured(field: MeasuredField, unit: Or<ImportUnit> | null): Or<number> {
    const value = this.optional(field, unit);
    return value === undefined ? this.refuse(`The ${measuredWords[field]} is missing.`) : value;
  }

  optional(field: MeasuredField, unit: Or<ImportUnit> | null): Or<number> | undefined {
    if (unit === unread) return unread;
    const text = this.text(field);
    if (text === '') return this.#constant(field, unit);
    const number = this.#number(text, measuredWords[field], unit);
    if (number === unread) return unread;
    // What was read as another unit is judged in the logbook's own.
    const own = unit === null ? number : inOwnUnit(number, unit);
    const read = this.#readMeasured(field, unit, own === number ? pointed(text) : String(own));
    if (read.state === 'number') return read.value;
    const from = own === number || unit === null ? '' : ` (${text} ${unit})`;
    return this.refuse(capital(`${measuredWords[field]}${from}: ${read.message}`));
  }

  #constant(field: MeasuredField, unit: ImportUnit | null): Or<number> | undefined {
    const typed = isConstant(field) ? this.#plan.constants[field].trim() : '';
    if (typed === '') return undefined;
    // Typed by a person beside the unit of the column; a text that is no number is told as one.
    const number = typedNumber(typed);
    const own = unit === null || Number.isNaN(number) ? number : inOwnUnit(number, unit);
    const read = this.#readMeasured(field, unit, own === number || Number.isNaN(own) ? typed : String(own));
    if (read.state === 'wrong')
      return this.refuse(`${capital(measuredWords[field])} for rows without: ${read.message}`);
    if (this.has(field)) {
      this.doubts.push(`The ${measuredWords[field]} is not in this row: ${typed} is taken.`);
    }
    return read.value;
  }

  /** A number that describes the equipment; undefined where the file does not say. */
  described(field: DescribedField): Or<number> | undefined {
    const text = this.text(field);
    if (text === '') return undefined;
    const unit = this.#plan.units.get(field) ?? null;
    const { name, lowest, highest } = describedRanges[field];
    const number = this.#number(text, name, unit);
    if (number === unread) return unread;
    const own = unit === null ? number : inOwnUnit(number, unit);
    if (own >= lowest && own <= highest) return own;
    return this.refuse(`The ${name} is ${shown(text)}; it lies between ${lowest} and ${highest}.`);
  }

  #number(text: string, name: string, unit: ImportUnit | null): Or<number> {
    const mark = this.#plan.decimalMark;
    // Nearly every cell, and none of them would be read otherwise below.
    if (isPlain(text) && (mark !== ',' || !text.includes('.'))) return Number(text.replace('−', '-'));
    const parted = numberAndUnit.exec(text.slice(0, 60));
    if (parted?.[1] !== undefined && parted[2] !== undefined && text.length <= 60) {
      const said = unitOf(parted[2]);
      if (said === null || said !== unit) {
        return this.refuse(`${shown(text)} is not the ${name}${unit ? ` in ${unit}` : ''}.`);
      }
      return this.#number(parted[1], name, unit);
    }
    if (text.includes(',') && mark !== ',') {
      return this.refuse(
        mark === null
          ? `${shown(text)}: the decimal mark has not been chosen.`
          : `${shown(text)} has a comma, where the decimal mark of this file is the point.`,
      );
    }
    if (text.includes('.') && mark === ',') {
      return this.refuse(`${shown(text)} has a point, where the decimal mark of this file is the comma.`);
    }
    const plain = pointed(text);
    if (!isPlain(plain)) {
      return this.refuse(`${shown(text)} is not a number: the ${name} was expected.`);
    }
    return Number(plain.replace('−', '-'));
  }
}

/** What a person typed on the screen, with either decimal mark, as in every form; NaN where it is no number. */
export function typedNumber(text: string): number {
  const plain = text.trim().replace(',', '.');
  return plainNumber.test(plain) ? Number(plain.replace('−', '-')) : Number.NaN;
}

/** The number alone, as the bench takes it. */
const pointed = (text: string) =>
  isPlain(text) ? text : (numberAndUnit.exec(text.slice(0, 60))?.[1] ?? text).replace(',', '.');

function isConstant(field: MeasuredField): field is MeasuredField & ConstantField {
  return field === 'temperature' || field === 'pressure' || field === 'humidity';
}
