/**
 * What can be written into the journal: one zod schema per kind of entry, the one source of the entries' types.
 *
 * Every schema is strict: a field that this version does not know is a newer version's field, and dropping it would
 * change the entry's hash. For the same reason none transforms what it reads (no trimming, no defaults): that is the
 * forms' work. An entry is never edited; what it says is corrected by a later entry.
 */

import * as z from 'zod/mini';
import {
  bodies,
  type markSchema,
  type notedCheckSchema,
  type seriesNameSchema,
  type signatureSchema,
} from './bodies.ts';
import type { checkLimitsSchema, linearitySchema } from './checkContent.ts';
import type { controlJudgementSchema, controlSchema, controlSeriesSchema } from './controlContent.ts';
import type {
  analyzerDescriptionSchema,
  attachmentSchema,
  cylinderDescriptionSchema,
  subjectDescriptionSchema,
  syringeDescriptionSchema,
  technologistDescriptionSchema,
} from './descriptions.ts';
import type { laboratoryDescriptionSchema } from './laboratory.ts';
import type { investigationSchema, judgementSchema } from './runContent.ts';
import {
  type eventTypeSchema,
  type findingCheckSchema,
  type gasAnalysisSchema,
  type gasSchema,
  type haemoglobinUnitSchema,
  identifier,
  instant,
  type pressureUnitSchema,
  type roleSchema,
  type runReasonSchema,
  type scheduledCheckSchema,
  sha256,
  type simulatorLevelSchema,
  type subjectStateSchema,
  type temperatureUnitSchema,
} from './vocabulary.ts';

export type EntryKind = keyof typeof bodies;
export type EntryBody<K extends EntryKind> = z.infer<(typeof bodies)[K]>;

/**
 * The version of a kind's body that this code writes, 1 where none is named. A later version only ever adds fields that
 * may be left out, so that a body of an earlier one is a body of the later one too, and is read for ever.
 */
const raisedVersions: Partial<Record<EntryKind, number>> = {
  'analyzer-added': 2,
  'analyzer-changed': 2,
  'syringe-added': 2,
  'syringe-changed': 2,
  'run-recorded': 2,
  'run-amended': 2,
  'failure-closed': 2,
  'check-done': 2,
  'schedule-set': 2,
};
export const versionOf = (kind: EntryKind): number => raisedVersions[kind] ?? 1;
export const entryKinds = Object.keys(bodies) as readonly EntryKind[];

/** What all entries have around their body. Field by field in the order of the chain's story. */
const envelope = {
  id: identifier,
  workstation: identifier,
  /** 1, 2, 3 … within a workstation, without a gap. */
  seq: z.int().check(z.positive()),
  /** Hash of the same workstation's entry before this one; empty for its first. */
  prev: z.union([z.literal(''), sha256]),
  at: instant,
  /** IANA name of the time zone the workstation was in, so that the local time of day can be shown again. */
  zone: z.string().check(z.minLength(1), z.maxLength(64)),
  /** The technologist who wrote it. */
  by: identifier,
  hash: sha256,
};

function entryOf<K extends EntryKind>(kind: K) {
  const version = z.int().check(z.minimum(1), z.maximum(versionOf(kind)));
  return z.strictObject({ ...envelope, version, kind: z.literal(kind), body: bodies[kind] });
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
  entryOf('cylinder-added'),
  entryOf('cylinder-changed'),
  entryOf('cylinder-retired'),
  entryOf('cylinder-fitted'),
  entryOf('service-set'),
  entryOf('syringe-dropped'),
  entryOf('check-done'),
  entryOf('check-voided'),
  entryOf('schedule-set'),
  entryOf('laboratory-described'),
  entryOf('limits-adopted'),
  entryOf('policy-set'),
  entryOf('run-set-aside'),
  entryOf('action-taken'),
  entryOf('look-back-reviewed'),
  entryOf('closing-rules-set'),
  entryOf('baseline-accepted'),
  entryOf('period-signed'),
  entryOf('subject-added'),
  entryOf('subject-changed'),
  entryOf('subject-retired'),
  entryOf('subject-state-set'),
  entryOf('control-recorded'),
  entryOf('control-amended'),
  entryOf('control-voided'),
  entryOf('control-set-aside'),
  entryOf('control-closed'),
  entryOf('check-limits-adopted'),
  entryOf('gap-explained'),
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
export type CylinderDescription = z.infer<typeof cylinderDescriptionSchema>;
export type Attachment = z.infer<typeof attachmentSchema>;
export type LaboratoryDescription = z.infer<typeof laboratoryDescriptionSchema>;
export type Investigation = z.infer<typeof investigationSchema>;
export type SubjectDescription = z.infer<typeof subjectDescriptionSchema>;
export type SubjectState = z.infer<typeof subjectStateSchema>;
export type Control = z.infer<typeof controlSchema>;
export type BiologicalContent = Extract<Control, { kind: 'biological' }>;
export type SimulatorContent = Extract<Control, { kind: 'simulator' }>;
export type ControlSeriesName = z.infer<typeof controlSeriesSchema>;
export type ControlJudgement = z.infer<typeof controlJudgementSchema>;
export type SimulatorLevel = z.infer<typeof simulatorLevelSchema>;
export type HaemoglobinUnit = z.infer<typeof haemoglobinUnitSchema>;
export type CheckLimits = z.infer<typeof checkLimitsSchema>;
export type Linearity = z.infer<typeof linearitySchema>;
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
export type ScheduledCheck = z.infer<typeof scheduledCheckSchema>;
export type NotedCheck = z.infer<typeof notedCheckSchema>;
export type FindingCheck = z.infer<typeof findingCheckSchema>;
export type Gas = z.infer<typeof gasSchema>;
export type GasAnalysis = z.infer<typeof gasAnalysisSchema>;
export type TemperatureUnit = z.infer<typeof temperatureUnitSchema>;
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
    const known = entryKinds.find((one) => one === kind);
    if (known === undefined || version > versionOf(known)) return { state: 'newer', kind, version };
  }
  const [issue] = read.error.issues;
  return { state: 'damaged', problem: issue ? `${issue.path.join('.')} ${issue.message}` : 'not an entry' };
}
