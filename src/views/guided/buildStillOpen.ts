/** What keeps a run from being judged or recorded, each with the step on which it is put right. */
import type { BenchField } from '../runForm/benchDraft.ts';
import type { BenchReading } from '../runForm/readBenchDraft.ts';
import { numberOf, type StepId, stepOfField } from './guideSteps.ts';

export interface StillOpen {
  field: BenchField;
  what: string;
  /** Null for what only the bench form asks for. */
  step: { id: StepId; number: number } | null;
}

const namesOfFields: Partial<Record<BenchField, string>> = {
  analyzerId: 'the analyzer',
  technologistId: 'the technologist',
  syringeId: 'the syringe',
  attached: 'what is left on the syringe',
  madeAt: 'the time',
  temperature: 'the temperature',
  pressure: 'the pressure',
  humidity: 'the humidity',
  va: 'VA',
  dlco: 'DLCO',
  inspiredVolume: 'the inspired volume',
  volumeCheck: 'the volume check',
  breathHold: 'the breath-hold time',
};

export function buildStillOpen({ errors, missing }: Pick<BenchReading, 'errors' | 'missing'>): StillOpen[] {
  const wrong = Object.keys(errors) as BenchField[];
  return [
    ...missing.map((field) => ({ field, is: 'is missing' })),
    ...wrong.map((field) => ({ field, is: 'cannot be right' })),
  ]
    .map(({ field, is }) => {
      const step = stepOfField(field);
      const name = namesOfFields[field] ?? field;
      return {
        field,
        what: `${name.charAt(0).toUpperCase()}${name.slice(1)} ${is}.`,
        step: step === null ? null : { id: step, number: numberOf(step) },
      };
    })
    .sort((one, other) => (one.step?.number ?? 99) - (other.step?.number ?? 99));
}
