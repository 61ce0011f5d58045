/** What a run says, and what was known of it on its day. */
import * as z from 'zod/mini';
import { attachmentSchema } from './descriptions.ts';
import {
  conversionSchema,
  dlcoUnitSchema,
  findingCheckSchema,
  gasConditionSchema,
  identifier,
  instant,
  longText,
  methodSchema,
  notNegative,
  positive,
  pressureUnitSchema,
  routeSchema,
  ruleSchema,
  runReasonSchema,
  shortText,
  temperatureUnitSchema,
  within,
} from './vocabulary.ts';

/** The published limits in force on the day, kept with the run so that a later edition rewrites nothing. */
export const publishedLimitsSchema = z.strictObject({
  edition: shortText,
  source: z.string().check(z.minLength(1), z.maxLength(300)),
  vaToleranceL: positive,
  dlcoMlMinMmHg: positive,
  dlcoMmolMinKPa: positive,
  volumeCheckFraction: positive,
  breathHoldS: z.strictObject({ target: positive, tolerance: positive }),
});

/** What one series knew of a run when it was recorded. mean, sd and value are in L (VA) or mL/min/mmHg (DLCO). */
const seriesJudgementSchema = z.strictObject({
  value: z.number(),
  n: z.int().check(z.nonnegative()),
  mean: z.nullable(z.number()),
  sd: z.nullable(z.number()),
  z: z.nullable(z.number()),
  signals: z.array(z.strictObject({ rule: ruleSchema, severity: z.enum(['action', 'warning']) })),
});

/** The verdict of the day as the technologist saw it. It is a record, never recomputed. */
export const judgementSchema = z.strictObject({
  word: z.enum(['pass', 'warn', 'fail']),
  establishing: z.boolean(),
  /** True when the run was made while a failure of its series was open. */
  failureOpen: z.boolean(),
  va: seriesJudgementSchema,
  dlco: seriesJudgementSchema,
});

/** The run whose failure is looked into, and by which check. All that look into one run are one investigation. */
export const investigationSchema = z.strictObject({ runId: identifier, check: findingCheckSchema });

/** What a run says: all that the bench writes down and that an amendment may put right. */
export const runContent = {
  /** When the run was made, which may be before it was written down. */
  madeAt: instant,
  analyzerId: identifier,
  syringeId: identifier,
  technologistId: identifier,
  method: methodSchema,
  route: routeSchema,
  reason: runReasonSchema,
  ambient: z.strictObject({
    temperatureC: within(0, 60),
    barometricMmHg: within(300, 900),
    /** Fraction, 0 to 1. */
    relativeHumidity: z.optional(within(0, 1)),
  }),
  /** The pressure as it was typed; `barometricMmHg` is computed from it. */
  pressureAsTyped: z.strictObject({ value: z.number(), unit: pressureUnitSchema }),
  /** What the analyzer reported, digit for digit; volumes in litres, breath-hold in seconds. */
  reading: z.strictObject({
    vaL: positive,
    vaReportedAs: gasConditionSchema,
    dlco: z.number(),
    dlcoUnit: dlcoUnitSchema,
    inspiredVolumeL: z.optional(positive),
    volumeCheckL: z.optional(positive),
    breathHoldS: z.optional(positive),
  }),
  conversion: conversionSchema,
  syringe: z.strictObject({
    strokeL: positive,
    volumeInsideL: notNegative,
    deadSpaceL: notNegative,
  }),
  analyzerDeadSpaceL: notNegative,
  limits: publishedLimitsSchema,
  comment: longText,
  /** Since version 2. The temperature as it was typed; `temperatureC` is computed from it. */
  temperatureAsTyped: z.optional(z.strictObject({ value: z.number(), unit: temperatureUnitSchema })),
  /** What was left on the syringe for this run: its volume is in `syringe.deadSpaceL` already. */
  attached: z.optional(z.array(attachmentSchema).check(z.maxLength(6))),
  /** What it was made to find out. */
  investigates: z.optional(investigationSchema),
};
