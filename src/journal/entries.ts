/**
 * What can be written into the journal: one zod schema per kind of entry, the one source of the entries' types.
 *
 * Every schema is strict: a field that this version does not know is a newer version's field, and dropping it would
 * change the entry's hash. For the same reason none transforms what it reads (no trimming, no defaults): that is the
 * forms' work. An entry is never edited; what it says is corrected by a later entry.
 */

import * as z from 'zod/mini';
import en from 'zod/v4/locales/en.js';

// zod's small build says only "Invalid input" without its words, and a damaged entry must be told what is wrong with it.
// Jitless, before any schema is made: zod would otherwise try whether the page may turn text into code, which it may not.
z.config({ ...en(), jitless: true });

/** An ISO 8601 instant in UTC, to the millisecond: `2026-03-02T07:45:00.000Z`. */
const instant = z.iso.datetime({ precision: 3 });
/** A civil date without a time: `2026-03-02`. */
const civilDate = z.iso.date();
const identifier = z.string().check(z.minLength(8), z.maxLength(64));
const shortText = z.string().check(z.minLength(1), z.maxLength(120));
const optionalShortText = z.string().check(z.maxLength(120));
const longText = z.string().check(z.maxLength(2000));
const reasonText = longText.check(z.minLength(1));
const positive = z.number().check(z.positive());
const notNegative = z.number().check(z.nonnegative());
const within = (lowest: number, highest: number) => z.number().check(z.minimum(lowest), z.maximum(highest));

export const gasConditionSchema = z.enum(['BTPS', 'ATPS', 'ATP', 'ATPD', 'STPD']);
export const routeSchema = z.enum(['patient-test', 'built-in']);
export const methodSchema = z.enum(['syringe', 'precision-gas']);
export const quantitySchema = z.enum(['va', 'dlco']);
export const dlcoUnitSchema = z.enum(['mL/min/mmHg', 'mmol/min/kPa']);
export const pressureUnitSchema = z.enum(['mmHg', 'kPa', 'hPa']);
export const ruleSchema = z.enum(['1-2s', '1-3s', '2-2s', 'R-4s', '4-1s', '10x', '7T', 'EWMA', 'CUSUM']);
export const roleSchema = z.enum(['technologist', 'supervisor']);
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
});

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

/** What a run says: all that the bench writes down and that an amendment may put right. */
const runContent = {
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
};

/** Where a run came from: typed at the bench, or a row of an imported file. */
const originSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('bench') }),
  z.strictObject({ kind: z.literal('import'), batchId: identifier, row: z.int().check(z.positive()) }),
]);

/** A person's signature over the entry's author, kind and body; see signature.ts. Base64. */
const signatureSchema = z.strictObject({ keyId: identifier, value: z.string().check(z.maxLength(200)) });

const seriesNameSchema = z.strictObject({
  method: methodSchema,
  route: routeSchema,
  quantity: quantitySchema,
});

/** How many entries there were, and the last of them: what is noted outside the database. */
export const markSchema = z.strictObject({
  count: z.int().check(z.positive()),
  workstation: identifier,
  seq: z.int().check(z.positive()),
  hash: z.hash('sha256'),
  at: instant,
});

const bodies = {
  'technologist-added': z.extend(technologistDescriptionSchema, { technologistId: identifier }),
  'technologist-changed': z.extend(technologistDescriptionSchema, {
    technologistId: identifier,
    reason: reasonText,
  }),
  'technologist-retired': z.strictObject({ technologistId: identifier, reason: reasonText }),
  'analyzer-added': z.extend(analyzerDescriptionSchema, { analyzerId: identifier }),
  'analyzer-changed': z.extend(analyzerDescriptionSchema, { analyzerId: identifier, reason: reasonText }),
  'analyzer-retired': z.strictObject({ analyzerId: identifier, reason: reasonText }),
  'syringe-added': z.extend(syringeDescriptionSchema, { syringeId: identifier }),
  'syringe-changed': z.extend(syringeDescriptionSchema, { syringeId: identifier, reason: reasonText }),
  'syringe-retired': z.strictObject({ syringeId: identifier, reason: reasonText }),
  'run-recorded': z.strictObject({
    runId: identifier,
    ...runContent,
    origin: originSchema,
    /** Null for an imported run: nobody judged it here on its day. */
    judged: z.nullable(judgementSchema),
  }),
  /** The run as it should have been written. What stood before stays in its own entry and is shown struck through. */
  'run-amended': z.strictObject({
    amendmentId: identifier,
    runId: identifier,
    run: z.strictObject(runContent),
    /** As it came out with the new values when it was amended; the verdict of the day stays in the run's entry. */
    judged: judgementSchema,
    reason: reasonText,
  }),
  'run-voided': z.strictObject({ runId: identifier, reason: reasonText }),
  'event-recorded': z.strictObject({
    eventId: identifier,
    analyzerId: identifier,
    happenedAt: instant,
    type: eventTypeSchema,
    description: reasonText,
  }),
  /** From `from` on every series of the analyzer starts a new epoch: no mean, pattern or failure reaches across. */
  'baseline-started': z.strictObject({
    baselineId: identifier,
    analyzerId: identifier,
    from: instant,
    reason: reasonText,
  }),
  'failure-closed': z.strictObject({
    closureId: identifier,
    analyzerId: identifier,
    /** Each series whose open failure this closes, with the run that opened it. */
    failures: z.array(z.extend(seriesNameSchema, { openedByRunId: identifier })).check(z.minLength(1)),
    closedAt: instant,
    reason: reasonText,
    correctiveAction: longText,
    /** Null where the supervisor had no key. */
    signature: z.nullable(signatureSchema),
  }),
  /** A batch of runs from another program's file, written in one save together with its runs. */
  'runs-imported': z.strictObject({
    batchId: identifier,
    fileName: z.string().check(z.minLength(1), z.maxLength(255)),
    fileHash: z.hash('sha256'),
    rowsRead: z.int().check(z.nonnegative()),
    accepted: z.int().check(z.positive()),
    refused: z.int().check(z.nonnegative()),
  }),
  /** Voids every run of a batch. */
  'import-voided': z.strictObject({ batchId: identifier, reason: reasonText }),
  /** A person's public key. The newest one of a person is theirs; an older one still proves what it signed. */
  'key-registered': z.strictObject({
    keyId: identifier,
    technologistId: identifier,
    algorithm: z.literal('ECDSA-P256-SHA256'),
    /** SubjectPublicKeyInfo, base64. */
    publicKey: z.string().check(z.minLength(1), z.maxLength(400)),
    reason: longText,
  }),
  /**
   * The database came back with less than the marker outside it knew of, and somebody decided to go on. Nobody need be
   * in the logbook yet: `initials` are as typed, and the entry's `by` may name no one.
   */
  'entries-lost': z.strictObject({
    lossId: identifier,
    initials: z.string().check(z.minLength(1), z.maxLength(4)),
    known: markSchema,
    /** How many stored entries were left. */
    found: z.int().check(z.nonnegative()),
  }),
};

