/** What a laboratory sets for itself: how it writes, and by what its runs are judged. */
import * as z from 'zod/mini';
import {
  dlcoUnitSchema,
  optionalShortText,
  positive,
  pressureUnitSchema,
  ruleSchema,
  temperatureUnitSchema,
} from './vocabulary.ts';

export const laboratoryDescriptionSchema = z.strictObject({
  name: optionalShortText,
  decimalMark: z.enum(['point', 'comma']),
  dateForm: z.enum(['d-mon-yyyy', 'yyyy-mm-dd', 'dd.mm.yyyy', 'dd/mm/yyyy', 'mm/dd/yyyy']),
  clock: z.enum(['24', '12']),
  /** What a new analyzer, and a room, is described in unless somebody says otherwise. */
  temperatureUnit: temperatureUnitSchema,
  pressureUnit: pressureUnitSchema,
  dlcoUnit: dlcoUnitSchema,
});

/** The core's control policy, with every rule named: a later change of the core's defaults must not reach a day that is over. */
export const controlPolicySchema = z
  .strictObject({
    limits: z.enum(['baseline', 'rolling']),
    baselineSize: z.int().check(z.minimum(2), z.maximum(200)),
    minimumSize: z.int().check(z.minimum(2), z.maximum(200)),
    smallSample: z.boolean(),
    severity: z.record(ruleSchema, z.enum(['action', 'warning', 'off'])),
    ewma: z.strictObject({ lambda: z.number().check(z.positive(), z.maximum(1)), limit: positive }),
    cusum: z.strictObject({ slack: z.number().check(z.nonnegative()), decision: positive }),
  })
  .check(
    z.refine(
      ({ minimumSize, baselineSize }) => minimumSize <= baselineSize,
      'minimumSize is above baselineSize',
    ),
  );
