/** From what the form of a check holds to what is written, or to the sentences beside the fields that stand in the way. */
import {
  type CivilDate,
  civilDateOf,
  publishedVolumeCalibration,
  type VolumeCalibration,
  volumeCalibrationCheck,
} from '../../core/index.ts';
import type { EntryBody, NotedCheck } from '../../journal/entries.ts';
import { isRecordableYear, isStillToCome } from '../../journal/plausible.ts';
import { dayAndTime } from '../parts/figures.ts';
import { type NumberSpec, readNumber } from '../parts/readNumber.ts';

export type Outcome = EntryBody<'check-done'>['outcome'];
type Volume = NonNullable<EntryBody<'check-done'>['volume']>;

export interface CheckDraft {
  /** As a field for date and time holds it, by this computer's clock. */
  doneAt: string;
  outcome: Outcome | '';
  /** Of a volume check, in litres as typed. */
  readings: readonly [string, string, string];
  expected: string;
  /** A date, or empty. */
  validUntil: string;
  note: string;
}

export interface CheckErrors {
  doneAt?: string;
  outcome?: string;
  readings: readonly (string | undefined)[];
  expected?: string;
  validUntil?: string;
  note?: string;
}

/** What is written besides its ids and its author. */
export type CheckContent = Pick<
  EntryBody<'check-done'>,
  'doneAt' | 'outcome' | 'volume' | 'validUntil' | 'note'
>;

export interface ReadCheck {
  errors: CheckErrors;
  /** Null while a field stands in the way. */
  content: CheckContent | null;
  /** How the readings come out, as soon as one of them and the expected volume are numbers. */
  judged: VolumeCalibration | null;
}

/** What a calibration syringe can hold, read as drawn or in BTPS. */
const reading: NumberSpec = { name: 'reading', unit: 'L', lowest: 0.4, highest: 13, example: '3.02' };
const expected: NumberSpec = { ...reading, name: 'expected volume', example: '3.00' };

/** The checks whose certificate may name the day up to which it holds. */
export const holdsUntil = (check: NotedCheck) => check === 'syringe-calibration' || check === 'barometer';

/** `now` in ms, `zone` of this workstation. */
export function readCheck(check: NotedCheck, draft: CheckDraft, now: number, zone: string): ReadCheck {
  const { volume, judged, readingErrors, expectedError } = readVolume(check, draft);
  const outcome = judged === null ? draft.outcome : judged.within ? 'passed' : 'failed';
  const doneAt = new Date(draft.doneAt);
  const note = draft.note.trim();
  const timeError = timeErrorOf(doneAt, now);
  const validUntil = holdsUntil(check) && draft.validUntil !== '' ? draft.validUntil : null;
  const untilError = timeError === undefined ? untilErrorOf(validUntil, doneAt, zone) : undefined;
  const outcomeError = outcome === '' ? 'Choose how it came out.' : undefined;
  const noteError = noteErrorOf(check, outcome, volume, note);
  const errors: CheckErrors = {
    readings: readingErrors,
    ...(timeError && { doneAt: timeError }),
    ...(outcomeError && { outcome: outcomeError }),
    ...(expectedError && { expected: expectedError }),
    ...(untilError && { validUntil: untilError }),
    ...(noteError && { note: noteError }),
  };
  const { readings, ...others } = errors;
  const isWhole = readings.every((error) => error === undefined) && Object.keys(others).length === 0;
  const content =
    isWhole && outcome !== '' ? { doneAt: doneAt.toISOString(), outcome, volume, validUntil, note } : null;
  return { errors, content, judged };
}

function readVolume(check: NotedCheck, draft: CheckDraft) {
  const none = {
    volume: null,
    judged: null,
    readingErrors: draft.readings.map(() => undefined),
    expectedError: undefined,
  };
  if (check !== 'volume-check' || draft.readings.every((text) => text.trim() === '')) return none;
  const read = draft.readings.map((text) => readNumber(text, reading));
  const against = readNumber(draft.expected, expected);
  const readL = read.flatMap((one) => (one.state === 'number' ? [one.value] : []));
  const readingErrors = read.map((one) => (one.state === 'wrong' ? one.message : undefined));
  if (against.state !== 'number') {
    const expectedError =
      against.state === 'wrong' ? against.message : 'Type the volume that should be read.';
    return { ...none, readingErrors, expectedError };
  }
  if (readL.length === 0) return { ...none, readingErrors };
  const { limitFraction } = publishedVolumeCalibration;
  const volume: Volume = { expectedL: against.value, readL, limitFraction };
  return { volume, judged: volumeCalibrationCheck(volume), readingErrors, expectedError: undefined };
}

function timeErrorOf(doneAt: Date, now: number): string | undefined {
  if (!isRecordableYear(doneAt.getFullYear())) return 'Type the day, the time and a year of four digits.';
  return isStillToCome(doneAt.getTime(), now)
    ? `This is still to come: it is ${dayAndTime(now)} now. Type when it was done.`
    : undefined;
}

function untilErrorOf(validUntil: CivilDate | null, doneAt: Date, zone: string): string | undefined {
  if (validUntil === null) return undefined;
  // The browser lets a year of five digits pass.
  const isDay = /^\d{4}-\d\d-\d\d$/.test(validUntil) && isRecordableYear(Number(validUntil.slice(0, 4)));
  if (!isDay) return 'Type the day and a year of four digits.';
  return validUntil < civilDateOf(doneAt.getTime(), zone)
    ? 'This is before the check was done. Type the last day on which the certificate holds, or leave it empty.'
    : undefined;
}

/** A figure says what it found; a word alone does not. */
function noteErrorOf(
  check: NotedCheck,
  outcome: Outcome | '',
  volume: Volume | null,
  note: string,
): string | undefined {
  if (note !== '' || volume !== null) return undefined;
  if (outcome === 'failed') return 'Say what was found.';
  if (outcome === 'noted') return 'Say what is noted.';
  return check === 'biological-control' && outcome === 'passed'
    ? 'Say who was tested, by their code, and what was found.'
    : undefined;
}
