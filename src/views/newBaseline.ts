import type { EntryDraft } from '../journal/entries.ts';

/** From `from` on every series of the analyzer begins anew. */
export function startBaseline(analyzerId: string, from: string, reason: string, by: string): EntryDraft[] {
  const body = { baselineId: crypto.randomUUID(), analyzerId, from, reason };
  return [{ id: crypto.randomUUID(), by, kind: 'baseline-started', body }];
}
