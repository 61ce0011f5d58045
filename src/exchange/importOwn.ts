/** What only our own export holds of a run beside its readings. What cannot be read of it is said, and stops nothing. */
import type { Attachment, Investigation, RunContent } from '../journal/entries.ts';
import { readAttachedCell } from './attachedCell.ts';
import { type CellReader, type Or, typedNumber } from './importCells.ts';
import type { KnownLogbook } from './importKnown.ts';

/** A text as it was before the export kept a spreadsheet from running it, by an apostrophe. */
export const undefused = (text: string) => (/^'[=+\-@\t\r]/.test(text) ? text.slice(1) : text);

const longestComment = 2000;

export function readComment(cells: CellReader, isOwnExport: boolean): Or<string> {
  const text = cells.text('comment').replaceAll('\0', '\uFFFD');
  if (text.length > longestComment) {
    return cells.refuse(`The comment has ${text.length} letters; ${longestComment} are kept. Shorten it.`);
  }
  return isOwnExport ? undefused(text) : text;
}

/** Twelve digits of the one are made from the other. */
const nearDegrees = 1e-6;

export function readTemperatureTyped(
  cells: CellReader,
  temperatureC: number,
): RunContent['temperatureAsTyped'] {
  const text = cells.text('temperatureTyped');
  if (text === '') return undefined;
  const [unit, value] = [cells.text('temperatureUnit'), typedNumber(text)];
  const celsius = unit === '°F' ? (value - 32) / 1.8 : value;
  if ((unit === '°C' || unit === '°F') && Math.abs(celsius - temperatureC) < nearDegrees)
    return { value, unit };
  const shown = `${text} ${unit}`.slice(0, 40);
  cells.doubts.push(`Typed as “${shown}”, which is not ${temperatureC} °C: as typed it is left out.`);
  return undefined;
}

export function readAttached(cells: CellReader): Attachment[] | undefined {
  const text = undefused(cells.text('attached'));
  if (text === '') return undefined;
  const attached = readAttachedCell(text);
  if (attached === undefined)
    cells.doubts.push(
      `What was left on the syringe cannot be read, and is left out: “${text.slice(0, 60)}”.`,
    );
  return attached;
}

/** Of two people with the same initials our own export’s id tells which; in another logbook it names nobody, or somebody else. */
export function readTechnologist(
  cells: CellReader,
  constant: string,
  { people }: Pick<KnownLogbook, 'people'>,
): Or<string> {
  const id = undefused(cells.text('technologistId'));
  const initials = undefused(cells.text('technologist'));
  const person = people.find((each) => each.id === id && each.initials === initials);
  return person?.id ?? cells.name('technologist', constant);
}

const longestReason = 2000;

/** Why a run was set aside where it comes from; null where it was not. */
export function readSetAside(cells: CellReader): string | null {
  if (!isTrue(cells.text('setAside'))) return null;
  const said = undefused(cells.text('setAsideReason')).replaceAll('\0', '\uFFFD');
  const reason = `Set aside where it comes from: ${said === '' ? 'no reason given' : said}`;
  cells.doubts.push('It was set aside where it comes from, and is set aside here as well.');
  return reason.slice(0, longestReason);
}

export const isTrue = (text: string) => /^(true|yes|1)$/i.test(text);

const checks: readonly Investigation['check'][] = [
  'repeat',
  'volume-check',
  'other-route',
  'other-analyzer',
  'read-conditions',
  'other-gas',
  'biological-control',
];

/** By the id that the run looked into has in the file: importLinks.ts finds what that is here. */
export function readInvestigates(cells: CellReader): Investigation | undefined {
  const [runId, text] = [cells.text('investigatesRun'), cells.text('investigatesCheck')];
  if (runId === '' && text === '') return undefined;
  const check = checks.find((each) => each === text);
  if (check !== undefined && runId.length >= 8 && runId.length <= 64) return { runId, check };
  cells.doubts.push(`Which run it looks into, and how, cannot be read: the link is left out.`);
  return undefined;
}
