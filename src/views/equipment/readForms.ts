/** From the typed equipment forms to the descriptions that go into the journal. Pure. */
import { customaryFixedFactor } from '../../core/index.ts';
import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import type {
  AnalyzerDescription,
  SyringeDescription,
  TechnologistDescription,
} from '../../journal/entries.ts';
import { inField, litresTyped, marked, plain } from '../parts/figures.ts';
import { type NumberSpec, readNumber } from '../parts/readNumber.ts';

export type Errors<T> = Partial<Record<keyof T, string>>;
export type FormReading<T, D> = { ok: true; description: D } | { ok: false; errors: Errors<T> };

export interface PersonDraft {
  name: string;
  initials: string;
  role: TechnologistDescription['role'];
}

export const emptyPerson: PersonDraft = { name: '', initials: '', role: 'technologist' };

export function readPerson(draft: PersonDraft): FormReading<PersonDraft, TechnologistDescription> {
  const errors: Errors<PersonDraft> = {};
  const name = draft.name.trim();
  const initials = draft.initials.trim();
  if (name === '') errors.name = 'Type the name.';
  if (name.length > 120) errors.name = 'The name is too long: 120 letters at most.';
  if (initials === '') errors.initials = 'Type the initials that stand beside each record.';
  if (initials.length > 4) errors.initials = 'Four letters at most.';
  return finish(errors, { name, initials, role: draft.role });
}

export interface SyringeDraft {
  label: string;
  serial: string;
  volumeL: string;
  deadSpaceMl: string;
  calibrationDueOn: string;
  leakCheckDueOn: string;
}

export const emptySyringe: SyringeDraft = {
  label: '',
  serial: '',
  get volumeL() {
    return litresTyped(3);
  },
  deadSpaceMl: '',
  calibrationDueOn: '',
  leakCheckDueOn: '',
};

export const syringeDraftOf = (description: SyringeDescription): SyringeDraft => ({
  label: description.label,
  serial: description.serial,
  volumeL: inLitres(description.volumeL),
  deadSpaceMl: inMillilitres(description.deadSpaceL),
  calibrationDueOn: description.calibrationDueOn ?? '',
  leakCheckDueOn: description.leakCheckDueOn ?? '',
});

const volumeSpec: NumberSpec = { name: 'volume', unit: 'L', lowest: 1, highest: 7, example: '3.00' };

export function readSyringe(draft: SyringeDraft): FormReading<SyringeDraft, SyringeDescription> {
  const errors: Errors<SyringeDraft> = {};
  const label = readLabel(draft.label, errors);
  const volume = readNumber(draft.volumeL, volumeSpec);
  if (volume.state === 'wrong') errors.volumeL = volume.message;
  if (volume.state === 'empty')
    errors.volumeL = `Type the nominal volume, ${litresTyped(3)} L for a 3-litre syringe.`;
  const deadSpace = readDeadSpaceMl(draft.deadSpaceMl);
  if (deadSpace.message) errors.deadSpaceMl = deadSpace.message;
  return finish(errors, {
    label,
    serial: draft.serial.trim(),
    volumeL: volume.state === 'number' ? volume.value : 0,
    deadSpaceL: deadSpace.litres,
    calibrationDueOn: draft.calibrationDueOn || null,
    leakCheckDueOn: draft.leakCheckDueOn || null,
  });
}

export interface AnalyzerDraft {
  label: string;
  place: string;
  serial: string;
  syringeId: string;
  route: AnalyzerDescription['route'];
  conversion: 'computed-dry' | 'computed-saturated' | 'fixed';
  fixedFactor: string;
  vaReportedAs: AnalyzerDescription['vaReportedAs'];
  analyzerDeadSpaceMl: string;
  plunger: 'home' | 'at-1-l';
  pressureUnit: AnalyzerDescription['pressureUnit'];
  dlcoUnit: AnalyzerDescription['dlcoUnit'];
}

export const emptyAnalyzer: AnalyzerDraft = {
  label: '',
  place: '',
  serial: '',
  syringeId: '',
  route: 'patient-test',
  conversion: 'computed-dry',
  get fixedFactor() {
    return plain(customaryFixedFactor);
  },
  vaReportedAs: 'BTPS',
  analyzerDeadSpaceMl: '0',
  plunger: 'home',
  pressureUnit: 'mmHg',
  dlcoUnit: 'mL/min/mmHg',
};

export function analyzerDraftOf(description: AnalyzerDescription): AnalyzerDraft {
  const { conversion } = description;
  return {
    label: description.label,
    place: description.place,
    serial: description.serial,
    syringeId: description.syringeId,
    route: description.route,
    conversion:
      conversion.kind === 'fixed'
        ? 'fixed'
        : conversion.assumed === 'ATPD'
          ? 'computed-dry'
          : 'computed-saturated',
    fixedFactor: conversion.kind === 'fixed' ? inField(conversion.factor) : emptyAnalyzer.fixedFactor,
    vaReportedAs: description.vaReportedAs,
    analyzerDeadSpaceMl: inMillilitres(description.analyzerDeadSpaceL),
    plunger: description.volumeInsideL === 0 ? 'home' : 'at-1-l',
    pressureUnit: description.pressureUnit,
    dlcoUnit: description.dlcoUnit,
  };
}

