/**
 * From the typed bench form to a run that can be judged and recorded. Pure: the screen only draws what this says.
 *
 * Three kinds of trouble are kept apart. An error stands beside its field and nothing is written while it stands. A
 * warning is read and stops nobody. A question is asked when the run is to be recorded, and can be answered "yes".
 */
import { type PublishedLimits, pressureInMmHg } from '../../core/index.ts';
import type { RunContent } from '../../journal/entries.ts';
import type { Analyzer, Logbook, LoggedRun, Syringe } from '../../journal/logbook.ts';
import { isPressureJump, isRecordableYear } from '../../journal/plausible.ts';
import { civilDay, dayAndTime, plain } from '../parts/figures.ts';
import { localMinute } from '../parts/localTime.ts';
import { type NumberSpec, readNumber, type Slip } from '../parts/readNumber.ts';
import { questionsFor } from './askAbout.ts';
import { type BenchDraft, type BenchField, draftOfRun } from './benchDraft.ts';
import {
  breathHoldSpec,
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
  limits: PublishedLimits;
  /** The run that the form amends; left out for a new one. What of it is not typed over stays to the last digit. */
  amending?: LoggedRun | undefined;
}

export function readBenchDraft(draft: BenchDraft, surroundings: BenchSurroundings): BenchReading {
  const { logbook, now, limits, amending } = surroundings;
  const errors: BenchReading['errors'] = {};
  const missing: BenchField[] = [];

  const analyzer = logbook.analyzers.get(draft.analyzerId);
  const syringe = logbook.syringes.get(draft.syringeId);
  const technologist = logbook.technologists.get(draft.technologistId);
  if (!analyzer) missing.push('analyzerId');
  const wasThere = technologist !== undefined && technologist.id === amending?.body.technologistId;
  if (!technologist || (technologist.retired && !wasThere)) missing.push('technologistId');
  if (!syringe) missing.push('syringeId');

  const read = (field: BenchField, spec: NumberSpec, required: boolean): number | undefined => {
    const outcome = readNumber(draft[field], spec);
    if (outcome.state === 'number') return outcome.value;
    if (outcome.state === 'wrong') errors[field] = { message: outcome.message, slip: outcome.slip };
    else if (required) missing.push(field);
    return undefined;
  };
  const temperatureC = read('temperature', temperatureSpec, true);
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
  const setUp = analyzer && syringe && setUpOf(analyzer, syringe, amending);
  const breathProblem = setUp && breathProblemOf(setUp, analyzer, syringe);
  if (breathProblem) errors.syringeId = { message: breathProblem, slip: null };

  const lastRun = analyzer && lastRunOf(logbook, analyzer.id, amending?.id);
  const barometricMmHg = pressure === undefined ? undefined : pressureInMmHg(pressure, draft.pressureUnit);
  const warnings = warningsFor(draft, {
    analyzer,
    syringe,
    barometricMmHg,
    lastRun,
    madeAt: madeAt ?? now,
    isAmended: amending !== undefined,
  });

  if (
    !analyzer ||
    !syringe ||
    !setUp ||
    temperatureC === undefined ||
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

  const typed: RunOnTheBench = {
    madeAt: new Date(madeAt).toISOString(),
    analyzerId: analyzer.id,
    syringeId: syringe.id,
    technologistId: draft.technologistId,
    method: amending?.body.method ?? 'syringe',
    route: draft.route,
    reason: draft.reason,
    ambient: {
      temperatureC,
      barometricMmHg,
      ...(humidityPercent === undefined ? {} : { relativeHumidity: humidityPercent / 100 }),
    },
    pressureAsTyped: { value: pressure, unit: draft.pressureUnit },
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
    limits,
    comment: draft.comment.trim(),
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
    fields.every((field) => draft[field] === before[field]);
  const { relativeHumidity: typedHumidity, ...room } = typed.ambient;
  const relativeHumidity = isKept('humidity') ? body.ambient.relativeHumidity : typedHumidity;
  return {
    ...typed,
    // A minute is all that the field can hold.
    madeAt: draft.madeAt === localMinute(run.simulation.at) ? body.madeAt : typed.madeAt,
    ambient: {
      ...room,
      ...(isKept('pressure', 'pressureUnit') ? { barometricMmHg: body.ambient.barometricMmHg } : {}),
      ...(relativeHumidity === undefined ? {} : { relativeHumidity }),
    },
    comment: isKept('comment') ? body.comment : typed.comment,
  };
}

/** Milliseconds of a local date and time; `otherwise` for an empty text; null for one that is no time. */
function readMadeAt(text: string, otherwise: number): number | null {
  if (text === '') return otherwise;
  const time = new Date(text);
  return isRecordableYear(time.getFullYear()) ? time.getTime() : null;
}

/** `except`: the run that is amended, which is not to be compared with itself. */
export function lastRunOf(logbook: Logbook, analyzerId: string, except?: string): LoggedRun | undefined {
  return logbook.runs.findLast(
    (run) => run.body.analyzerId === analyzerId && run.voided === null && run.id !== except,
  );
}

function warningsFor(
  draft: BenchDraft,
  known: {
    analyzer: Analyzer | undefined;
    syringe: Syringe | undefined;
    barometricMmHg: number | undefined;
    lastRun: LoggedRun | undefined;
    madeAt: number;
    isAmended: boolean;
  },
): BenchReading['warnings'] {
  const { analyzer, syringe, barometricMmHg, lastRun, madeAt, isAmended } = known;
  const warnings: BenchReading['warnings'] = {};
  // What was retired long after an old run was made is no reason to doubt its correction.
  const wasInUse = (retired: { at: string } | null) =>
    isAmended && retired !== null && madeAt < Date.parse(retired.at);
  if (analyzer?.retired && !wasInUse(analyzer.retired)) {
    warnings.analyzerId = `${analyzer.description.label} was retired on ${dayAndTime(analyzer.retired.at)}.`;
  }
  const syringeWarning = syringe && syringeProblem(syringe, madeAt, wasInUse(syringe.retired));
  if (syringeWarning) warnings.syringeId = syringeWarning;
  const lastMmHg = lastRun?.body.ambient.barometricMmHg;
  if (barometricMmHg !== undefined && lastMmHg !== undefined) {
    if (isPressureJump(lastMmHg, barometricMmHg)) {
      const { value, unit } = lastRun?.body.pressureAsTyped ?? { value: lastMmHg, unit: 'mmHg' };
      warnings.pressure = `Far from the last run's ${plain(value)} ${unit}. Is the unit right (${draft.pressureUnit})?`;
    }
  }
  return warnings;
}

function syringeProblem({ description, retired }: Syringe, madeAt: number, wasInUse: boolean): string | null {
  const { label, calibrationDueOn, leakCheckDueOn } = description;
  if (retired && !wasInUse) return `${label} was retired on ${dayAndTime(retired.at)}.`;
  const overdue = [
    { what: 'calibration', dueOn: calibrationDueOn },
    { what: 'leak check', dueOn: leakCheckDueOn },
  ].filter(({ dueOn }) => dueOn !== null && new Date(`${dueOn}T23:59:59.999`).getTime() < madeAt);
  if (overdue.length === 0) return null;
  return `${label} is overdue: ${overdue
    .map(({ what, dueOn }) => `${what} was due on ${civilDay(dueOn ?? '')}`)
    .join(', ')}.`;
}
