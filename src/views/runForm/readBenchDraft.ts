/**
 * From the typed bench form to a run that can be judged and recorded. Pure: the screen only draws what this says.
 *
 * Three kinds of trouble are kept apart. An error stands beside its field and nothing is written while it stands. A
 * warning is read and stops nobody. A question is asked when the run is to be recorded, and can be answered "yes".
 */
import { pressureInMmHg } from '../../core/index.ts';
import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import type { RunContent } from '../../journal/entries.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { isRecordableYear } from '../../journal/plausible.ts';
import { limitsInForce } from '../judgedBy.ts';
import { localMinute } from '../parts/localTime.ts';
import { type NumberSpec, readNumber, type Slip } from '../parts/readNumber.ts';
import { questionsFor } from './askAbout.ts';
import { readAttached } from './attached.ts';
import { type BenchDraft, type BenchField, isSameInDraft, type NumberFieldName } from './benchDraft.ts';
import { warningsFor } from './benchWarnings.ts';
import { draftOfRun } from './draftMoves.ts';
import { lastRunOf } from './lastRunOf.ts';
import {
  breathHoldSpec,
  celsiusOf,
  dlcoSpec,
  humiditySpec,
  inspiredVolumeSpec,
  pressureSpec,
  temperatureSpec,
  vaSpec,
  volumeCheckSpec,
} from './quantities.ts';
import { breathProblemOf, inspiredVolumeProblem, setUpOf } from './setUp.ts';

export interface FieldError {
  message: string;
  slip: Slip | null;
}

/** A run as read from the form: all but what the judgement adds. */
export type RunOnTheBench = RunContent;

export interface BenchReading {
  errors: Partial<Record<BenchField, FieldError>>;
  /** Fields that must be filled before a run can be recorded, in the order of the form. */
  missing: readonly BenchField[];
  warnings: Partial<Record<BenchField, string>>;
  questions: readonly string[];
  /** Present once the reading can be judged; recording also needs a technologist. */
  run: RunOnTheBench | null;
}

export interface BenchSurroundings {
  logbook: Logbook;
  /** This moment, in ms. */
  now: number;
  /** The run that the form amends; left out for a new one. What of it is not typed over stays to the last digit. */
  amending?: LoggedRun | undefined;
}

