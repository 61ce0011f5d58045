/** What each kind of entry says. Read entries.ts first: it says how a body is to be written. */
import * as z from 'zod/mini';
import {
  barometerReadingSchema,
  checkLimitsSchema,
  linearitySchema,
  syringeVolumeSchema,
  volumeReadingsSchema,
} from './checkContent.ts';
import { controlJudgementSchema, controlSchema, controlSeriesSchema } from './controlContent.ts';
import {
  analyzerDescriptionSchema,
  cylinderDescriptionSchema,
  subjectDescriptionSchema,
  syringeDescriptionSchema,
  technologistDescriptionSchema,
} from './descriptions.ts';
import { controlPolicySchema, laboratoryDescriptionSchema } from './laboratory.ts';
import { investigationSchema, judgementSchema, publishedLimitsSchema, runContent } from './runContent.ts';
import {
  civilDate,
  eventTypeSchema,
  identifier,
  instant,
  longText,
  methodSchema,
  optionalShortText,
  positive,
  quantitySchema,
  reasonText,
  routeSchema,
  scheduledCheckSchema,
  sha256,
  subjectStateSchema,
} from './vocabulary.ts';

/** Where a run came from: typed at the bench, or a row of an imported file. */
const originSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('bench') }),
  z.strictObject({ kind: z.literal('import'), batchId: identifier, row: z.int().check(z.positive()) }),
]);

/** A person's signature over the entry's author, kind and body; see signature.ts. Base64. */
export const signatureSchema = z.strictObject({
  keyId: identifier,
  value: z.string().check(z.maxLength(200)),
});

export const seriesNameSchema = z.strictObject({
  method: methodSchema,
  route: routeSchema,
  quantity: quantitySchema,
});

/** The scheduled checks that are written down as done: a simulation is a run, and an expiry comes by itself. */
export const notedCheckSchema = z.enum([
  'volume-check',
  'biological-control',
  'linearity',
  'syringe-leak',
  'syringe-calibration',
  'barometer',
]);

/** Each series whose open failure is meant, with the run that opened it. */
const closedFailures = z
  .array(z.extend(seriesNameSchema, { openedByRunId: identifier }))
  .check(z.minLength(1));

/** How many entries there were, and the last of them: what is noted outside the database. */
export const markSchema = z.strictObject({
  count: z.int().check(z.positive()),
  workstation: identifier,
  seq: z.int().check(z.positive()),
  hash: sha256,
  at: instant,
});