const factorSpec: NumberSpec = {
  name: 'fixed factor',
  unit: '',
  lowest: 0.7,
  highest: 1,
  example: '0.91',
  // Laboratories say "1.1" of the way into BTPS and "0.91" of the way out: the wrong one of the two is easily typed.
  otherUnits: [
    {
      unit: 'the factor from the room to BTPS',
      lowest: 1.0001,
      highest: 1 / 0.7,
      inThisUnit: (intoBtps) => 1 / intoBtps,
      canBeChosen: false,
    },
  ],
};

export function readAnalyzer(draft: AnalyzerDraft): FormReading<AnalyzerDraft, AnalyzerDescription> {
  const errors: Errors<AnalyzerDraft> = {};
  const label = readLabel(draft.label, errors);
  if (draft.syringeId === '') errors.syringeId = 'Choose the syringe it is tested with.';
  const deadSpace = readDeadSpaceMl(draft.analyzerDeadSpaceMl);
  if (deadSpace.message) errors.analyzerDeadSpaceMl = deadSpace.message;
  const factor = readNumber(draft.fixedFactor, factorSpec);
  if (draft.conversion === 'fixed' && factor.state !== 'number') {
    errors.fixedFactor =
      factor.state === 'wrong'
        ? factor.message
        : `Type the factor of your procedure, for example ${plain(customaryFixedFactor)}.`;
  }
  return finish(errors, {
    label,
    place: draft.place.trim(),
    serial: draft.serial.trim(),
    syringeId: draft.syringeId,
    route: draft.route,
    conversion:
      draft.conversion === 'fixed'
        ? { kind: 'fixed', factor: factor.state === 'number' ? factor.value : 1 }
        : { kind: 'computed', assumed: draft.conversion === 'computed-dry' ? 'ATPD' : 'ATPS' },
    vaReportedAs: draft.vaReportedAs,
    analyzerDeadSpaceL: deadSpace.litres,
    volumeInsideL: draft.plunger === 'home' ? 0 : 1,
    pressureUnit: draft.pressureUnit,
    dlcoUnit: draft.dlcoUnit,
  });
}

/** True when a change of the description moves every later result, so that old and new runs share no mean. */
export function movesTheMean(before: AnalyzerDescription, after: AnalyzerDescription): boolean {
  return (
    JSON.stringify(before.conversion) !== JSON.stringify(after.conversion) ||
    before.vaReportedAs !== after.vaReportedAs ||
    before.analyzerDeadSpaceL !== after.analyzerDeadSpaceL ||
    before.volumeInsideL !== after.volumeInsideL
  );
}

/**
 * What a change of an analyzer's description brings with it. A new baseline is a supervisor's to start, and would put
 * an open failure aside without a word: by way of the description as little as by its own button.
 */
export function consequenceOfChange(
  before: AnalyzerDescription,
  after: AnalyzerDescription,
  hasOpenFailure: boolean,
): { notice: string; only: 'supervisor'; refused: boolean } | null {
  if (!movesTheMean(before, after)) return null;
  return {
    notice: hasOpenFailure
      ? 'This moves every later result, and a new baseline would start with it. Not while a failure is open on this analyzer: close it under Review first.'
      : 'This moves every later result: a new baseline starts with it. Until ten accepted runs are made, only the published limits judge.',
    only: 'supervisor',
    refused: hasOpenFailure,
  };
}

/**
 * What a change of a syringe's volumes brings with it. On which analyzers a new baseline has to follow, a supervisor
 * decides for each: a slip put right moves no mean, a hose left on from now on does.
 */
export function consequenceOfSyringeChange(
  before: SyringeDescription,
  after: SyringeDescription,
): { notice: string; only: 'supervisor'; refused: boolean } | null {
  const isMoved = before.volumeL !== after.volumeL || before.deadSpaceL !== after.deadSpaceL;
  if (!isMoved) return null;
  return {
    notice:
      'This moves every later result made with this syringe. Start a new baseline on each analyzer that it is used on, unless only a slip is put right.',
    only: 'supervisor',
    refused: false,
  };
}

// Both to the last digit: what is opened to change something else must come back as it was.
const inLitres = (litres: number) => {
  const text = litres.toFixed(2);
  return Number(text) === litres ? marked(text) : inField(litres);
};
/** 0.11035 · 1000 is 110.35000000000001. */
const inMillilitres = (litres: number) => inField(withoutBinaryNoise(litres * 1000));

const deadSpaceSpec: NumberSpec = {
  name: 'dead space',
  unit: 'mL',
  lowest: 0,
  highest: 1000,
  example: '110',
};

function readDeadSpaceMl(text: string): { litres: number; message?: string } {
  const read = readNumber(text, deadSpaceSpec);
  if (read.state === 'empty') return { litres: 0, message: 'Type the dead space in mL; 0 if there is none.' };
  if (read.state === 'wrong') return { litres: 0, message: read.message };
  if (read.value > 0 && read.value < 1) {
    const millilitres = Number((read.value * 1000).toPrecision(4));
    return { litres: 0, message: `${text} mL is next to nothing. Was ${plain(millilitres)} mL meant?` };
  }
  return { litres: read.value / 1000 };
}

function readLabel<T extends { label: string }>(text: string, errors: Errors<T>): string {
  const label = text.trim();
  if (label === '') errors.label = 'Type a name that everyone in the laboratory uses.';
  if (label.length > 120) errors.label = 'The name is too long: 120 letters at most.';
  return label;
}

function finish<T, D>(errors: Errors<T>, description: D): FormReading<T, D> {
  return Object.keys(errors).length === 0 ? { ok: true, description } : { ok: false, errors };
}