export function readBenchDraft(draft: BenchDraft, surroundings: BenchSurroundings): BenchReading {
  const { logbook, now, amending } = surroundings;
  const errors: BenchReading['errors'] = {};
  const missing: BenchField[] = [];

  const analyzer = logbook.analyzers.get(draft.analyzerId);
  const syringe = logbook.syringes.get(draft.syringeId);
  const technologist = logbook.technologists.get(draft.technologistId);
  if (!analyzer) missing.push('analyzerId');
  const wasThere = technologist !== undefined && technologist.id === amending?.body.technologistId;
  if (!technologist || (technologist.retired && !wasThere)) missing.push('technologistId');
  if (!syringe) missing.push('syringeId');

  const read = (field: NumberFieldName, spec: NumberSpec, required: boolean): number | undefined => {
    const outcome = readNumber(draft[field], spec);
    if (outcome.state === 'number') return outcome.value;
    if (outcome.state === 'wrong') errors[field] = { message: outcome.message, slip: outcome.slip };
    else if (required) missing.push(field);
    return undefined;
  };
  const temperature = read('temperature', temperatureSpec(draft.temperatureUnit), true);
  const pressure = read('pressure', pressureSpec(draft.pressureUnit), true);
  const humidityPercent = read('humidity', humiditySpec, draft.vaReportedAs === 'ATP');
  const vaL = read('va', vaSpec, true);
  const dlco = read('dlco', dlcoSpec(draft.dlcoUnit), true);
  const inspiredVolumeL = read('inspiredVolume', inspiredVolumeSpec, false);
  const volumeCheckL = read('volumeCheck', volumeCheckSpec, false);
  const breathHoldS = read('breathHold', breathHoldSpec, false);

  const madeAt = readMadeAt(draft.madeAt, amending?.simulation.at ?? now);
  if (madeAt === null) {
    const cleared = amending ? 'for the time that stands' : 'for now';
    errors.madeAt = {
      message: `Type the day, the time and a year of four digits, or clear the field ${cleared}.`,
      slip: null,
    };
  }
  const left = readAttached(draft.attached);
  if ('problem' in left) errors.attached = { message: left.problem, slip: null };
  const attached = 'problem' in left ? [] : left.attached;
  const setUp = analyzer && syringe && setUpOf(analyzer, syringe, attached, amending);
  const breathProblem = setUp && breathProblemOf(setUp, analyzer, syringe);
  if (breathProblem) errors.syringeId = { message: breathProblem, slip: null };

  const lastRun = analyzer && lastRunOf(logbook, analyzer.id, amending?.id);
  const barometricMmHg = pressure === undefined ? undefined : pressureInMmHg(pressure, draft.pressureUnit);
  const warnings = warningsFor(draft, {
    logbook,
    analyzer,
    syringe,
    barometricMmHg,
    lastRun,
    madeAt: madeAt ?? now,
    now,
    isAmended: amending !== undefined,
  });

  if (
    !analyzer ||
    !syringe ||
    !setUp ||
    temperature === undefined ||
    pressure === undefined ||
    barometricMmHg === undefined ||
    vaL === undefined ||
    dlco === undefined ||
    madeAt === null ||
    Object.keys(errors).length > 0 ||
    missing.some((field) => field !== 'technologistId')
  ) {
    return { errors, missing, warnings, questions: [], run: null };
  }

  const madeAtInstant = new Date(madeAt).toISOString();
  const typed: RunOnTheBench = {
    madeAt: madeAtInstant,
    analyzerId: analyzer.id,
    syringeId: syringe.id,
    technologistId: draft.technologistId,
    method: amending?.body.method ?? 'syringe',
    route: draft.route,
    reason: draft.reason,
    ambient: {
      temperatureC: withoutBinaryNoise(celsiusOf(temperature, draft.temperatureUnit)),
      barometricMmHg,
      ...(humidityPercent === undefined ? {} : { relativeHumidity: humidityPercent / 100 }),
    },
    pressureAsTyped: { value: pressure, unit: draft.pressureUnit },
    ...(draft.temperatureUnit === '°C'
      ? {}
      : { temperatureAsTyped: { value: temperature, unit: draft.temperatureUnit } }),
    reading: {
      vaL,
      vaReportedAs: draft.vaReportedAs,
      dlco,
      dlcoUnit: draft.dlcoUnit,
      ...(inspiredVolumeL === undefined ? {} : { inspiredVolumeL }),
      ...(volumeCheckL === undefined ? {} : { volumeCheckL }),
      ...(breathHoldS === undefined ? {} : { breathHoldS }),
    },
    ...setUp,
    limits: amending?.body.limits ?? limitsInForce(logbook, madeAtInstant),
    comment: draft.comment.trim(),
    ...(attached.length === 0 ? {} : { attached: [...attached] }),
    ...(draft.investigates === null ? {} : { investigates: draft.investigates }),
  };
  const run = amending ? withWhatStands(typed, draft, amending) : typed;
  const inspiredProblem = inspiredVolumeProblem(run, analyzer);
  if (inspiredProblem) {
    errors.inspiredVolume = { message: inspiredProblem, slip: null };
    return { errors, missing, warnings, questions: [], run: null };
  }
  return {
    errors,
    missing,
    warnings,
    questions: questionsFor(run, { logbook, lastRun, now, amending }),
    run,
  };
}

/** What nobody typed over stays as it is, where reading its text again would not give it digit for digit. */
function withWhatStands(typed: RunContent, draft: BenchDraft, { body, ...run }: LoggedRun): RunContent {
  const before = draftOfRun({ body });
  const isKept = (...fields: readonly BenchField[]) =>
    fields.every((field) => isSameInDraft(draft[field], before[field]));
  const { relativeHumidity: typedHumidity, ...room } = typed.ambient;
  const relativeHumidity = isKept('humidity') ? body.ambient.relativeHumidity : typedHumidity;
  const isRoomKept = isKept('temperature', 'temperatureUnit');
  const { temperatureAsTyped: _, ...rest } = typed;
  const temperatureAsTyped = isRoomKept ? body.temperatureAsTyped : typed.temperatureAsTyped;
  return {
    ...rest,
    // A minute is all that the field can hold.
    madeAt: draft.madeAt === localMinute(run.simulation.at) ? body.madeAt : typed.madeAt,
    ambient: {
      ...room,
      ...(isRoomKept ? { temperatureC: body.ambient.temperatureC } : {}),
      ...(isKept('pressure', 'pressureUnit') ? { barometricMmHg: body.ambient.barometricMmHg } : {}),
      ...(relativeHumidity === undefined ? {} : { relativeHumidity }),
    },
    ...(temperatureAsTyped === undefined ? {} : { temperatureAsTyped }),
    ...(isKept('attached') && body.attached !== undefined ? { attached: body.attached } : {}),
    comment: isKept('comment') ? body.comment : typed.comment,
  };
}

/** Milliseconds of a local date and time; `otherwise` for an empty text; null for one that is no time. */
export function readMadeAt(text: string, otherwise: number): number | null {
  if (text === '') return otherwise;
  const time = new Date(text);
  return isRecordableYear(time.getFullYear()) ? time.getTime() : null;
}
