/** From the typed form of a person's test to a control that can be judged and recorded. Pure. */
import { dlcoInMlMinMmHg, haemoglobinGPerDl, median } from '../../core/index.ts';
import type { BiologicalContent } from '../../journal/entries.ts';
import type { Logbook, LoggedControl, Subject } from '../../journal/logbook.ts';
import { subjectSettingAt } from '../../journal/standing.ts';
import { checkLimitsAt } from '../controlAssessments.ts';
import { asSentence } from '../parts/asSentence.ts';
import { day, dlcoTyped, plain } from '../parts/figures.ts';
import type { BiologicalDraft } from './controlDraft.ts';
import { haemoglobinSpec, personsInspiredSpec, personsVaSpec, uptakeSpec } from './controlNumbers.ts';
import { doubtOfPerson } from './doubtfulUnits.ts';
import { FieldNotes } from './fieldNotes.ts';
import { askAboutControl, type ControlReading, readWhoAndWhen, type Surroundings } from './readInCommon.ts';

type BiologicalReading = ControlReading<BiologicalContent>;

export function readBiological(draft: BiologicalDraft, surroundings: Surroundings): BiologicalReading {
  const { logbook, amending } = surroundings;
  const notes = new FieldNotes();
  const madeAt = readWhoAndWhen(draft, notes, surroundings);
  const subject = logbook.subjects.get(draft.subjectId);
  if (subject === undefined) notes.want('subjectId', 'Choose who was tested, by their code.');
  else if (madeAt !== null) noteStanding(notes, subject, { ...surroundings, madeAt });

  const dlco = notes.number(
    'dlco',
    draft.dlco,
    uptakeSpec(draft.dlcoUnit),
    'Type the DLCO that the analyzer reports.',
  );
  const vaL = notes.number(
    'va',
    draft.va,
    personsVaSpec,
    'Type the alveolar volume that the analyzer reports.',
  );
  const inspired = notes.number('inspiredVolume', draft.inspiredVolume, personsInspiredSpec);
  const haemoglobin = notes.number('haemoglobin', draft.haemoglobin, haemoglobinSpec(draft.haemoglobinUnit));
  if (vaL !== undefined && inspired !== undefined && inspired > vaL) {
    notes.warn(
      'inspiredVolume',
      'More than VA, in which it is contained together with what stayed in the lung. Are the two exchanged?',
    );
  }
  const earlier = testsBefore(logbook, draft, amending?.id);
  const { dlcoUnit } = draft;
  const doubt =
    dlco === undefined
      ? null
      : doubtOfPerson({ dlco, dlcoUnit }, { vaL, usual: usualDlco(logbook, draft, amending?.id) });
  notes.warn('dlco', doubt);
  if (haemoglobin !== undefined) notes.warn('haemoglobin', haemoglobinProblem(haemoglobin, draft, earlier));

  const { errors, missing, warnings } = notes;
  const nothing = { errors, missing, warnings, questions: [], targets: {}, madeAt, control: null };
  const { analyzerId } = draft;
  if (!notes.isClear || madeAt === null || subject === undefined) return nothing;
  if (!logbook.analyzers.has(analyzerId) || dlco === undefined || vaL === undefined) return nothing;
  const control: BiologicalContent = {
    kind: 'biological',
    madeAt,
    analyzerId,
    technologistId: draft.technologistId,
    comment: draft.comment.trim(),
    ...(draft.investigates === null ? {} : { investigates: draft.investigates }),
    subjectId: subject.id,
    reading: {
      dlco,
      dlcoUnit: draft.dlcoUnit,
      vaL,
      ...(inspired === undefined ? {} : { inspiredVolumeL: inspired }),
    },
    ...(haemoglobin === undefined
      ? {}
      : { haemoglobin: { value: haemoglobin, unit: draft.haemoglobinUnit } }),
    limits:
      amending?.control.kind === 'biological' ? amending.control.limits : limitsOfTheDay(logbook, madeAt),
  };
  const questions = askAboutControl(control, surroundings, {
    earlier,
    isIdentical: ({ control: other }) =>
      other.kind === 'biological' &&
      other.reading.dlco === dlco &&
      other.reading.dlcoUnit === draft.dlcoUnit &&
      other.reading.vaL === vaL,
    one: `test of ${subject.description.code} on this analyzer`,
  });
  if (doubt !== null && isReadAnew(control, amending)) {
    questions.unshift(`DLCO is ${dlcoTyped(dlco, dlcoUnit)} ${dlcoUnit}. ${doubt}`);
  }
  return { errors, missing, warnings, questions, targets: {}, madeAt, control };
}