/** What each kind of entry says, under its name. */
export const bodies = {
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
  'cylinder-added': z.extend(cylinderDescriptionSchema, { cylinderId: identifier }),
  'cylinder-changed': z.extend(cylinderDescriptionSchema, { cylinderId: identifier, reason: reasonText }),
  /** Empty, returned or expired. */
  'cylinder-retired': z.strictObject({ cylinderId: identifier, reason: reasonText }),
  /** From `fittedAt` on the analyzer takes its test gas from this cylinder and no other; from none where it is null. */
  'cylinder-fitted': z.strictObject({
    fittingId: identifier,
    analyzerId: identifier,
    cylinderId: z.nullable(identifier),
    fittedAt: instant,
  }),
  /** Taken out of service, or back in it, from an instant on. */
  'service-set': z.strictObject({
    serviceId: identifier,
    analyzerId: identifier,
    inService: z.boolean(),
    from: instant,
    reason: reasonText,
  }),
  /** A fall or knock, after which leak and stop are checked before the syringe is trusted again. */
  'syringe-dropped': z.strictObject({
    dropId: identifier,
    syringeId: identifier,
    droppedAt: instant,
    description: reasonText,
  }),
  /** A check other than a simulation: that it was done, and how it came out. */
  'check-done': z.strictObject({
    checkId: identifier,
    check: notedCheckSchema,
    /** What was checked. Both null for what the laboratory has one of, such as its barometer. */
    analyzerId: z.nullable(identifier),
    syringeId: z.nullable(identifier),
    technologistId: identifier,
    doneAt: instant,
    outcome: z.enum(['passed', 'failed', 'noted']),
    volume: z.nullable(volumeReadingsSchema),
    /** The date up to which it holds, where a certificate names one. */
    validUntil: z.nullable(civilDate),
    note: longText,
    investigates: z.nullable(investigationSchema),
    /** Since version 2: the figures of the other checks, of linearity one for each gas. */
    linearity: z.optional(z.array(linearitySchema).check(z.minLength(1), z.maxLength(4))),
    syringe: z.optional(syringeVolumeSchema),
    barometer: z.optional(barometerReadingSchema),
  }),
  'check-voided': z.strictObject({ checkId: identifier, reason: reasonText }),
  /** How often a check is made here; null: not made in this laboratory, or only by a date of its own. */
  'schedule-set': z.strictObject({
    scheduleId: identifier,
    check: scheduledCheckSchema,
    isMade: z.boolean(),
    every: z.nullable(
      z.strictObject({
        unit: z.enum(['days', 'months']),
        count: z.int().check(z.minimum(1), z.maximum(400)),
      }),
    ),
    announceDays: z.int().check(z.minimum(0), z.maximum(365)),
    reason: reasonText,
  }),
  /** The laboratory's name and the form in which it writes. */
  'laboratory-described': z.extend(laboratoryDescriptionSchema, {
    descriptionId: identifier,
    reason: reasonText,
  }),
  /** Runs made from `from` on are judged by these published limits. */
  'limits-adopted': z.strictObject({
    adoptionId: identifier,
    limits: publishedLimitsSchema,
    from: instant,
    reason: reasonText,
  }),
  /** Runs of the analyzer made from `from` on are judged by this policy. */
  'policy-set': z.strictObject({
    policyId: identifier,
    analyzerId: identifier,
    policy: controlPolicySchema,
    from: instant,
    reason: reasonText,
  }),
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
    failures: closedFailures,
    closedAt: instant,
    reason: reasonText,
    correctiveAction: longText,
    /** Null where the supervisor had no key. */
    signature: z.nullable(signatureSchema),
    /** Since version 2. The passing runs that prove the repair, in the order in which they were made. */
    proofRunIds: z.optional(z.array(identifier).check(z.maxLength(20))),
    /** What the supervisor takes for the cause, in words. */
    cause: z.optional(longText),
  }),
  /** What was done about failures, written when it was done. It closes nothing. */
  'action-taken': z.strictObject({
    actionId: identifier,
    analyzerId: identifier,
    failures: closedFailures,
    doneAt: instant,
    what: reasonText,
    /** Of the laboratory; null where somebody else did it. */
    technologistId: z.nullable(identifier),
    part: optionalShortText,
    /** The event on the analyzer that says the same, for the charts. */
    eventId: z.nullable(identifier),
  }),
  /**
   * Which patients' results were looked at again after failures: a stretch of time, who looked, and what came of it.
   * Counts only; no patient stands in this logbook.
   */
  'look-back-reviewed': z.strictObject({
    lookBackId: identifier,
    analyzerId: identifier,
    failures: closedFailures,
    from: instant,
    to: instant,
    reviewerId: identifier,
    outcome: z.enum(['nobody-tested', 'none-affected', 'results-corrected', 'tests-repeated', 'referred']),
    testedCount: z.nullable(z.int().check(z.nonnegative())),
    affectedCount: z.nullable(z.int().check(z.nonnegative())),
    note: longText,
  }),
  /** What a failure needs before it can be closed in this laboratory. */
  'closing-rules-set': z.strictObject({
    closingRulesId: identifier,
    /** Passing runs after the last failing one. */
    proofRuns: z.int().check(z.minimum(1), z.maximum(20)),
    needsAction: z.boolean(),
    needsLookBack: z.boolean(),
    reason: reasonText,
  }),
  /** Takes a run out of every mean and pattern though it stands, or back in. */
  'run-set-aside': z.strictObject({ runId: identifier, isSetAside: z.boolean(), reason: reasonText }),
  /** A supervisor has looked at the runs that make a baseline and takes them for good. Limits come from the runs, not from here. */
  'baseline-accepted': z.strictObject({
    acceptanceId: identifier,
    analyzerId: identifier,
    series: seriesNameSchema,
    /** The runs of the baseline, oldest first, and what they gave on that day, in L or mL/min/mmHg. */
    runIds: z.array(identifier).check(z.minLength(2), z.maxLength(200)),
    mean: z.number(),
    sd: positive,
    reason: reasonText,
  }),
  /** A supervisor has looked through what was written up to these heads, as far as it is new since the sign-off before. */
  'period-signed': z.strictObject({
    signOffId: identifier,
    /** Civil dates, both ends in. */
    from: civilDate,
    to: civilDate,
    analyzers: z.array(z.strictObject({ analyzerId: identifier, comment: longText })),
    /** The last entry of each workstation that it covers. */
    heads: z
      .array(z.strictObject({ workstation: identifier, seq: z.int().check(z.positive()), hash: sha256 }))
      .check(z.minLength(1)),
    comment: longText,
    signature: z.nullable(signatureSchema),
  }),
  'subject-added': z.extend(subjectDescriptionSchema, { subjectId: identifier }),
  'subject-changed': z.extend(subjectDescriptionSchema, { subjectId: identifier, reason: reasonText }),
  'subject-retired': z.strictObject({ subjectId: identifier, reason: reasonText }),
  /** From an instant on a person is tested, not tested for a while, or tested without counting in any mean. */
  'subject-state-set': z.strictObject({
    settingId: identifier,
    subjectId: identifier,
    state: subjectStateSchema,
    from: instant,
    reason: reasonText,
  }),
  'control-recorded': z.strictObject({
    controlId: identifier,
    control: controlSchema,
    judged: controlJudgementSchema,
  }),
  /** The control as it should have been written; what stood before is shown struck through. */
  'control-amended': z.strictObject({
    amendmentId: identifier,
    controlId: identifier,
    control: controlSchema,
    judged: controlJudgementSchema,
    reason: reasonText,
  }),
  'control-voided': z.strictObject({ controlId: identifier, reason: reasonText }),
  /** Takes a control out of every mean and pattern though it stands, or back in. */
  'control-set-aside': z.strictObject({ controlId: identifier, isSetAside: z.boolean(), reason: reasonText }),
  /** Closes failures of controls of one analyzer. */
  'control-closed': z.strictObject({
    closureId: identifier,
    analyzerId: identifier,
    failures: z
      .array(z.strictObject({ series: controlSeriesSchema, openedByControlId: identifier }))
      .check(z.minLength(1), z.maxLength(8)),
    closedAt: instant,
    cause: reasonText,
    correctiveAction: longText,
    /** What was decided about the patients tested meanwhile. Counts only. */
    lookBack: longText,
    /** Null where the supervisor had no key. */
    signature: z.nullable(signatureSchema),
  }),
  /** Controls and checks made from `from` on are judged by these limits. */
  'check-limits-adopted': z.strictObject({
    adoptionId: identifier,
    limits: checkLimitsSchema,
    from: instant,
    reason: reasonText,
  }),
  /** Why a check was not made on an analyzer between two civil dates, both ends in. */
  'gap-explained': z
    .strictObject({
      gapId: identifier,
      analyzerId: identifier,
      check: scheduledCheckSchema,
      from: civilDate,
      to: civilDate,
      reason: reasonText,
    })
    .check(z.refine(({ from, to }) => from <= to, 'to is before from')),
  /** A batch of runs from another program's file, written in one save together with its runs. */
  'runs-imported': z.strictObject({
    batchId: identifier,
    fileName: z.string().check(z.minLength(1), z.maxLength(255)),
    fileHash: sha256,
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
