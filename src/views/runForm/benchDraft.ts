/** What stands in the form of a run, as typed: numbers stay text until they are read. */

import * as z from 'zod/mini';
import {
  dlcoUnitSchema,
  findingCheckSchema,
  gasConditionSchema,
  pressureUnitSchema,
  routeSchema,
  runReasonSchema,
  temperatureUnitSchema,
} from '../../journal/vocabulary.ts';

/** A hose or filter left on the syringe, its volume in mL as typed. */
const attachedRowSchema = z.object({ name: z.string(), volume: z.string() });

/** Where a value comes from that was not typed into this form. Instants in ms. */
const originSchema = z.discriminatedUnion('kind', [
  /** Read for a run of that analyzer at that moment, earlier in the same session. */
  z.object({ kind: z.literal('carried'), analyzerId: z.string(), at: z.number() }),
  /** Taken from the text of a report. */
  z.object({ kind: z.literal('report') }),
  /** Typed here, and left lying since then. */
  z.object({ kind: z.literal('kept'), at: z.number() }),
]);
export type Origin = z.infer<typeof originSchema>;

const withOriginSchema = z.enum([
  'technologistId',
  'syringeId',
  'attached',
  'temperature',
  'pressure',
  'humidity',
  'va',
  'dlco',
  'inspiredVolume',
  'volumeCheck',
  'breathHold',
]);
export type FieldWithOrigin = z.infer<typeof withOriginSchema>;

/** What a former version kept has not all of these fields: each that came later has a default. */
export const benchDraftSchema = z.object({
  analyzerId: z.string(),
  technologistId: z.string(),
  syringeId: z.string(),
  attached: z._default(z.array(attachedRowSchema), () => []),
  route: routeSchema,
  reason: runReasonSchema,
  investigates: z._default(z.nullable(z.object({ runId: z.string(), check: findingCheckSchema })), null),
  /** Local date and time as an input of type datetime-local gives it; empty means "now", and the time that stands where a run is amended. */
  madeAt: z.string(),
  temperature: z.string(),
  temperatureUnit: z._default(temperatureUnitSchema, '°C'),
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
  origins: z._default(z.partialRecord(withOriginSchema, originSchema), () => ({})),
});

export type BenchDraft = z.infer<typeof benchDraftSchema>;
export type BenchField = keyof BenchDraft;
export const benchFields: readonly BenchField[] = z.keyof(benchDraftSchema).options;

export const emptyDraft: BenchDraft = {
  analyzerId: '',
  technologistId: '',
  syringeId: '',
  attached: [],
  route: 'patient-test',
  reason: 'weekly',
  investigates: null,
  madeAt: '',
  temperature: '',
  temperatureUnit: '°C',
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
  origins: {},
};

export type NumberFieldName =
  | 'temperature'
  | 'pressure'
  | 'humidity'
  | 'va'
  | 'dlco'
  | 'inspiredVolume'
  | 'breathHold'
  | 'volumeCheck';

/** What is typed anew for every run. */
export const readingFields = [
  'va',
  'dlco',
  'inspiredVolume',
  'breathHold',
  'volumeCheck',
  'comment',
] as const satisfies readonly BenchField[];

/** Whether anything of a run's own stands in the form that would be lost with it. */
export const isHalfTyped = (draft: BenchDraft): boolean => readingFields.some((field) => draft[field] !== '');

/** The number that a unit says how to read. */
const numberOfUnit: Partial<Record<BenchField, FieldWithOrigin>> = {
  temperatureUnit: 'temperature',
  pressureUnit: 'pressure',
  dlcoUnit: 'dlco',
  vaReportedAs: 'va',
};

/** The form after a hand has changed something in it: what was touched is from then on typed here. */
export function touched(draft: BenchDraft, changes: Partial<BenchDraft>): BenchDraft {
  const origins: BenchDraft['origins'] = { ...draft.origins };
  for (const field of benchFields) {
    if (!(field in changes)) continue;
    const read = numberOfUnit[field] ?? withOriginSchema.options.find((one) => one === field);
    if (read !== undefined) delete origins[read];
  }
  return { ...draft, origins, ...changes };
}

/** Whether two fields hold the same text, or the same rows of texts. */
export const isSameInDraft = (one: BenchDraft[BenchField], other: BenchDraft[BenchField]): boolean =>
  one === other || (typeof one === 'object' && JSON.stringify(one) === JSON.stringify(other));
