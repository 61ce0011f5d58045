/**
 * What a pasted report says of a run, by label and unit. Nothing is guessed: what is contradicted, has no unit where
 * several are usual, or cannot be told from another column is said and left out. A line that may name a person is not
 * read. Pure; nothing of the text is kept.
 */
import { inField } from '../parts/figures.ts';
import { readNumber } from '../parts/readNumber.ts';
import { type BenchDraft, emptyDraft, type NumberFieldName } from './benchDraft.ts';
import { specOf } from './quantities.ts';
import { type ColumnKind, columnKind } from './reportColumns.ts';
import { fieldNamed, isPersonal } from './reportLabels.ts';
import { isUnit, type ReportUnit, unitNamed } from './reportUnits.ts';

export interface Taken {
  field: NumberFieldName;
  /** As it goes into the field. */
  text: string;
  /** As it was printed, with its unit. */
  written: string;
  /** The label it was printed under. */
  label: string;
  /** From 1. */
  line: number;
  /** What its unit and condition choose in the form. */
  choice: Partial<BenchDraft>;
}

export interface LeftOut {
  label: string;
  line: number;
  why: string;
}

export interface ReadReport {
  /** In the order of the form. */
  taken: readonly Taken[];
  leftOut: readonly LeftOut[];
  /** Lines with something on them that meant nothing here. */
  notUnderstood: number;
  /** Lines that may name a person, and were not read. */
  personal: number;
  /** How the column was found, where there were several. */
  column: 'headed' | 'first' | null;
}

const formOrder: readonly NumberFieldName[] = [
  'temperature',
  'pressure',
  'humidity',
  'va',
  'dlco',
  'inspiredVolume',
  'breathHold',
  'volumeCheck',
];

/**
 * A number by itself: no part of a date, a time, a name such as FEV1, or a number with marks between its thousands.
 * Every dash that word processors put in place of a minus counts as one: without it a DLCO would change its sign.
 */
const numberPattern = /(?<![\p{L}\p{N}.,:/])[+\-−‐‑‒–]?\d+(?:[.,]\d+)?(?!\p{N}|[.,:/-]\p{N})/gu;
const conditionPattern = /\b(BTPS|ATPS|ATPD|ATP|STPD)\b/i;

/** A label with what follows it: its numbers, each in its column, and the unit before or behind the first of them. */
interface Item {
  field: NumberFieldName;
  label: string;
  line: number;
  unitBefore: string;
  numbers: { text: string; unit: string; cell: number }[];
}

export function readReport(text: string): ReadReport {
  const items: Item[] = [];
  let notUnderstood = 0;
  let personal = 0;
  let head: Head | null = null;
  for (const [index, line] of text.split(/\r\n|\r|\n/).entries()) {
    if (line.trim() === '') continue;
    if (isPersonal(line)) {
      personal += 1;
      continue;
    }
    const found = itemsOf(line, index + 1);
    const columns: Head | null = found.length === 0 ? headOf(line) : null;
    if (columns !== null) head = columns;
    else if (found.length === 0) notUnderstood += 1;
    for (const item of found) items.push(inColumn(item, head));
  }
  const { taken, leftOut } = withoutContradictions(items.map(understood));
  const isMany = items.some(({ numbers }) => numbers.length > 1);
  return {
    taken: [...taken].sort((one, other) => formOrder.indexOf(one.field) - formOrder.indexOf(other.field)),
    leftOut,
    notUnderstood,
    personal,
    column: head !== null ? 'headed' : isMany ? 'first' : null,
  };
}

/** The labels of one line, each with the numbers up to the next. */
function itemsOf(line: string, number: number): Item[] {
  const items: Item[] = [];
  let current: Item | null = null;
  let end = 0;
  for (const match of line.matchAll(numberPattern)) {
    const between = line.slice(end, match.index);
    const { unit, label } = parted(between, current === null);
    const last = current?.numbers.at(-1);
    if (last !== undefined) last.unit = unit;
    if (label !== '') {
      const { name, unit: unitBefore } = withoutUnit(label);
      const field = fieldNamed(name);
      // Behind a number, what is no label is a unit that nobody here knows, or the end of what was meant.
      if (field === undefined && last !== undefined) last.unit ||= label;
      current = field ? { field, label: shown(name), line: number, unitBefore, numbers: [] } : null;
      if (current !== null) items.push(current);
    }
    const cell = line.slice(0, match.index).split(/[\t;|]/).length - 1;
    current?.numbers.push({ text: match[0], unit: '', cell });
    end = match.index + match[0].length;
  }
  const last = current?.numbers.at(-1);
  if (last !== undefined) {
    const { unit, label } = parted(line.slice(end), false);
    last.unit = unit || label;
  }
  return items;
}

const shown = (name: string) => name.replace(/[\s:=;|,.]+$/, '').trim();

/** What stands between two numbers: the unit of the one before, then perhaps the next label. */
function parted(between: string, isFirst: boolean): { unit: string; label: string } {
  const clean = between.replace(/^[\s;|,:]+|[\s;|,:=]+$/g, '');
  if (!/[\p{L}\p{N}%°º]/u.test(clean)) return { unit: '', label: '' };
  if (isFirst) return { unit: '', label: clean };
  const words = clean.split(/[\s;|]+/);
  // "deg C" is two words, so the longest beginning that is a unit is its end.
  for (const count of [3, 2, 1]) {
    const unit = words.slice(0, count).join(' ');
    if (words.length >= count && isUnit(unit)) return { unit, label: words.slice(count).join(' ') };
  }
  return { unit: '', label: clean };
}

