/** What the figures of a noted check say, each with the limit of its day. All may be left out: a word and a note say it too. */
import * as z from 'zod/mini';
import { gasSchema, optionalShortText, positive, pressureUnitSchema, shortText } from './vocabulary.ts';

/** Of a volume check: what was read against what was expected, in litres; the limit as a fraction of it. */
export const volumeReadingsSchema = z.strictObject({
  expectedL: positive,
  readL: z.array(positive).check(z.minLength(1), z.maxLength(9)),
  limitFraction: positive,
  /** Since version 2. The flow of each reading, in L/s, in the same order. */
  flowLPerS: z.optional(z.array(positive).check(z.maxLength(9))),
});

/** One gas of a gas analyzer held against known dilutions of it. `expected` and `read` are in `unit`, as is `fullScale`. */
export const linearitySchema = z.strictObject({
  gas: gasSchema,
  unit: z.enum(['%', 'ppm']),
  fullScale: positive,
  points: z
    .array(z.strictObject({ expected: z.number().check(z.nonnegative()), read: z.number() }))
    .check(z.minLength(2), z.maxLength(20)),
  /** Largest deviation allowed, as a fraction of full scale. */
  limitFraction: positive,
});

/** A syringe's volume as somebody measured or certified it, in litres; the limit as a fraction of `nominalL`. */
export const syringeVolumeSchema = z.strictObject({
  nominalL: positive,
  measuredL: positive,
  limitFraction: positive,
  certificate: optionalShortText,
  issuedBy: optionalShortText,
});

/** The laboratory's barometer against one that is known to be right, both as typed; the limit as a fraction of the latter. */
export const barometerReadingSchema = z.strictObject({
  unit: pressureUnitSchema,
  read: positive,
  reference: positive,
  limitFraction: positive,
});

const sourceText = z.string().check(z.minLength(1), z.maxLength(300));

/** Limits of the checks other than a simulation, as fractions unless a unit is named, each with where it comes from. */
export const checkLimitsSchema = z.strictObject({
  edition: shortText,
  biological: z.strictObject({
    /** Either of the two, beyond the mean of the first tests, is out. */
    fraction: positive,
    dlcoMlMinMmHg: positive,
    /** The coefficient of variation that can be reached. */
    cv: positive,
    source: sourceText,
  }),
  simulator: z.strictObject({ dlcoMlMinMmHg: positive, source: sourceText }),
  volumeCalibration: z.strictObject({ fraction: positive, source: sourceText }),
  /** Of full scale. */
  linearity: z.strictObject({ fraction: positive, source: sourceText }),
  syringe: z.strictObject({ fraction: positive, source: sourceText }),
  barometer: z.strictObject({ fraction: positive, source: sourceText }),
});
