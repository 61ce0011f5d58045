/** From the typed analyzer form to the description that goes into the journal. Pure. */
import { customaryFixedFactor } from '../../core/index.ts';
import type { AnalyzerDescription, GasAnalysis } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { laboratoryOf } from '../../journal/standing.ts';
import type { Tracer } from '../gases.ts';
import { inField, plain } from '../parts/figures.ts';
import { type Errors, type FormReading, finish } from '../parts/formReading.ts';
import { type NumberSpec, readNumber } from '../parts/readNumber.ts';
import { millilitresInField, readDeadSpaceMl, readLabel } from './formReading.ts';

export interface AnalyzerDraft {
  label: string;
  place: string;
  serial: string;
  gasAnalysis: GasAnalysis | 'not-said';
  tracer: Tracer | 'not-said';
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
  gasAnalysis: 'not-said',
  tracer: 'not-said',
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

/** A new analyzer: tested with the first syringe in use, and in the units of the laboratory. */
export function newAnalyzer(logbook: Logbook): AnalyzerDraft {
  const { pressureUnit, dlcoUnit } = laboratoryOf(logbook);
  const [syringe] = [...logbook.syringes.values()].filter(({ retired }) => retired === null);
  return { ...emptyAnalyzer, syringeId: syringe?.id ?? '', pressureUnit, dlcoUnit };
}

export function analyzerDraftOf(description: AnalyzerDescription): AnalyzerDraft {
  const { conversion } = description;
  return {
    label: description.label,
    place: description.place,
    serial: description.serial,
    gasAnalysis: description.gasAnalysis ?? 'not-said',
    tracer: description.tracer ?? 'not-said',
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
    analyzerDeadSpaceMl: millilitresInField(description.analyzerDeadSpaceL),
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
    ...(draft.gasAnalysis !== 'not-said' && { gasAnalysis: draft.gasAnalysis }),
    ...(draft.tracer !== 'not-said' && { tracer: draft.tracer }),
  });
}