/** `VA [L]`, `VA L` and `VA (BTPS) L` each as their name and their unit. */
function withoutUnit(label: string): { name: string; unit: string } {
  const bracketed = [...label.matchAll(/[([]([^)\]]*)[)\]]/g)].map((match) => match[1] ?? '').find(isUnit);
  if (bracketed !== undefined) return { name: label, unit: bracketed };
  const words = label.split(/[\s;|,]+/);
  for (const count of [2, 1]) {
    const unit = words.slice(-count).join(' ');
    if (words.length > count && isUnit(unit)) return { name: words.slice(0, -count).join(' '), unit };
  }
  return { name: label, unit: '' };
}

interface Head {
  /** Of cells parted by tab, semicolon or bar; null where blanks part them. */
  cells: readonly (ColumnKind | undefined)[] | null;
  /** The columns of numbers only, in their order. */
  numbers: readonly (ColumnKind | undefined)[];
}

/** The heads of columns: at least two words that are such, one of them of what was measured. */
function headOf(line: string): Head | null {
  const isParted = /[\t;|]/.test(line);
  const cells = line
    .split(isParted ? /[\t;|]/ : /\s{2,}|\s(?=%)|(?<=\p{L})\s(?=\p{L})/u)
    .map((cell) => cell.trim());
  const kinds = cells.map((cell) => columnKind(cell));
  const isHead = kinds.includes('measured') && kinds.filter((kind) => kind !== undefined).length >= 2;
  if (!isHead) return null;
  const numbers = kinds.filter((kind) => kind !== 'names' && kind !== 'units');
  return { cells: isParted ? kinds : null, numbers };
}

/** Only the number of the first measured column; none where it cannot be told which that is. */
function inColumn(item: Item, head: Head | null): Item {
  if (head === null) return item;
  if (head.cells !== null) {
    const at = head.cells.indexOf('measured');
    const isWide = item.numbers.some(({ cell }) => cell > 0);
    return isWide ? { ...item, numbers: item.numbers.filter(({ cell }) => cell === at) } : item;
  }
  if (item.numbers.length === 1 || item.numbers.length === head.numbers.length) {
    const at = item.numbers.length === 1 ? 0 : head.numbers.indexOf('measured');
    return { ...item, numbers: item.numbers.slice(at, at + 1) };
  }
  return { ...item, numbers: [] };
}

type Understood = { taken: Taken } | { leftOut: LeftOut };

function understood({ field, label, line, unitBefore, numbers }: Item): Understood {
  const leftOut = (why: string): Understood => ({ leftOut: { label, line, why } });
  const [first] = numbers;
  if (first === undefined) return leftOut('no number in the measured column');
  const unitText = first.unit || numbers.find(({ unit }) => unit !== '')?.unit || unitBefore;
  const unit = unitNamed(field, unitText);
  if (unit === undefined) return leftOut('no unit is printed');
  if (unit === null) return leftOut(`“${unitText}” is no unit of it`);
  const condition = conditionPattern.exec(`${label} ${unitText}`)?.[1]?.toUpperCase();
  const choice = { ...unit.choice, ...conditionOf(field, condition) };
  const text = inFormUnit(first.text, unit);
  const read = readNumber(text, specOf(field, { ...emptyDraft, ...choice }));
  if (read.state !== 'number') return leftOut(`${first.text} ${unit.written} cannot be`);
  return { taken: { field, text, written: `${first.text} ${unit.written}`, label, line, choice } };
}

/** Digit for digit where the unit is the form's own. */
function inFormUnit(text: string, { shift }: ReportUnit): string {
  const plain = text.replace(/^[−‐‑‒–]/, '-');
  return shift === 0
    ? plain
    : inField(Number((Number(plain.replace(',', '.')) * 10 ** shift).toPrecision(12)));
}

function conditionOf(field: NumberFieldName, condition: string | undefined): Partial<BenchDraft> {
  if (field !== 'va' || condition === undefined) return {};
  const vaReportedAs = (['BTPS', 'ATPS', 'ATP', 'ATPD', 'STPD'] as const).find((one) => one === condition);
  return vaReportedAs ? { vaReportedAs } : {};
}

/** The same value printed twice is one; two values for one field are none, and both are shown. */
function withoutContradictions(all: readonly Understood[]): { taken: Taken[]; leftOut: LeftOut[] } {
  const leftOut = all.flatMap((one) => ('leftOut' in one ? [one.leftOut] : []));
  const each = all.flatMap((one) => ('taken' in one ? [one.taken] : []));
  const taken: Taken[] = [];
  for (const field of formOrder) {
    const candidates = each.filter((one) => one.field === field);
    const [first] = candidates;
    if (first === undefined) continue;
    if (candidates.every((one) => isSameValue(one, first))) taken.push(first);
    else {
      const others = candidates.map(({ written, line }) => `${written} in line ${line}`);
      leftOut.push({ label: first.label, line: first.line, why: `contradicts itself: ${others.join(', ')}` });
    }
  }
  return { taken, leftOut };
}

const isSameValue = (one: Taken, other: Taken) =>
  Number(one.text.replace(',', '.')) === Number(other.text.replace(',', '.')) &&
  JSON.stringify(one.choice) === JSON.stringify(other.choice);
