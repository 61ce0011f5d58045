/** The steps of the guided run in their order, and which part of the run's form each of them asks for. */
import type { BenchField } from '../runForm/benchDraft.ts';
import type { BenchReading } from '../runForm/readBenchDraft.ts';

export const stepIds = [
  'set-up',
  'room',
  'syringe',
  'volume-check',
  'start',
  'inhale',
  'hold',
  'exhale',
  'read',
  'verdict',
] as const;
export type StepId = (typeof stepIds)[number];
export const [firstStep] = stepIds;

/** Counted from 1, as it is shown. */
export const numberOf = (step: StepId) => stepIds.indexOf(step) + 1;

export const stepAfter = (step: StepId): StepId => stepIds[numberOf(step)] ?? step;
/** Null before the first. */
export const stepBefore = (step: StepId): StepId | null => stepIds[numberOf(step) - 2] ?? null;

const fieldsOfStep: Partial<Record<StepId, readonly BenchField[]>> = {
  'set-up': ['technologistId', 'analyzerId', 'syringeId', 'attached', 'route', 'reason'],
  room: ['temperature', 'pressure', 'humidity'],
  'volume-check': ['volumeCheck'],
  read: ['va', 'dlco', 'inspiredVolume', 'breathHold'],
};

/** Where a field is typed; null for one that only the bench has. */
export const stepOfField = (field: BenchField): StepId | null =>
  stepIds.find((step) => fieldsOfStep[step]?.includes(field)) ?? null;

/** What keeps a person on a step: fields that cannot be right, or that the run cannot do without. */
export function troublesOf(step: StepId, { errors, missing }: BenchReading): readonly BenchField[] {
  return (fieldsOfStep[step] ?? []).filter((field) => errors[field] !== undefined || missing.includes(field));
}
