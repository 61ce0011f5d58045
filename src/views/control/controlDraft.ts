/** What stands in the form of a control, as typed: numbers stay text until they are read. */
import type { DlcoUnit, PressureUnit } from '../../core/index.ts';
import type {
  BiologicalContent,
  HaemoglobinUnit,
  Investigation,
  SimulatorContent,
  SimulatorLevel,
} from '../../journal/entries.ts';
import { inField } from '../parts/figures.ts';
import { percentInField } from './controlNumbers.ts';

interface InCommon {
  analyzerId: string;
  technologistId: string;
  /** Local date and time; empty means "now", and the time that stands where a control is amended. */
  madeAt: string;
  comment: string;
  investigates: Investigation | null;
}

export interface BiologicalDraft extends InCommon {
  kind: 'biological';
  subjectId: string;
  dlco: string;
  dlcoUnit: DlcoUnit;
  va: string;
  inspiredVolume: string;
  haemoglobin: string;
  haemoglobinUnit: HaemoglobinUnit;
}

export interface LevelDraft {
  /** False where the session has no such level. */
  isMade: boolean;
  basis: 'certificate' | 'computed';
  target: string;
  targetUnit: DlcoUnit;
  /** Gas fractions in percent. */
  inspiredCo: string;
  inspiredTracer: string;
  alveolarCo: string;
  alveolarTracer: string;
  targetVa: string;
  targetBreathHold: string;
  pressure: string;
  pressureUnit: PressureUnit;
  cylinderId: string;
  /** When the session was made that the target comes from; null once a hand has touched it. */
  carriedFrom: string | null;
  dlco: string;
  dlcoUnit: DlcoUnit;
  va: string;
  breathHold: string;
}

export interface SimulatorDraft extends InCommon {
  kind: 'simulator';
  simulator: string;
  low: LevelDraft;
  high: LevelDraft;
}

export type ControlDraft = BiologicalDraft | SimulatorDraft;

export const levels = ['low', 'high'] as const satisfies readonly SimulatorLevel[];

/** The name of a field: of a level with the level before it. */
export type ControlField =
  | Exclude<keyof BiologicalDraft | keyof SimulatorDraft, SimulatorLevel>
  | SimulatorLevel
  | `${SimulatorLevel}.${keyof LevelDraft}`;

/** What makes the target of a level: touched by a hand, it is no longer the last session's. */
const targetFields: readonly (keyof LevelDraft)[] = [
  'basis',
  'target',
  'targetUnit',
  'inspiredCo',
  'inspiredTracer',
  'alveolarCo',
  'alveolarTracer',
  'targetVa',
  'targetBreathHold',
  'pressure',
  'pressureUnit',
  'cylinderId',
];

export function touchedLevel(level: LevelDraft, changes: Partial<LevelDraft>): LevelDraft {
  const isTouched = targetFields.some((field) => field in changes);
  return { ...level, ...changes, ...(isTouched ? { carriedFrom: null } : {}) };
}

/** Whether anything was read off an instrument for this form that would be lost with it. */
export function isHalfTyped(draft: ControlDraft): boolean {
  const texts =
    draft.kind === 'biological'
      ? [draft.dlco, draft.va, draft.inspiredVolume, draft.haemoglobin]
      : levels.flatMap((level) => {
          const { dlco, va, breathHold } = draft[level];
          return [dlco, va, breathHold];
        });
  return [...texts, draft.comment].some((text) => text.trim() !== '');
}

const ifKnown = (value: number | undefined) => (value === undefined ? '' : inField(value));

export const emptyLevel = (dlcoUnit: DlcoUnit, pressureUnit: PressureUnit): LevelDraft => ({
  isMade: true,
  basis: 'certificate',
  target: '',
  targetUnit: dlcoUnit,
  inspiredCo: '',
  inspiredTracer: '',
  alveolarCo: '',
  alveolarTracer: '',
  targetVa: '',
  targetBreathHold: '',
  pressure: '',
  pressureUnit,
  cylinderId: '',
  carriedFrom: null,
  dlco: '',
  dlcoUnit,
  va: '',
  breathHold: '',
});

/** The form as it is filled in to amend a control: each value and unit as it was typed. */
export function draftOfBiological(control: BiologicalContent): BiologicalDraft {
  const { reading, haemoglobin } = control;
  return {
    kind: 'biological',
    ...inCommonOf(control),
    subjectId: control.subjectId,
    dlco: inField(reading.dlco),
    dlcoUnit: reading.dlcoUnit,
    va: inField(reading.vaL),
    inspiredVolume: ifKnown(reading.inspiredVolumeL),
    haemoglobin: ifKnown(haemoglobin?.value),
    haemoglobinUnit: haemoglobin?.unit ?? 'g/dL',
  };
}

/** The same of a session; a level that it had not is offered empty, in the pressure unit of its analyzer. */
export function draftOfSimulator(control: SimulatorContent, pressureUnit: PressureUnit): SimulatorDraft {
  const levelOf = (name: SimulatorLevel): LevelDraft => {
    const level = control.levels.find((one) => one.level === name);
    const unit = control.levels[0]?.reading.dlcoUnit ?? 'mL/min/mmHg';
    const empty = emptyLevel(unit, pressureUnit);
    if (level === undefined) return { ...empty, isMade: false };
    const { reading } = level;
    return {
      ...empty,
      ...targetOf(level),
      dlco: inField(reading.dlco),
      dlcoUnit: reading.dlcoUnit,
      va: ifKnown(reading.vaL),
      breathHold: ifKnown(reading.breathHoldS),
    };
  };
  return {
    kind: 'simulator',
    ...inCommonOf(control),
    simulator: control.simulator,
    low: levelOf('low'),
    high: levelOf('high'),
  };
}

/** How a target was made, as typed. The pressure was kept in mmHg. */
export function targetOf({
  basis,
  cylinderId = '',
}: Pick<SimulatorContent['levels'][number], 'basis' | 'cylinderId'>): Partial<LevelDraft> {
  if (basis.kind === 'certificate') {
    return { basis: 'certificate', target: inField(basis.dlco), targetUnit: basis.dlcoUnit, cylinderId };
  }
  return {
    basis: 'computed',
    inspiredCo: percentInField(basis.inspired.co),
    inspiredTracer: percentInField(basis.inspired.tracer),
    alveolarCo: percentInField(basis.alveolar.co),
    alveolarTracer: percentInField(basis.alveolar.tracer),
    targetVa: inField(basis.vaBtpsL),
    targetBreathHold: inField(basis.breathHoldS),
    pressure: inField(basis.barometricMmHg),
    pressureUnit: 'mmHg',
    cylinderId,
  };
}

const inCommonOf = (control: BiologicalContent | SimulatorContent) => ({
  analyzerId: control.analyzerId,
  technologistId: control.technologistId,
  madeAt: '',
  comment: control.comment,
  investigates: control.investigates ?? null,
});
