/** What stands in the form of a run, as typed: numbers stay text until they are read. */

import * as z from 'zod/mini';
import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import type { Analyzer, LoggedRun } from '../../journal/logbook.ts';
import {
  dlcoUnitSchema,
  gasConditionSchema,
  pressureUnitSchema,
  routeSchema,
  runReasonSchema,
} from '../../journal/vocabulary.ts';
import { inField } from '../parts/figures.ts';

export const benchDraftSchema = z.object({
  analyzerId: z.string(),
  technologistId: z.string(),
  syringeId: z.string(),
  route: routeSchema,
  reason: runReasonSchema,
  /** Local date and time as an input of type datetime-local gives it; empty means "now", and the time that stands where a run is amended. */
  madeAt: z.string(),
  temperature: z.string(),
  pressure: z.string(),
  pressureUnit: pressureUnitSchema,
  humidity: z.string(),
  va: z.string(),
  vaReportedAs: gasConditionSchema,
  dlco: z.string(),
  dlcoUnit: dlcoUnitSchema,
  inspiredVolume: z.string(),
  volumeCheck: z.string(),
  breathHold: z.string(),
  comment: z.string(),
});

export type BenchDraft = z.infer<typeof benchDraftSchema>;
export type BenchField = keyof BenchDraft;
export const benchFields: readonly BenchField[] = z.keyof(benchDraftSchema).options;

export const emptyDraft: BenchDraft = {
  analyzerId: '',
  technologistId: '',
  syringeId: '',
  route: 'patient-test',
  reason: 'weekly',
  madeAt: '',
  temperature: '',
  pressure: '',
  pressureUnit: 'mmHg',
  humidity: '',
  va: '',
  vaReportedAs: 'BTPS',
  dlco: '',
  dlcoUnit: 'mL/min/mmHg',
  inspiredVolume: '',
  volumeCheck: '',
  breathHold: '',
  comment: '',
};

/**
 * What an analyzer remembers: its last run's syringe, route and units, or its description's where there is no run yet
 * or the description was changed since.
 */
export function draftForAnalyzer(
  draft: BenchDraft,
  analyzer: Pick<Analyzer, 'id' | 'description' | 'history'>,
  lastRun: LoggedRun | undefined,
): BenchDraft {
  const { description } = analyzer;
  const describedAt = analyzer.history.at(-1)?.at ?? '';
  const last = lastRun && lastRun.entry.at >= describedAt ? lastRun.body : undefined;
  return {
    ...draft,
    analyzerId: analyzer.id,
    syringeId: last?.syringeId ?? description.syringeId,
    route: last?.route ?? description.route,
    pressureUnit: last?.pressureAsTyped.unit ?? description.pressureUnit,
    vaReportedAs: last?.reading.vaReportedAs ?? description.vaReportedAs,
    dlcoUnit: last?.reading.dlcoUnit ?? description.dlcoUnit,
  };
}

/** After a run is recorded: who and where stay, every reading and the room are typed anew. */
export function draftAfterRecording(draft: BenchDraft): BenchDraft {
  const { analyzerId, technologistId, syringeId, route, pressureUnit, vaReportedAs, dlcoUnit } = draft;
  return {
    ...emptyDraft,
    analyzerId,
    technologistId,
    syringeId,
    route,
    pressureUnit,
    vaReportedAs,
    dlcoUnit,
  };
}

/** The form as it is filled in to amend a run: each value and unit as it was typed. */
export function draftOfRun({ body }: Pick<LoggedRun, 'body'>): BenchDraft {
  const { ambient, pressureAsTyped, reading } = body;
  const { relativeHumidity } = ambient;
  return {
    analyzerId: body.analyzerId,
    technologistId: body.technologistId,
    syringeId: body.syringeId,
    route: body.route,
    reason: body.reason,
    madeAt: '',
    temperature: inField(ambient.temperatureC),
    pressure: inField(pressureAsTyped.value),
    pressureUnit: pressureAsTyped.unit,
    // 0.29 · 100 is 28.999999999999996.
    humidity: relativeHumidity === undefined ? '' : inField(withoutBinaryNoise(relativeHumidity * 100)),
    va: inField(reading.vaL),
    vaReportedAs: reading.vaReportedAs,
    dlco: inField(reading.dlco),
    dlcoUnit: reading.dlcoUnit,
    inspiredVolume: ifKnown(reading.inspiredVolumeL),
    volumeCheck: ifKnown(reading.volumeCheckL),
    breathHold: ifKnown(reading.breathHoldS),
    comment: body.comment,
  };
}

const ifKnown = (value: number | undefined) => (value === undefined ? '' : inField(value));

/**
 * The form of an amended run once another analyzer is chosen. The numbers were read off an instrument and stay; what an
 * analyzer reports them in is its own. The pressure is the barometer's, and its unit stays.
 */
export function draftOnAnalyzer(
  draft: BenchDraft,
  analyzerId: string,
  { vaReportedAs, dlcoUnit }: Pick<BenchDraft, 'vaReportedAs' | 'dlcoUnit'>,
): BenchDraft {
  return { ...draft, analyzerId, vaReportedAs, dlcoUnit };
}
