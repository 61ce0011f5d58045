/** Whole logbooks with a fault in them: three analyzers tested weekly with one syringe, each with its ten good runs. */
import type { EntryBody, EntryDraft, FindingCheck } from '../../src/journal/entries.ts';
import { listFailures } from '../../src/views/failures.ts';
import { type WeighedInquiry, weighInquiry } from '../../src/views/investigationChecks.ts';
import { inquiryInto } from '../../src/views/investigations.ts';
import { analyzerAdded } from '../journal/fixtures.ts';
import { draft, ids, laboratoryDrafts, opened, run, week } from './laboratory.ts';

export const room5 = 'analyzer-room-5';
export const room7 = 'analyzer-room-7';

const analyzer = (analyzerId: string, label: string, changes: Partial<typeof analyzerAdded> = {}) =>
  draft('analyzer-added', { ...analyzerAdded, analyzerId, label, ...changes });

export const threeAnalyzers = (): EntryDraft[] => [
  ...laboratoryDrafts(),
  analyzer(room5, 'Room 5'),
  analyzer(room7, 'Room 7'),
];
export const twoAnalyzers = (): EntryDraft[] => [...laboratoryDrafts(), analyzer(room5, 'Room 5')];

type Changes = Parameters<typeof run>[2];

/** Mean 3.000 L and sample SD 0.0216 L; DLCO ±0.02. Another room each week: nothing is typed twice. */
const goodVa = [3.02, 2.98, 3.01, 2.97, 3.03, 2.99, 3.0, 3.02, 2.97, 3.01];
const roomOf = (index: number) => ({
  ambient: { temperatureC: 21 + (index % 7) * 0.3, barometricMmHg: 752 + ((index * 5) % 13) },
});

/** Ten good weeks of one analyzer. `from`: the number of its first run; each analyzer needs its own. */
export const goodWeeks = (from: number, changes: Changes = {}): EntryDraft[] =>
  goodVa.map((vaL, index) =>
    run(from + index, vaL, {
      madeAt: week(index),
      dlco: index % 2 === 0 ? 0.02 : -0.02,
      ...roomOf(index),
      ...changes,
    }),
  );

/** The run that is looked into is number 10, of the Monday of week 10. */
export const failed = 10;
export const failing = (vaL: number, changes: Changes = {}) =>
  run(failed, vaL, { madeAt: week(10), ...roomOf(10), ...changes });

/** A run on the failing day, an hour or more later. */
export const sameDay = (number: number, vaL: number, changes: Changes = {}) =>
  run(number, vaL, { madeAt: hoursLater(number / 100), ...roomOf(10), ...changes });
export const hoursLater = (hours: number) => new Date(Date.parse(week(10)) + hours * 3_600_000).toISOString();

/** As a run or check is linked to the one that is looked into. */
export const lookingInto = (check: FindingCheck, number = failed) => ({
  investigates: { runId: ids.run(number), check },
});

export const checkDone = (
  check: EntryBody<'check-done'>['check'],
  changes: Partial<EntryBody<'check-done'>> = {},
): EntryDraft =>
  draft('check-done', {
    checkId: `check-of-${check}-${changes.doneAt ?? ''}`,
    check,
    analyzerId: ids.analyzer,
    syringeId: null,
    technologistId: ids.supervisor,
    doneAt: hoursLater(1),
    outcome: 'passed',
    volume: null,
    validUntil: null,
    note: '',
    investigates: null,
    ...changes,
  });

export const event = (type: EntryBody<'event-recorded'>['type'], happenedAt: string, description: string) =>
  draft('event-recorded', {
    eventId: `event-of-${type}-${happenedAt}`,
    analyzerId: ids.analyzer,
    happenedAt,
    type,
    description,
  });

/** The investigation of run `number` in a logbook of these entries. */
export async function investigated(
  entries: readonly EntryDraft[],
  { number = failed, laboratory = threeAnalyzers() }: { number?: number; laboratory?: EntryDraft[] } = {},
): Promise<WeighedInquiry> {
  const { logbook, assessments } = await opened(entries, laboratory);
  const failures = listFailures(logbook, assessments);
  const inquiry = inquiryInto(logbook, failures, ids.run(number));
  if (inquiry === null) throw new Error(`the logbook has no run ${number}`);
  return weighInquiry(inquiry, { logbook, assessments, now: week(11) });
}

export const causesOf = ({ ranking }: WeighedInquiry) => ranking.causes.map(({ id }) => id);
export const evidenceIn = ({ ranking }: WeighedInquiry) => ranking.evidence.map(({ id }) => id);
export const sentencesOf = ({ facts }: WeighedInquiry) => facts.map(({ sentence }) => sentence);
