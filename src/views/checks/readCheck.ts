/** From what the form of a check holds to what is written, or to the sentences beside the fields that stand in the way. */
import { type AgainstReference, type CheckLimits, type CivilDate, civilDateOf } from '../../core/index.ts';
import type { EntryBody, NotedCheck } from '../../journal/entries.ts';
import { isRecordableYear, isStillToCome } from '../../journal/plausible.ts';
import { dayAndTime } from '../parts/figures.ts';
import { type CheckDraft, holdsUntil, type Outcome } from './checkDraft.ts';
import { type BarometerErrors, readBarometer } from './readBarometer.ts';
import { type JudgedLinearity, type ReadGas, readLinearity } from './readLinearity.ts';
import { readSyringeVolume, type SyringeErrors } from './readSyringeVolume.ts';
import { type JudgedVolume, readVolume, type VolumeErrors } from './readVolume.ts';

export interface CheckErrors {
  doneAt?: string;
  outcome?: string;
  validUntil?: string;
  note?: string;
}

/** What is written besides its ids and its author. */
export type CheckContent = Pick<
  EntryBody<'check-done'>,
  'doneAt' | 'outcome' | 'volume' | 'validUntil' | 'note' | 'linearity' | 'syringe' | 'barometer'
>;

/** The figures of the check at hand, as far as they are typed; `none` where it has none but its word. */
export type ReadFigures =
  | { of: 'none' }
  | { of: 'volume'; errors: VolumeErrors; judged: JudgedVolume | null }
  | { of: 'linearity'; gases: readonly ReadGas[]; judged: JudgedLinearity | null }
  | {
      of: 'syringe';
      errors: SyringeErrors;
      judged: AgainstReference | null;
      measuredL: number | undefined;
    }
  | { of: 'barometer'; errors: BarometerErrors; judged: AgainstReference | null };

export interface ReadCheck {
  errors: CheckErrors;
  figures: ReadFigures;
  /** Whether the figures say by themselves how it came out: nobody chooses then. */
  isJudged: boolean;
  /** By which limits it is judged: those in force when it was made. */
  limits: CheckLimits;
  /** Null while a field stands in the way. */
  content: CheckContent | null;
}

/** What a reading rests on besides the form. */
export interface CheckGround {
  check: NotedCheck;
  /** Of the syringe that is checked. */
  nominalL: number;
  /** Those of an ISO 8601 instant. */
  limitsAt: (instant: string) => CheckLimits;
  /** In ms. */
  now: number;
  /** Of this workstation. */
  zone: string;
}

export function readCheck(
  draft: CheckDraft,
  { check, nominalL, limitsAt, now, zone }: CheckGround,
): ReadCheck {
  const doneAt = new Date(draft.doneAt);
  const timeError = timeErrorOf(doneAt, now);
  const limits = limitsAt((timeError === undefined ? doneAt : new Date(now)).toISOString());
  const { figures, written, within, isWhole } = readFiguresOf(check, draft, nominalL, limits);
  // A volume that was measured says nothing of a leak: the word stays with whoever tested for it.
  const isJudged = within !== null && check !== 'syringe-leak';
  const outcome = isJudged ? (within ? 'passed' : 'failed') : draft.outcome;
  const note = draft.note.trim();
  const validUntil = holdsUntil(check) && draft.validUntil !== '' ? draft.validUntil : null;
  const untilError = timeError === undefined ? untilErrorOf(validUntil, doneAt, zone) : undefined;
  // Figures that cannot be read yet are put right first: they may say how it came out.
  const outcomeError = isWhole ? outcomeErrorOf(outcome, isJudged, within) : undefined;
  const noteError = isWhole ? noteErrorOf(outcome, isJudged, note) : undefined;
  const errors: CheckErrors = {
    ...(timeError && { doneAt: timeError }),
    ...(outcomeError && { outcome: outcomeError }),
    ...(untilError && { validUntil: untilError }),
    ...(noteError && { note: noteError }),
  };
  const content =
    isWhole && outcome !== '' && Object.keys(errors).length === 0
      ? { doneAt: doneAt.toISOString(), outcome, volume: null, ...written, validUntil, note }
      : null;
  return { errors, figures, isJudged, limits, content };
}

interface OfCheck {
  figures: ReadFigures;
  written: Partial<Pick<CheckContent, 'volume' | 'linearity' | 'syringe' | 'barometer'>>;
  /** Null where no figures say. */
  within: boolean | null;
  isWhole: boolean;
}

function readFiguresOf(check: NotedCheck, draft: CheckDraft, nominalL: number, limits: CheckLimits): OfCheck {
  switch (check) {
    case 'volume-check': {
      const { figures, judged, errors, isWhole } = readVolume(
        draft.volume,
        limits.volumeCalibration.fraction,
      );
      return {
        figures: { of: 'volume', errors, judged },
        written: figures === null ? {} : { volume: figures },
        within: judged?.calibration.within ?? null,
        isWhole,
      };
    }
    case 'linearity': {
      const { figures, judged, gases, isWhole } = readLinearity(draft.linearity, limits.linearity.fraction);
      return {
        figures: { of: 'linearity', gases, judged },
        written: figures === null ? {} : { linearity: figures },
        within: judged?.within ?? null,
        isWhole,
      };
    }
    case 'syringe-calibration':
    case 'syringe-leak': {
      const read = readSyringeVolume(draft.syringe, nominalL, limits.syringe.fraction);
      const { figures, judged, errors, isWhole } = read;
      return {
        figures: { of: 'syringe', errors, judged, measuredL: figures?.measuredL },
        written: figures === null ? {} : { syringe: figures },
        within: judged?.within ?? null,
        isWhole,
      };
    }
    case 'barometer': {
      const { figures, judged, errors, isWhole } = readBarometer(draft.barometer, limits.barometer.fraction);
      return {
        figures: { of: 'barometer', errors, judged },
        written: figures === null ? {} : { barometer: figures },
        within: judged?.within ?? null,
        isWhole,
      };
    }
    case 'biological-control':
      return { figures: { of: 'none' }, written: {}, within: null, isWhole: true };
  }
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

function outcomeErrorOf(
  outcome: Outcome | '',
  isJudged: boolean,
  within: boolean | null,
): string | undefined {
  if (outcome === '') return 'Choose how it came out.';
  return !isJudged && outcome === 'passed' && within === false
    ? 'The measured volume is outside the limit: this did not pass.'
    : undefined;
}

/** Figures say what was found; a word alone does not. */
function noteErrorOf(outcome: Outcome | '', isJudged: boolean, note: string): string | undefined {
  if (note !== '' || isJudged) return undefined;
  if (outcome === 'failed') return 'Say what was found.';
  return outcome === 'noted' ? 'Say what is noted.' : undefined;
}
