/** From the typed form of a simulator's session to a control that can be judged and recorded. Pure. */
import { dlcoInMlMinMmHg, pressureInMmHg, simulatorTarget } from '../../core/index.ts';
import type { SimulatorContent, SimulatorLevel } from '../../journal/entries.ts';
import type { Logbook, LoggedControl } from '../../journal/logbook.ts';
import { checkLimitsAt } from '../controlAssessments.ts';
import { civilDay, dlcoTyped } from '../parts/figures.ts';
import { localDay } from '../parts/localTime.ts';
import { breathHoldSpec, pressureSpec } from '../runForm/quantities.ts';
import { type LevelDraft, levels, type SimulatorDraft } from './controlDraft.ts';
import {
  carbonMonoxideSpec,
  fractionOfPercent,
  personsVaSpec,
  targetSpec,
  tracerSpec,
  uptakeSpec,
} from './controlNumbers.ts';
import { doubtOfLevel } from './doubtfulUnits.ts';
import { FieldNotes } from './fieldNotes.ts';
import { askAboutControl, type ControlReading, readWhoAndWhen, type Surroundings } from './readInCommon.ts';

type Level = SimulatorContent['levels'][number];
type Target = Pick<Level, 'targetMlMinMmHg' | 'basis'>;

type SimulatorReading = ControlReading<SimulatorContent>;

export function readSimulator(draft: SimulatorDraft, surroundings: Surroundings): SimulatorReading {
  const { logbook, amending } = surroundings;
  const notes = new FieldNotes();
  const madeAt = readWhoAndWhen(draft, notes, surroundings);
  const targets: SimulatorReading['targets'] = {};
  const read: Level[] = [];
  const doubts: string[] = [];
  const made = levels.filter((level) => draft[level].isMade);
  for (const name of made) {
    const typed = draft[name];
    const target = readTarget(name, typed, notes);
    if (target !== undefined) targets[name] = target.targetMlMinMmHg;
    const level = readLevel(name, typed, notes);
    if (target !== undefined && level !== undefined) {
      read.push({ level: name, ...target, ...level });
      const doubt = doubtOfLevel(level.reading, target.targetMlMinMmHg);
      notes.warn(`${name}.dlco`, doubt);
      if (doubt !== null && isReadAnew(name, level.reading, amending)) {
        doubts.push(doubtInWords(name, level.reading, doubt));
      }
    }
    if (madeAt !== null) noteCylinder(name, typed, notes, { logbook, madeAt });
  }
  if (made.length === 0) notes.want('low', 'Tick the level, or both, that this session has.');
  if (targets.low !== undefined && targets.high !== undefined && targets.low >= targets.high) {
    notes.warn('high', 'Its target is not above that of the low level. Are the two exchanged?');
  }
  const { errors, missing, warnings } = notes;
  const { analyzerId } = draft;
  if (
    !notes.isClear ||
    madeAt === null ||
    !logbook.analyzers.has(analyzerId) ||
    read.length === 0 ||
    read.length < made.length
  ) {
    return { errors, missing, warnings, questions: [], madeAt, control: null, targets };
  }
  const control: SimulatorContent = {
    kind: 'simulator',
    madeAt,
    analyzerId,
    technologistId: draft.technologistId,
    comment: draft.comment.trim(),
    ...(draft.investigates === null ? {} : { investigates: draft.investigates }),
    simulator: draft.simulator.trim(),
    levels: read,
    limits:
      amending?.control.kind === 'simulator' ? amending.control.limits : limitsOfTheDay(logbook, madeAt),
  };
  const questions = askAboutControl(control, surroundings, {
    earlier: sessionsBefore(logbook, draft, amending?.id),
    isIdentical: ({ control: other }) =>
      other.kind === 'simulator' &&
      JSON.stringify(other.levels.map(({ reading }) => reading)) ===
        JSON.stringify(read.map(({ reading }) => reading)),
    one: 'session with the simulator on this analyzer',
  });
  return { errors, missing, warnings, questions: [...doubts, ...questions], madeAt, control, targets };
}

/** What was asked when it was recorded is not asked again of an amendment that leaves the reading. */
function isReadAnew(name: SimulatorLevel, { dlco, dlcoUnit }: Level['reading'], amending?: LoggedControl) {
  if (amending?.control.kind !== 'simulator') return true;
  const before = amending.control.levels.find(({ level }) => level === name)?.reading;
  return before?.dlco !== dlco || before.dlcoUnit !== dlcoUnit;
}

const doubtInWords = (name: SimulatorLevel, { dlco, dlcoUnit }: Level['reading'], doubt: string) =>
  `DLCO of the ${name} level is ${dlcoTyped(dlco, dlcoUnit)} ${dlcoUnit}. ${doubt}`;

function limitsOfTheDay(logbook: Logbook, madeAt: string): SimulatorContent['limits'] {
  const { edition, simulator } = checkLimitsAt(logbook, madeAt);
  return { edition, ...simulator };
}

/** An analyzer's sessions that stand, oldest first. `except`: the one that is amended. */
export function sessionsBefore(
  { controls }: Pick<Logbook, 'controls'>,
  { analyzerId }: { analyzerId: string },
  except?: string,
): LoggedControl[] {
  return controls.filter(
    ({ id, control, voided }) =>
      voided === null && id !== except && control.kind === 'simulator' && control.analyzerId === analyzerId,
  );
}

