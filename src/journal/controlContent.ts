/**
 * The controls besides the syringe: a person known by a code, and a simulator that gives precision gas. Each is one test of one
 * analyzer, judged on its day like a run, and put right by amending like one.
 */
import * as z from 'zod/mini';
import { investigationSchema } from './runContent.ts';
import {
  dlcoUnitSchema,
  haemoglobinUnitSchema,
  identifier,
  instant,
  longText,
  optionalShortText,
  positive,
  ruleSchema,
  shortText,
  simulatorLevelSchema,
  within,
} from './vocabulary.ts';

const common = {
  /** When it was made, which may be before it was written down. */
  madeAt: instant,
  analyzerId: identifier,
  technologistId: identifier,
  comment: longText,
  /** What it was made to find out. */
  investigates: z.optional(investigationSchema),
};

/** The limits in force on the day, kept with the control so that a later edition rewrites nothing. */
const limitsOfTheDay = {
  edition: shortText,
  source: z.string().check(z.minLength(1), z.maxLength(300)),
};

const fractions = z.strictObject({ co: within(0, 1), tracer: within(0, 1) });

/** A person's test, in the patient-test mode. */
const biologicalContentSchema = z.strictObject({
  kind: z.literal('biological'),
  ...common,
  subjectId: identifier,
  /** As the analyzer reported it; volumes in litres BTPS. */
  reading: z.strictObject({
    dlco: positive,
    dlcoUnit: dlcoUnitSchema,
    vaL: positive,
    inspiredVolumeL: z.optional(positive),
  }),
  /** As typed. It explains a change and corrects none of the values. */
  haemoglobin: z.optional(z.strictObject({ value: positive, unit: haemoglobinUnitSchema })),
  /** `fraction` and `dlcoMlMinMmHg` are from the mean of the first tests. */
  limits: z.strictObject({ ...limitsOfTheDay, fraction: positive, dlcoMlMinMmHg: positive, cv: positive }),
});

/** Where a target comes from: typed from the certificate, or computed from what the gases hold by the single-breath equation. */
const targetBasisSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('certificate'), dlco: positive, dlcoUnit: dlcoUnitSchema }),
  z.strictObject({
    kind: z.literal('computed'),
    inspired: fractions,
    alveolar: fractions,
    vaBtpsL: positive,
    breathHoldS: positive,
    barometricMmHg: within(300, 900),
  }),
]);

const simulatorContentSchema = z.strictObject({
  kind: z.literal('simulator'),
  ...common,
  /** What the laboratory calls it. */
  simulator: optionalShortText,
  levels: z
    .array(
      z.strictObject({
        level: simulatorLevelSchema,
        targetMlMinMmHg: positive,
        basis: targetBasisSchema,
        cylinderId: z.optional(identifier),
        reading: z.strictObject({
          dlco: positive,
          dlcoUnit: dlcoUnitSchema,
          /** Litres BTPS, and seconds. */
          vaL: z.optional(positive),
          breathHoldS: z.optional(positive),
        }),
      }),
    )
    .check(
      z.minLength(1),
      z.maxLength(2),
      z.refine(([one, other]) => one?.level !== other?.level, 'a level comes twice'),
    ),
  /** How far from its target a level may read, in mL/min/mmHg. */
  limits: z.strictObject({ ...limitsOfTheDay, dlcoMlMinMmHg: positive }),
});

export const controlSchema = z.discriminatedUnion('kind', [biologicalContentSchema, simulatorContentSchema]);

/** One series of controls of one analyzer: a person's DLCO or VA, or a level of the simulator. */
export const controlSeriesSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('biological'), subjectId: identifier, quantity: z.enum(['dlco', 'va']) }),
  z.strictObject({ kind: z.literal('simulator'), level: simulatorLevelSchema }),
]);

/** The verdict of the day as the technologist saw it. Values are in mL/min/mmHg (of a level: from its target), or L for VA. */
export const controlJudgementSchema = z.strictObject({
  word: z.enum(['pass', 'warn', 'fail']),
  establishing: z.boolean(),
  /** True when it was made while a failure of one of its series was open. */
  failureOpen: z.boolean(),
  series: z
    .array(
      z.strictObject({
        name: z.enum(['dlco', 'va', 'low', 'high']),
        value: z.number(),
        /** Null where no published limit applies, or none yet. */
        withinPublished: z.nullable(z.boolean()),
        n: z.int().check(z.nonnegative()),
        mean: z.nullable(z.number()),
        sd: z.nullable(z.number()),
        z: z.nullable(z.number()),
        /** `levels`: R-4s between the two levels of one session. */
        signals: z.array(
          z.strictObject({
            rule: ruleSchema,
            severity: z.enum(['action', 'warning']),
            across: z.enum(['tests', 'levels']),
          }),
        ),
      }),
    )
    .check(z.minLength(1), z.maxLength(2)),
});
