/** The words that entries are made of: what several kinds of entry share. */
import './zodSettings.ts';
import * as z from 'zod/mini';

/** An ISO 8601 instant in UTC, to the millisecond: `2026-03-02T07:45:00.000Z`. */
export const instant = z.iso.datetime({ precision: 3 });
/** A civil date without a time: `2026-03-02`. */
export const civilDate = z.iso.date();

/** Not by zod's own word for it, which looks its form up by name and so brings every form zod knows, 2 kB of them. */
export const sha256 = z.stringFormat('sha256_hex', /^[0-9a-f]{64}$/i);
export const identifier = z.string().check(z.minLength(8), z.maxLength(64));
export const shortText = z.string().check(z.minLength(1), z.maxLength(120));
export const optionalShortText = z.string().check(z.maxLength(120));
export const longText = z.string().check(z.maxLength(2000));
export const reasonText = longText.check(z.minLength(1));
export const positive = z.number().check(z.positive());
export const notNegative = z.number().check(z.nonnegative());
export const within = (lowest: number, highest: number) =>
  z.number().check(z.minimum(lowest), z.maximum(highest));

export const gasConditionSchema = z.enum(['BTPS', 'ATPS', 'ATP', 'ATPD', 'STPD']);
export const routeSchema = z.enum(['patient-test', 'built-in']);
export const methodSchema = z.enum(['syringe', 'precision-gas']);
export const quantitySchema = z.enum(['va', 'dlco']);
export const dlcoUnitSchema = z.enum(['mL/min/mmHg', 'mmol/min/kPa']);
export const pressureUnitSchema = z.enum(['mmHg', 'kPa', 'hPa']);
export const temperatureUnitSchema = z.enum(['°C', '°F']);
/** How a gas analyzer gets its sample: all along the breath, or from a part of it that is kept in a bag or chamber. */
export const gasAnalysisSchema = z.enum(['continuous', 'sample-bag']);
/** Gases of a test-gas cylinder, by their formula. */
export const gasSchema = z.enum(['CO', 'CH4', 'He', 'Ne', 'C2H2', 'O2', 'N2']);
/** The gas that is not taken up and measures the dilution. */
export const tracerSchema = z.enum(['CH4', 'He', 'Ne']);
export const ruleSchema = z.enum(['1-2s', '1-3s', '2-2s', 'R-4s', '4-1s', '10x', '7T', 'EWMA', 'CUSUM']);
export const roleSchema = z.enum(['technologist', 'supervisor']);
/** The checks that have a date on which they are due. */
export const scheduledCheckSchema = z.enum([
  'simulation',
  'volume-check',
  'biological-control',
  'linearity',
  'syringe-leak',
  'syringe-calibration',
  'barometer',
  'cylinder-expiry',
  'simulator',
]);
/** The checks that tell the causes of a failure apart, as the core names them; `repeat` is the same run once more. */
export const findingCheckSchema = z.enum([
  'repeat',
  'volume-check',
  'other-route',
  'other-analyzer',
  'read-conditions',
  'other-gas',
  'biological-control',
]);
export const haemoglobinUnitSchema = z.enum(['g/dL', 'g/L', 'mmol/L']);
/** Of a precision-gas simulator: which of its two uptakes is simulated. */
export const simulatorLevelSchema = z.enum(['low', 'high']);
/** Gone on with, for a while not tested, or tested and left out of every mean. */
export const subjectStateSchema = z.enum(['active', 'paused', 'excluded']);
export const runReasonSchema = z.enum(['weekly', 'suspected-fault', 'after-service', 'repeat']);
export const eventTypeSchema = z.enum([
  'service',
  'part',
  'bag',
  'sensor',
  'cylinder',
  'software',
  'move',
  'other',
]);

export const conversionSchema = z.discriminatedUnion('kind', [
  /** Undo the analyzer's own BTPS correction for the day's room; `assumed` is the gas the analyzer took it to be. */
  z.strictObject({ kind: z.literal('computed'), assumed: z.enum(['ATPD', 'ATPS']) }),
  /** Multiply the reported BTPS volume by one constant of the laboratory's procedure. */
  z.strictObject({ kind: z.literal('fixed'), factor: within(0.5, 1.5) }),
]);
