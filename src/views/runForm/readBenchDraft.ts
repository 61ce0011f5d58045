/**
 * From the typed bench form to a run that can be judged and recorded. Pure: the screen only draws what this says.
 *
 * Three kinds of trouble are kept apart. An error stands beside its field and nothing is written while it stands. A
 * warning is read and stops nobody. A question is asked when the run is to be recorded, and can be answered "yes".
 */
import { ambientFactor, type PublishedLimits, pressureInMmHg } from '../../core/index.ts';
import type { RunBody, RunContent } from '../../journal/entries.ts';
import type { Analyzer, Logbook, LoggedRun, Syringe } from '../../journal/logbook.ts';
import { civilDay, dayAndTime, litresTyped } from '../parts/figures.ts';
import { type NumberSpec, readNumber, type Slip } from '../parts/readNumber.ts';
import type { BenchDraft, BenchField } from './benchDraft.ts';
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
}

export function readBenchDraft(draft: BenchDraft, { logbook, now, limits }: BenchSurroundings): BenchReading {
  const errors: BenchReading['errors'] = {};
  const missing: BenchField[] = [];

  const analyzer = logbook.analyzers.get(draft.analyzerId);
  const syringe = logbook.syringes.get(draft.syringeId);
  const technologist = logbook.technologists.get(draft.technologistId);
  if (!analyzer) missing.push('analyzerId');
  if (!technologist || technologist.retired) missing.push('technologistId');
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

  const madeAt = readMadeAt(draft.madeAt, now);
  if (madeAt === null) {
    errors.madeAt = {
      message: 'Type the day, the time and a year of four digits, or clear the field for now.',
      slip: null,
    };
  }
  const breathProblem = analyzer && syringe && breathProblemOf(analyzer, syringe);
  if (breathProblem) errors.syringeId = { message: breathProblem, slip: null };

  const lastRun = analyzer && lastRunOf(logbook, analyzer.id);
  const barometricMmHg = pressure === undefined ? undefined : pressureInMmHg(pressure, draft.pressureUnit);
  const warnings = warningsFor(draft, { analyzer, syringe, barometricMmHg, lastRun, madeAt: madeAt ?? now });

  if (
    !analyzer ||
    !syringe ||
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

  const { description } = analyzer;
  const run: RunOnTheBench = {
    madeAt: new Date(madeAt).toISOString(),
    analyzerId: analyzer.id,
    syringeId: syringe.id,
    technologistId: draft.technologistId,
    method: 'syringe',
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
    conversion: description.conversion,
    syringe: {
      strokeL: syringe.description.volumeL - description.volumeInsideL,
      volumeInsideL: description.volumeInsideL,
      deadSpaceL: syringe.description.deadSpaceL,
    },
    analyzerDeadSpaceL: description.analyzerDeadSpaceL,
    limits,
    comment: draft.comment.trim(),
  };
  const inspiredProblem = inspiredVolumeProblem(run, analyzer);
  if (inspiredProblem) {
    errors.inspiredVolume = { message: inspiredProblem, slip: null };
    return { errors, missing, warnings, questions: [], run: null };
  }
  return { errors, missing, warnings, questions: questionsFor(run, { logbook, lastRun, now }), run };
}

/** The years that a run can be dated in. A browser takes a year typed with two digits for one of the first century. */
const years = { first: 1970, last: 2199 };

/** Milliseconds of a local date and time; `now` for an empty text; null for one that is no time. */
function readMadeAt(text: string, now: number): number | null {
  if (text === '') return now;
  const time = new Date(text);
  const year = time.getFullYear();
  // Written so that NaN, the year of no time at all, is no year either.
  return year >= years.first && year <= years.last ? time.getTime() : null;
}

export function lastRunOf(logbook: Logbook, analyzerId: string): LoggedRun | undefined {
  return logbook.runs.findLast((run) => run.body.analyzerId === analyzerId && run.voided === null);
}

/** Whether anything is left of the nominal breath once the plunger's start and the subtracted dead space are taken off. */
function breathProblemOf({ description }: Analyzer, syringe: Syringe): string | null {
  const strokeL = syringe.description.volumeL - description.volumeInsideL;
  if (strokeL > description.analyzerDeadSpaceL) return null;
  return (
    `${syringe.description.label} holds ${litresTyped(syringe.description.volumeL)} L: too small for ${description.label}, ` +
    `which starts with ${litresTyped(description.volumeInsideL)} L inside and subtracts ${litresTyped(description.analyzerDeadSpaceL)} L.`
  );
}

function inspiredVolumeProblem(run: RunOnTheBench, { description }: Analyzer): string | null {
  const { inspiredVolumeL, vaReportedAs } = run.reading;
  if (inspiredVolumeL === undefined) return null;
  const { relativeHumidity, ...room } = run.ambient;
  const ambient = relativeHumidity === undefined ? room : { ...room, relativeHumidity };
  const ambientL = inspiredVolumeL * ambientFactor(vaReportedAs, ambient, run.conversion);
  if (ambientL > description.analyzerDeadSpaceL) return null;
  return (
    `${litresTyped(ambientL)} L at the room’s conditions is not more than the ${litresTyped(description.analyzerDeadSpaceL)} L ` +
    `of dead space that ${description.label} subtracts: nothing would be left of the breath. Check both.`
  );
}

/** A pressure this far from the last run's is more than weather: 60 mmHg is 700 m of altitude. */
const pressureJumpMmHg = 60;

function warningsFor(
  draft: BenchDraft,
  known: {
    analyzer: Analyzer | undefined;
    syringe: Syringe | undefined;
    barometricMmHg: number | undefined;
    lastRun: LoggedRun | undefined;
    madeAt: number;
  },
): BenchReading['warnings'] {
  const { analyzer, syringe, barometricMmHg, lastRun, madeAt } = known;
  const warnings: BenchReading['warnings'] = {};
  if (analyzer?.retired) {
    warnings.analyzerId = `${analyzer.description.label} was retired on ${dayAndTime(analyzer.retired.at)}.`;
  }
  const syringeWarning = syringe && syringeProblem(syringe, madeAt);
  if (syringeWarning) warnings.syringeId = syringeWarning;
  const lastMmHg = lastRun?.body.ambient.barometricMmHg;
  if (barometricMmHg !== undefined && lastMmHg !== undefined) {
    if (Math.abs(barometricMmHg - lastMmHg) > pressureJumpMmHg) {
      const { value, unit } = lastRun?.body.pressureAsTyped ?? { value: lastMmHg, unit: 'mmHg' };
      warnings.pressure = `Far from the last run's ${value} ${unit}. Is the unit right (${draft.pressureUnit})?`;
    }
  }
  return warnings;
}

function syringeProblem({ description, retired }: Syringe, madeAt: number): string | null {
  const { label, calibrationDueOn, leakCheckDueOn } = description;
  if (retired) return `${label} was retired on ${dayAndTime(retired.at)}.`;
  const overdue = [
    { what: 'calibration', dueOn: calibrationDueOn },
    { what: 'leak check', dueOn: leakCheckDueOn },
  ].filter(({ dueOn }) => dueOn !== null && new Date(`${dueOn}T23:59:59.999`).getTime() < madeAt);
  if (overdue.length === 0) return null;
  return `${label} is overdue: ${overdue
    .map(({ what, dueOn }) => `${what} was due on ${civilDay(dueOn ?? '')}`)
    .join(', ')}.`;
}

/** A clock may run a little ahead of the wrist-watch that was read. */
const futureToleranceMs = 60_000;
const identicalWithinMs = 60_000;

function questionsFor(
  run: RunOnTheBench,
  { logbook, lastRun, now }: { logbook: Logbook; lastRun: LoggedRun | undefined; now: number },
): string[] {
  const questions: string[] = [];
  const madeAt = Date.parse(run.madeAt);
  if (madeAt > now + futureToleranceMs) {
    questions.push(`The run is dated ${dayAndTime(run.madeAt)}, which is still to come. Is the date right?`);
  }
  if (lastRun && madeAt < Date.parse(lastRun.body.madeAt)) {
    questions.push(
      `The last run of this analyzer was made on ${dayAndTime(lastRun.body.madeAt)}; this one is dated before it. ` +
        'It is judged by the runs before its own date. Is the date right?',
    );
  }
  const identical = logbook.runs.find((earlier) => isIdentical(earlier, run, madeAt));
  if (identical) {
    questions.push(
      `The same readings were recorded for this analyzer at ${dayAndTime(identical.body.madeAt)}. Is this another run?`,
    );
  }
  if (logbook.newestAt !== null && Date.parse(logbook.newestAt) > now + futureToleranceMs) {
    questions.push(
      `This computer's clock says ${dayAndTime(now)}, but the newest entry was written on ` +
        `${dayAndTime(logbook.newestAt)}. Has the clock been set back?`,
    );
  }
  return questions;
}

function isIdentical({ body, voided }: LoggedRun, run: RunOnTheBench, madeAt: number): boolean {
  return (
    voided === null &&
    body.analyzerId === run.analyzerId &&
    Math.abs(Date.parse(body.madeAt) - madeAt) <= identicalWithinMs &&
    sameValues(body, run)
  );
}

function sameValues(one: RunBody, other: RunOnTheBench): boolean {
  return (
    one.route === other.route &&
    one.reading.vaL === other.reading.vaL &&
    one.reading.dlco === other.reading.dlco &&
    one.ambient.temperatureC === other.ambient.temperatureC &&
    one.ambient.barometricMmHg === other.ambient.barometricMmHg
  );
}
