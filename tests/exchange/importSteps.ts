/** A file through all that comes before writing, as the screen does it. */
import { publishedLimits2017 } from '../../src/core/index.ts';
import { type KnownLogbook, knownFrom } from '../../src/exchange/importKnown.ts';
import { outlineOf } from '../../src/exchange/importOutline.ts';
import { type ImportConstants, type ImportPlan, proposePlan } from '../../src/exchange/importPlan.ts';
import { judgeImport } from '../../src/exchange/importRuns.ts';
import { type ImportTable, readImportTable } from '../../src/exchange/importTable.ts';
import { readImportText } from '../../src/exchange/importText.ts';
import type { EntryDraft } from '../../src/journal/entries.ts';
import { foldJournal } from '../../src/journal/fold.ts';
import { readMeasured } from '../../src/views/runForm/readMeasured.ts';
import { ids, laboratoryDrafts, sealChain } from '../journal/fixtures.ts';

export const bytesOf = (text: string) => new TextEncoder().encode(text);

export const now = Date.UTC(2026, 5, 1);

export async function logbookOf(drafts: readonly EntryDraft[] = [], laboratory = laboratoryDrafts()) {
  return foldJournal(await sealChain([...laboratory, ...drafts]));
}

export async function knownLaboratory(
  drafts: readonly EntryDraft[] = [],
  { zone = 'Europe/Oslo' } = {},
): Promise<KnownLogbook> {
  return knownFrom(await logbookOf(drafts), { now, zone, limits: publishedLimits2017 });
}

export function tableOf(file: string | Uint8Array): ImportTable {
  const read = readImportText(typeof file === 'string' ? bytesOf(file) : file);
  if (read.state === 'refused') throw new Error(read.sentence);
  const table = readImportTable(read.text);
  if (table.state === 'refused') throw new Error(table.sentence);
  return table.table;
}

/** The plan that is proposed, with what a person would add: who made the runs, and on which analyzer. */
export function planOf(
  table: ImportTable,
  changes: Partial<Omit<ImportPlan, 'constants'>> & { constants?: Partial<ImportConstants> } = {},
): ImportPlan {
  const { plan } = proposePlan(outlineOf(table));
  return {
    ...plan,
    ...changes,
    constants: {
      ...plan.constants,
      analyzer: ids.analyzer,
      technologist: ids.supervisor,
      ...changes.constants,
    },
  };
}

export function judge(
  file: string | Uint8Array,
  known: KnownLogbook,
  changes: Parameters<typeof planOf>[1] = {},
) {
  const table = tableOf(file);
  return judgeImport(table, planOf(table, changes), known, readMeasured);
}