export type EntryKind = keyof typeof bodies;
export type EntryBody<K extends EntryKind> = z.infer<(typeof bodies)[K]>;

/** The version of every kind's body that this code writes. Raise one when its shape changes; keep reading the old. */
export const currentVersion = 1;

/** What all entries have around their body. Field by field in the order of the chain's story. */
const envelope = {
  id: identifier,
  workstation: identifier,
  /** 1, 2, 3 … within a workstation, without a gap. */
  seq: z.int().check(z.positive()),
  /** Hash of the same workstation's entry before this one; empty for its first. */
  prev: z.union([z.literal(''), z.hash('sha256')]),
  at: instant,
  /** IANA name of the time zone the workstation was in, so that the local time of day can be shown again. */
  zone: z.string().check(z.minLength(1), z.maxLength(64)),
  /** The technologist who wrote it. */
  by: identifier,
  version: z.literal(currentVersion),
  hash: z.hash('sha256'),
};

function entryOf<K extends EntryKind>(kind: K) {
  return z.strictObject({ ...envelope, kind: z.literal(kind), body: bodies[kind] });
}

export const entrySchema = z.discriminatedUnion('kind', [
  entryOf('technologist-added'),
  entryOf('technologist-changed'),
  entryOf('technologist-retired'),
  entryOf('analyzer-added'),
  entryOf('analyzer-changed'),
  entryOf('analyzer-retired'),
  entryOf('syringe-added'),
  entryOf('syringe-changed'),
  entryOf('syringe-retired'),
  entryOf('run-recorded'),
  entryOf('run-voided'),
  entryOf('run-amended'),
  entryOf('runs-imported'),
  entryOf('import-voided'),
  entryOf('key-registered'),
  entryOf('event-recorded'),
  entryOf('baseline-started'),
  entryOf('failure-closed'),
  entryOf('entries-lost'),
]);

export type Entry = z.infer<typeof entrySchema>;
export type EntryOf<K extends EntryKind> = Extract<Entry, { kind: K }>;

/** An entry before it has its place in a chain: the store adds workstation, number, time and hash. */
export type EntryDraft = {
  [K in EntryKind]: { id: string; by: string; kind: K; body: EntryBody<K> };
}[EntryKind];

export type AnalyzerDescription = z.infer<typeof analyzerDescriptionSchema>;
export type SyringeDescription = z.infer<typeof syringeDescriptionSchema>;
export type TechnologistDescription = z.infer<typeof technologistDescriptionSchema>;
export type RunBody = EntryBody<'run-recorded'>;
/** A run without its identity, origin and verdict. */
export type RunContent = EntryBody<'run-amended'>['run'];
export type Signature = z.infer<typeof signatureSchema>;
export type Judgement = z.infer<typeof judgementSchema>;
export type Mark = z.infer<typeof markSchema>;
export type SeriesName = z.infer<typeof seriesNameSchema>;
export type RunReason = z.infer<typeof runReasonSchema>;
export type EventType = z.infer<typeof eventTypeSchema>;
export type Role = z.infer<typeof roleSchema>;
export type PressureUnit = z.infer<typeof pressureUnitSchema>;

/**
 * Reads one stored or received value as an entry.
 * `newer`: a kind or version that only a later release of this logbook knows; the app must then not write.
 * `damaged`: not an entry at all; `problem` says where it went wrong.
 */
export type ReadEntry =
  | { state: 'known'; entry: Entry }
  | { state: 'newer'; kind: string; version: number }
  | { state: 'damaged'; problem: string };

const outlineSchema = z.looseObject({ kind: z.string(), version: z.int().check(z.positive()) });

export function readEntry(value: unknown): ReadEntry {
  const read = entrySchema.safeParse(value);
  if (read.success) return { state: 'known', entry: read.data };
  const outline = outlineSchema.safeParse(value);
  if (outline.success) {
    const { kind, version } = outline.data;
    if (version > currentVersion || !Object.hasOwn(bodies, kind)) return { state: 'newer', kind, version };
  }
  const [issue] = read.error.issues;
  return { state: 'damaged', problem: issue ? `${issue.path.join('.')}: ${issue.message}` : 'not an entry' };
}
