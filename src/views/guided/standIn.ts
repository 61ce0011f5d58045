/** The run as far as the guide has come: what is not read yet is stood in for. */
import type { RunContent } from '../../journal/entries.ts';
import type { BenchDraft } from '../runForm/benchDraft.ts';
import { type BenchSurroundings, readBenchDraft } from '../runForm/readBenchDraft.ts';

/** What any analyzer might show. Nothing that rests on one of these is used. */
const anyReading = {
  va: '3.3',
  vaReportedAs: 'BTPS',
  dlco: '0',
  inspiredVolume: '',
  volumeCheck: '',
  breathHold: '',
} as const satisfies Partial<BenchDraft>;

/**
 * Reads the draft by the one way there is, with only the readings named in `typed` taken from it. Null while room, analyzer
 * or syringe are not known, or where one of those readings cannot be right.
 */
export function readWith(
  typed: readonly (keyof typeof anyReading)[],
  draft: BenchDraft,
  surroundings: BenchSurroundings,
): RunContent | null {
  const readings: Partial<BenchDraft> = Object.fromEntries(typed.map((field) => [field, draft[field]]));
  return readBenchDraft({ ...draft, ...anyReading, ...readings }, surroundings).run;
}
