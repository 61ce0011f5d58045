/** Amendments of the invented laboratory's runs, and a second analyzer to move them to. */
import type { EntryBody, EntryDraft, Judgement, RunContent } from '../../../src/journal/entries.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { draft, ids, run } from '../laboratory.ts';

export const otherAnalyzerId = 'analyzer-room-5';
export const otherAnalyzer = () =>
  draft('analyzer-added', {
    ...analyzerAdded,
    analyzerId: otherAnalyzerId,
    label: 'Room 5',
    conversion: { kind: 'fixed', factor: 0.91 },
    dlcoUnit: 'mmol/min/kPa',
  });

/** What `run` of the laboratory writes for these values, as an amendment holds it. */
export function content(index: number, vaL: number, changes: Parameters<typeof run>[2] = {}): RunContent {
  const recorded = run(index, vaL, changes);
  if (recorded.kind !== 'run-recorded') throw new Error('run makes no run');
  const { runId: _, origin: __, judged: ___, ...rest } = recorded.body;
  return rest;
}

export function judged(word: Judgement['word'], vaL: number): Judgement {
  const series = { n: 0, mean: null, sd: null, z: null, signals: [] };
  return {
    word,
    establishing: true,
    failureOpen: word === 'fail',
    va: { ...series, value: vaL },
    dlco: { ...series, value: 0.01 },
  };
}

let amended = 0;
export function amendment(
  index: number,
  changed: RunContent,
  { word = 'pass', reason = 'Read wrongly.' }: { word?: Judgement['word']; reason?: string } = {},
): EntryDraft {
  amended += 1;
  const body: EntryBody<'run-amended'> = {
    amendmentId: `amendment-${amended}`,
    runId: ids.run(index),
    run: changed,
    judged: judged(word, changed.reading.vaL),
    reason,
  };
  return draft('run-amended', body);
}
