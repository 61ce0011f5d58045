/** How people and equipment are described. A new version of one only ever adds fields that may be left out. */
import * as z from 'zod/mini';
import {
  civilDate,
  conversionSchema,
  dlcoUnitSchema,
  gasAnalysisSchema,
  gasConditionSchema,
  gasSchema,
  identifier,
  optionalShortText,
  pressureUnitSchema,
  roleSchema,
  routeSchema,
  shortText,
  tracerSchema,
  within,
} from './vocabulary.ts';

/** A hose or filter that can be left on a syringe, with the volume it holds, in litres. */
export const attachmentSchema = z.strictObject({ name: shortText, volumeL: within(0, 1) });

export const technologistDescriptionSchema = z.strictObject({
  name: shortText,
  /** Two to four letters that stand beside every record, as on paper. */
  initials: z.string().check(z.minLength(1), z.maxLength(4)),
  role: roleSchema,
});

export const analyzerDescriptionSchema = z.strictObject({
  label: shortText,
  place: optionalShortText,
  serial: optionalShortText,
  /** The syringe it is usually tested with; a run may use another. */
  syringeId: identifier,
  route: routeSchema,
  conversion: conversionSchema,
  vaReportedAs: gasConditionSchema,
  /** Dead space the analyzer subtracts by itself before it reports VA, in ambient litres. */
  analyzerDeadSpaceL: within(0, 1),
  /** Room air left in the syringe before the manoeuvre, in litres: 0 with the plunger home, 1 when 2 L are inhaled. */
  volumeInsideL: within(0, 1),
  pressureUnit: pressureUnitSchema,
  dlcoUnit: dlcoUnitSchema,
  /** Since version 2; left out while nobody has said. */
  gasAnalysis: z.optional(gasAnalysisSchema),
  tracer: z.optional(tracerSchema),
});

export const syringeDescriptionSchema = z.strictObject({
  label: shortText,
  serial: optionalShortText,
  /** Nominal full stroke, in litres. */
  volumeL: within(0.5, 10),
  /** Volume that the plunger cannot expel, with the hose or filter left on it, in litres. */
  deadSpaceL: within(0, 1),
  /** Dates by which the certificate has to be renewed and the leak check repeated; null while not known. */
  calibrationDueOn: z.nullable(civilDate),
  leakCheckDueOn: z.nullable(civilDate),
  /** Since version 2. As its certificate says. A noted volume check is expected to read it; a run's own target stays nominal. */
  certifiedVolumeL: z.optional(within(0.5, 10)),
  /** What may be left on it for a run: offered at the bench. */
  attachments: z.optional(z.array(attachmentSchema).check(z.maxLength(6))),
});

export const cylinderDescriptionSchema = z.strictObject({
  label: shortText,
  serial: optionalShortText,
  /** Fractions, 0 to 1; the rest is whatever balances them. */
  contents: z
    .array(z.strictObject({ gas: gasSchema, fraction: within(0, 1) }))
    .check(z.minLength(1), z.maxLength(7)),
  /** The last day on which its concentrations are certified; null while not known. */
  expiresOn: z.nullable(civilDate),
});

/** A healthy person who is tested as a patient is, known here by a code and nothing else. */
export const subjectDescriptionSchema = z.strictObject({
  code: z.string().check(z.minLength(1), z.maxLength(12)),
  note: optionalShortText,
});
