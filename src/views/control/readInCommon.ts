/** What every control's form says besides its readings: on which analyzer, when, by whom; and what is asked of these. */
import type { SimulatorLevel } from '../../journal/entries.ts';
import type { Logbook, LoggedControl } from '../../journal/logbook.ts';
import { isStillToCome } from '../../journal/plausible.ts';
import { outOfService } from '../../journal/standing.ts';
import { asSentence } from '../parts/asSentence.ts';
import { dayAndTime } from '../parts/figures.ts';
import { localMinute } from '../parts/localTime.ts';
import { askAboutClock } from '../runForm/askAbout.ts';
import { readMadeAt } from '../runForm/readBenchDraft.ts';
import type { ControlDraft, ControlField } from './controlDraft.ts';
import type { FieldNotes, FieldTrouble } from './fieldNotes.ts';

export interface Surroundings {
  logbook: Logbook;
  /** This moment, in ms. */
  now: number;
  /** The control that the form amends; left out for a new one. */
  amending?: LoggedControl | undefined;
}

export interface ControlReading<C> {
  errors: Partial<Record<ControlField, FieldTrouble>>;
  /** What must be filled in before it can be recorded, each with the sentence that asks for it. */
  missing: Partial<Record<ControlField, string>>;
  warnings: Partial<Record<ControlField, string>>;
  questions: readonly string[];
  /** What each level's target comes to, in mL/min/mmHg, as soon as it can be told; of a person's test none. */
  targets: Partial<Record<SimulatorLevel, number>>;
  /** ISO 8601 instant; null where the typed one is none. */
  madeAt: string | null;
  /** Present once it can be judged; recording also needs that nothing is missing. */
  control: C | null;
}

/** ISO 8601 instant; null where the typed one is none. */
export function readWhoAndWhen(
  draft: ControlDraft,
  notes: FieldNotes,
  { logbook, now, amending }: Surroundings,
): string | null {
  const technologist = logbook.technologists.get(draft.technologistId);
  const wasThere = technologist !== undefined && technologist.id === amending?.control.technologistId;
  if (!technologist || (technologist.retired !== null && !wasThere)) {
    notes.want('technologistId', 'Choose who made it.');
  }
  const madeAt = readMadeAt(draft.madeAt, amending?.at ?? now);
  if (madeAt === null) {
    const cleared = amending ? 'for the time that stands' : 'for now';
    notes.refuse(
      'madeAt',
      `Type the day, the time and a year of four digits, or clear the field ${cleared}.`,
    );
    return null;
  }
  const isKept = amending !== undefined && [localMinute(amending.at), ''].includes(draft.madeAt);
  const instant = isKept ? amending.control.madeAt : new Date(madeAt).toISOString();
  const analyzer = logbook.analyzers.get(draft.analyzerId);
  if (analyzer === undefined) {
    notes.want('analyzerId', 'Choose the analyzer.');
    return instant;
  }
  const { retired, description } = analyzer;
  // What was retired long after an old control was made is no reason to doubt its correction.
  if (retired !== null && !(amending && instant < retired.at)) {
    notes.warn('analyzerId', `${description.label} was retired on ${dayAndTime(retired.at)}.`);
  }
  const unused = outOfService(logbook, analyzer.id, instant);
  if (unused !== null) {
    notes.warn(
      'analyzerId',
      `${description.label} is out of service since ${dayAndTime(unused.from)}: ${asSentence(unused.reason)}`,
    );
  }
  return instant;
}

/** Asked before it is written: it may well be so, and is more often a slip. `same`: what it is one more of, in words. */
export function askAboutControl(
  control: { madeAt: string; analyzerId: string },
  { logbook, now, amending }: Surroundings,
  { earlier, isIdentical, one }: Compared,
): string[] {
  const questions: string[] = [];
  const isPlacedAnew =
    amending === undefined ||
    amending.control.madeAt !== control.madeAt ||
    amending.control.analyzerId !== control.analyzerId;
  const last = earlier.at(-1);
  if (isPlacedAnew && isStillToCome(Date.parse(control.madeAt), now)) {
    questions.push(`It is dated ${dayAndTime(control.madeAt)}, which is still to come. Is the date right?`);
  }
  if (isPlacedAnew && last !== undefined && control.madeAt < last.control.madeAt) {
    questions.push(
      `The last ${one} was made on ${dayAndTime(last.control.madeAt)}; this one is dated before it. ` +
        'It is judged by those before its own date. Is the date right?',
    );
  }
  const identical = earlier.find(
    (other) => Math.abs(other.at - Date.parse(control.madeAt)) <= identicalWithinMs && isIdentical(other),
  );
  if (identical !== undefined) {
    questions.push(
      `The same readings were recorded on ${dayAndTime(identical.control.madeAt)}. Is this another ${one}?`,
    );
  }
  const unused = amending === undefined ? outOfService(logbook, control.analyzerId, control.madeAt) : null;
  if (unused !== null) {
    questions.push(
      `The analyzer is out of service since ${dayAndTime(unused.from)}: ${asSentence(unused.reason)} ` +
        'Is this meant to be recorded all the same?',
    );
  }
  return [...questions, ...askAboutClock(logbook, now)];
}

const identicalWithinMs = 60_000;

interface Compared {
  /** Those of the same kind on the same analyzer that stand, oldest first, without the one that is amended. */
  earlier: readonly LoggedControl[];
  isIdentical: (other: LoggedControl) => boolean;
  /** `test of B1 on this analyzer`. */
  one: string;
}