/** What was asked when it was recorded is not asked again of an amendment that leaves the readings. */
function isReadAnew({ reading }: BiologicalContent, amending: LoggedControl | undefined): boolean {
  if (amending?.control.kind !== 'biological') return true;
  const before = amending.control.reading;
  return before.dlco !== reading.dlco || before.dlcoUnit !== reading.dlcoUnit || before.vaL !== reading.vaL;
}

function limitsOfTheDay(logbook: Logbook, madeAt: string): BiologicalContent['limits'] {
  const { edition, biological } = checkLimitsAt(logbook, madeAt);
  return { edition, ...biological };
}

/** A person's tests on an analyzer that stand, oldest first. `except`: the one that is amended. */
export function testsBefore(
  { controls }: Pick<Logbook, 'controls'>,
  { analyzerId, subjectId }: { analyzerId: string; subjectId: string },
  except?: string,
): LoggedControl[] {
  return controls.filter(
    ({ id, control, voided }) =>
      voided === null &&
      id !== except &&
      control.kind === 'biological' &&
      control.analyzerId === analyzerId &&
      control.subjectId === subjectId,
  );
}

/** Who is not tested at the moment cannot have been; who is excluded may, and the test counts in no mean. */
function noteStanding(
  notes: FieldNotes,
  { id, description: { code }, retired }: Subject,
  { logbook, amending, madeAt }: Surroundings & { madeAt: string },
) {
  const stands = amending?.control.kind === 'biological' && amending.control.subjectId === id;
  const setting = subjectSettingAt(logbook, id, madeAt);
  if (retired !== null && retired.at < madeAt && !stands) {
    notes.refuse('subjectId', `${code} has left since ${day(retired.at)}: ${asSentence(retired.reason)}`);
  } else if (setting?.state === 'paused' && !stands) {
    notes.refuse(
      'subjectId',
      `${code} is paused since ${day(setting.from)}: ${asSentence(setting.reason)} Choose another, or have a supervisor go on with ${code} under Equipment.`,
    );
  } else if (setting?.state === 'excluded') {
    notes.warn(
      'subjectId',
      `${code} is excluded since ${day(setting.from)}: ${asSentence(setting.reason)} The test is written down and counts in no mean.`,
    );
  }
}

/** In mL/min/mmHg, on whichever analyzer: a person is the same on all. `except`: the test that is amended. */
function usualDlco(
  { controls }: Pick<Logbook, 'controls'>,
  { subjectId }: Pick<BiologicalDraft, 'subjectId'>,
  except: string | undefined,
): number | undefined {
  return median(
    controls.flatMap(({ id, control, voided }) =>
      voided === null && id !== except && control.kind === 'biological' && control.subjectId === subjectId
        ? [dlcoInMlMinMmHg(control.reading.dlco, control.reading.dlcoUnit)]
        : [],
    ),
  );
}

/** Half or twice the usual is another unit sooner than another blood: mmol/L and g/dL overlap. */
function haemoglobinProblem(
  value: number,
  { haemoglobinUnit }: BiologicalDraft,
  earlier: readonly LoggedControl[],
): string | null {
  const usual = median(haemoglobinsOf(earlier));
  if (usual === undefined) return null;
  const ratio = haemoglobinGPerDl(value, haemoglobinUnit) / usual;
  return ratio > 0.7 && ratio < 1.4
    ? null
    : `Far from this person’s usual ${plain(Number(usual.toFixed(1)))} g/dL. Is the unit right?`;
}

/** In g/dL. */
export const haemoglobinsOf = (tests: readonly LoggedControl[]): number[] =>
  tests.flatMap(({ control }) =>
    control.kind === 'biological' && control.haemoglobin !== undefined
      ? [haemoglobinGPerDl(control.haemoglobin.value, control.haemoglobin.unit)]
      : [],
  );