function readTarget(name: SimulatorLevel, typed: LevelDraft, notes: FieldNotes): Target | undefined {
  if (typed.basis === 'computed') return readComputed(name, typed, notes);
  const dlco = notes.number(
    `${name}.target`,
    typed.target,
    targetSpec(typed.targetUnit),
    'Type the target of the certificate.',
  );
  if (dlco === undefined) return undefined;
  const dlcoUnit = typed.targetUnit;
  return {
    targetMlMinMmHg: dlcoInMlMinMmHg(dlco, dlcoUnit),
    basis: { kind: 'certificate', dlco, dlcoUnit },
  };
}

function readComputed(name: SimulatorLevel, typed: LevelDraft, notes: FieldNotes): Target | undefined {
  const fraction = (
    field: 'inspiredCo' | 'inspiredTracer' | 'alveolarCo' | 'alveolarTracer',
    what: string,
  ) => {
    const spec = field.endsWith('Co') ? carbonMonoxideSpec : tracerSpec;
    const percent = notes.number(`${name}.${field}`, typed[field], spec, `Type the ${what}.`);
    return percent === undefined ? undefined : fractionOfPercent(percent);
  };
  const inspiredCo = fraction('inspiredCo', 'CO of the inspired gas');
  const inspiredTracer = fraction('inspiredTracer', 'tracer of the inspired gas');
  const alveolarCo = fraction('alveolarCo', 'CO of the alveolar gas');
  const alveolarTracer = fraction('alveolarTracer', 'tracer of the alveolar gas');
  const vaBtpsL = notes.number(`${name}.targetVa`, typed.targetVa, personsVaSpec, 'Type the simulated VA.');
  const breathHoldS = notes.number(
    `${name}.targetBreathHold`,
    typed.targetBreathHold,
    breathHoldSpec,
    'Type the breath-hold time that is simulated.',
  );
  const pressure = notes.number(
    `${name}.pressure`,
    typed.pressure,
    pressureSpec(typed.pressureUnit),
    'Type the barometric pressure.',
  );
  if (inspiredCo === undefined || inspiredTracer === undefined) return undefined;
  if (alveolarCo === undefined || alveolarTracer === undefined) return undefined;
  const inspired = { co: inspiredCo, tracer: inspiredTracer };
  const alveolar = { co: alveolarCo, tracer: alveolarTracer };
  if (!isPossibleBreath(name, { inspired, alveolar }, notes)) return undefined;
  if (vaBtpsL === undefined || breathHoldS === undefined || pressure === undefined) return undefined;
  const barometricMmHg = pressureInMmHg(pressure, typed.pressureUnit);
  const breath = { inspired, alveolar, vaBtpsL, breathHoldS, barometricMmHg };
  return { targetMlMinMmHg: simulatorTarget(breath), basis: { kind: 'computed', ...breath } };
}

interface Gases {
  inspired: { co: number; tracer: number };
  alveolar: { co: number; tracer: number };
}

/** Breathing in dilutes the tracer, and CO besides is taken up: neither can come out more, and CO falls further. */
function isPossibleBreath(name: SimulatorLevel, { inspired, alveolar }: Gases, notes: FieldNotes): boolean {
  if (alveolar.tracer > inspired.tracer) {
    notes.refuse(
      `${name}.alveolarTracer`,
      'More than was breathed in: the tracer can only be diluted. Are inspired and alveolar exchanged?',
    );
    return false;
  }
  if (alveolar.co > inspired.co) {
    notes.refuse(
      `${name}.alveolarCo`,
      'More than was breathed in: CO is diluted and taken up. Are inspired and alveolar exchanged?',
    );
    return false;
  }
  if (alveolar.co / inspired.co >= alveolar.tracer / inspired.tracer) {
    notes.refuse(
      `${name}.alveolarCo`,
      'CO has fallen no further than the tracer: nothing would be taken up. Read the four fractions again.',
    );
    return false;
  }
  return true;
}

function readLevel(
  name: SimulatorLevel,
  typed: LevelDraft,
  notes: FieldNotes,
): Pick<Level, 'reading' | 'cylinderId'> | undefined {
  const { dlcoUnit, cylinderId } = typed;
  const dlco = notes.number(
    `${name}.dlco`,
    typed.dlco,
    uptakeSpec(dlcoUnit),
    'Type the DLCO that the analyzer reports.',
  );
  const vaL = notes.number(`${name}.va`, typed.va, personsVaSpec);
  const breathHoldS = notes.number(`${name}.breathHold`, typed.breathHold, breathHoldSpec);
  if (dlco === undefined) return undefined;
  return {
    ...(cylinderId === '' ? {} : { cylinderId }),
    reading: {
      dlco,
      dlcoUnit,
      ...(vaL === undefined ? {} : { vaL }),
      ...(breathHoldS === undefined ? {} : { breathHoldS }),
    },
  };
}

/** Gas past its certificate: its concentrations are nobody's word any more. */
function noteCylinder(
  name: SimulatorLevel,
  { cylinderId }: LevelDraft,
  notes: FieldNotes,
  { logbook, madeAt }: { logbook: Logbook; madeAt: string },
) {
  const cylinder = logbook.cylinders.get(cylinderId);
  const expiresOn = cylinder?.description.expiresOn ?? null;
  if (cylinder === undefined || expiresOn === null || localDay(Date.parse(madeAt)) <= expiresOn) return;
  notes.warn(
    `${name}.cylinderId`,
    `${cylinder.description.label} has expired: its last day was ${civilDay(expiresOn)}.`,
  );
}
