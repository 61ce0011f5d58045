/** The invented laboratory of the journal's tests, with the people, runs and pages that the views' tests need. */
import type { EntryBody, EntryDraft } from '../../src/journal/entries.ts';
import { foldJournal } from '../../src/journal/fold.ts';
import type { Logbook, LoggedRun } from '../../src/journal/logbook.ts';
import { assessEach } from '../../src/views/assessEach.ts';
import { draft, ids, laboratoryDrafts, runRecorded, sealChain } from '../journal/fixtures.ts';

export { draft, ids, laboratoryDrafts };

export const technologistDraft = () =>
  draft('technologist-added', {
    technologistId: ids.technologist,
    name: 'Orla Fenn',
    initials: 'OF',
    role: 'technologist',
  });

/** Monday 5 January 2026, 08:00 UTC, is week 0. */
export const week = (index: number) =>
  new Date(Date.UTC(2026, 0, 5, 8) + index * 7 * 86_400_000).toISOString();

/**
 * The fixed factor 1 and no dead space: the simulated VA is the VA that the analyzer reports, so that what a test
 * expects can be read off what it types.
 */
const asReported: Partial<EntryBody<'run-recorded'>> = {
  conversion: { kind: 'fixed', factor: 1 },
  syringe: { strokeL: 3, volumeInsideL: 0, deadSpaceL: 0 },
};

/** A run of week `index`; its id is `ids.run(index)`. */
export function run(
  index: number,
  vaL: number,
  { dlco = 0.01, ...changes }: Partial<EntryBody<'run-recorded'>> & { dlco?: number } = {},
): EntryDraft {
  const reading = { vaL, vaReportedAs: 'BTPS' as const, dlco, dlcoUnit: 'mL/min/mmHg' as const };
  return draft(
    'run-recorded',
    runRecorded(index, { ...asReported, madeAt: week(index), reading, ...changes }),
  );
}

/** Ten runs of weeks 0 to 9 with mean 3.000 L and sample SD 0.0216 L, none of which any rule notices. */
export const tenGoodRuns = () =>
  [3.02, 2.98, 3.01, 2.97, 3.03, 2.99, 3.0, 3.02, 2.97, 3.01].map((vaL, index) =>
    run(index, vaL, { dlco: index % 2 === 0 ? 0.02 : -0.02 }),
  );

export function closure(
  openedBy: number,
  closedAt: string,
  quantities: readonly ('va' | 'dlco')[] = ['va'],
): EntryDraft {
  return draft('failure-closed', {
    closureId: `closure-of-${openedBy}-${closedAt}`,
    analyzerId: ids.analyzer,
    failures: namedBy(openedBy, quantities),
    closedAt,
    reason: 'The run after the repair lies inside.',
    correctiveAction: 'Sample line replaced.',
    signature: null,
  });
}

/** What a closure needs; a passing run and nothing else where nothing is said. */
export const closingRules = (changes: Partial<EntryBody<'closing-rules-set'>> = {}) =>
  draft('closing-rules-set', {
    closingRulesId: 'closing-rules-of-the-house',
    proofRuns: 1,
    needsAction: false,
    needsLookBack: false,
    reason: 'As we do it here.',
    ...changes,
  });

const namedBy = (index: number, quantities: readonly ('va' | 'dlco')[]) =>
  quantities.map((quantity) => ({
    method: 'syringe' as const,
    route: 'patient-test' as const,
    quantity,
    openedByRunId: ids.run(index),
  }));

export const actionTaken = (
  index: number,
  doneAt: string,
  changes: Partial<EntryBody<'action-taken'>> & { quantities?: readonly ('va' | 'dlco')[] } = {},
) => {
  const { quantities = ['va'], ...body } = changes;
  return draft('action-taken', {
    actionId: `action-of-${doneAt}`,
    analyzerId: ids.analyzer,
    failures: namedBy(index, quantities),
    doneAt,
    what: 'Sample line replaced.',
    technologistId: ids.supervisor,
    part: '',
    eventId: null,
    ...body,
  });
};

export const lookBackReviewed = (
  index: number,
  { from, to }: { from: string; to: string },
  quantities: readonly ('va' | 'dlco')[] = ['va'],
) =>
  draft('look-back-reviewed', {
    lookBackId: `look-back-of-${index}-${to}`,
    analyzerId: ids.analyzer,
    failures: namedBy(index, quantities),
    from,
    to,
    reviewerId: ids.supervisor,
    outcome: 'none-affected',
    testedCount: 4,
    affectedCount: 0,
    note: '',
  });

export const baseline = (from: string) =>
  draft('baseline-started', {
    baselineId: `baseline-from-${from}`,
    analyzerId: ids.analyzer,
    from,
    reason: 'New flow sensor.',
  });

/** Written a minute apart, the laboratory first; `from`: when the first entry was. */
export async function opened(
  drafts: readonly EntryDraft[],
  laboratory = laboratoryDrafts(),
  from = '2026-01-01T00:00:00.000Z',
) {
  const logbook = foldJournal(await sealChain([...laboratory, ...drafts], { from }));
  const { assessments } = assessEach(
    logbook.runs.map(({ simulation }) => simulation),
    logbook,
  );
  return { logbook, assessments };
}

export function theRun(logbook: Logbook, index: number): LoggedRun {
  const found = logbook.runs.find(({ id }) => id === ids.run(index));
  if (!found) throw new Error(`the logbook has no run ${index}`);
  return found;
}
