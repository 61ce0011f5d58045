import type { Logbook } from '../../../src/journal/logbook.ts';
import { type BenchDraft, emptyDraft } from '../../../src/views/runForm/benchDraft.ts';
import {
  type BenchReading,
  type RunOnTheBench,
  readBenchDraft,
} from '../../../src/views/runForm/readBenchDraft.ts';
import { analyzerAdded, syringeAdded } from '../../journal/fixtures.ts';
import { draft, ids, laboratoryDrafts, opened } from '../laboratory.ts';

/** A form filled as the first-path example is: 3.45 L BTPS at 22 °C and 760 mmHg, 110 mL in the syringe. */
export const filled: BenchDraft = Object.freeze({
  ...emptyDraft,
  analyzerId: ids.analyzer,
  technologistId: ids.supervisor,
  syringeId: ids.syringe,
  temperature: '22',
  pressure: '760',
  va: '3.45',
  dlco: '0.12',
});

/** Noon of Monday 2 March 2026, UTC. */
export const noon = Date.UTC(2026, 2, 2, 12);

export function read(draft: Partial<BenchDraft>, logbook: Logbook, now = noon): BenchReading {
  return readBenchDraft({ ...filled, ...draft }, { logbook, now });
}

export function readRun(draft: Partial<BenchDraft>, logbook: Logbook, now = noon): RunOnTheBench {
  const reading = read(draft, logbook, now);
  if (!reading.run) throw new Error(`no run was read: ${JSON.stringify(reading)}`);
  return reading.run;
}

/** A moment as an input of type datetime-local writes it, in this computer's zone. */
export function localText(at: number): string {
  const local = new Date(at - new Date(at).getTimezoneOffset() * 60_000);
  return local.toISOString().slice(0, 16);
}

/** The laboratory with another syringe or analyzer in place of the first. */
export async function laboratoryWith(changes: {
  syringe?: Partial<typeof syringeAdded>;
  analyzer?: Partial<typeof analyzerAdded>;
}) {
  const [people] = laboratoryDrafts();
  if (!people) throw new Error('nobody works here');
  const laboratory = [
    people,
    draft('syringe-added', { ...syringeAdded, ...changes.syringe }),
    draft('analyzer-added', { ...analyzerAdded, ...changes.analyzer }),
  ];
  return (await opened([], laboratory)).logbook;
}
