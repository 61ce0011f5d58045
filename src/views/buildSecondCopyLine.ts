/** What the top of every screen says of the second copy: one line, quiet while all is well. */
import { rowsReached, type SecondCopySnapshot } from '../store/secondCopy.ts';
import { counted } from './parts/figures.ts';

export interface SecondCopyLine {
  words: string;
  tone: 'quiet' | 'warn' | 'fail';
  /** True where a press of a button gives the permission back. */
  canAllow: boolean;
}

/** Entries without a second copy that are no longer a quiet matter: a month of five analyzers, by common practice, no source. */
const manyUncopied = 20;

/** How many stored rows are neither in the standing copy nor in the last backup file. */
export function uncopiedRows(
  { chosen, written, backup }: SecondCopySnapshot,
  rows: readonly unknown[],
): number {
  const standing = chosen === null ? null : written;
  return rows.length - Math.max(rowsReached(standing, rows), rowsReached(backup, rows));
}

/** Null while nothing is known, and while there is nothing to copy. */
export function buildSecondCopyLine(
  state: SecondCopySnapshot,
  rows: readonly unknown[],
  now: number,
): SecondCopyLine | null {
  const { isKnown, chosen, phase, written, backup } = state;
  if (!isKnown || rows.length === 0) return null;
  const uncopied = uncopiedRows(state, rows);
  const notCopied = `${counted(uncopied, 'entry', 'entries')} not yet copied`;
  const quiet = { tone: 'quiet', canAllow: false } as const;
  if (chosen !== null) {
    if (phase.name === 'failed') {
      const words =
        phase.reason === 'holds-more'
          ? 'Second copy stopped: it holds entries that are not here'
          : `Second copy failed: ${uncopied === 0 ? 'all entries are copied' : notCopied}`;
      return { words, tone: 'fail', canAllow: false };
    }
    if (phase.name === 'permission') {
      const words = `Second copy waits for permission${uncopied === 0 ? '' : `: ${notCopied}`}`;
      return { words, tone: 'warn', canAllow: true };
    }
    if (written === null) return { words: 'Second copy: being written', ...quiet };
    const toCome = uncopied === 0 ? '' : `, ${counted(uncopied, 'entry', 'entries')} to come`;
    return { words: `Second copy: ${ago(written.at, now)}${toCome}`, ...quiet };
  }
  if (uncopied === 0 && backup !== null) {
    return { words: `Backup file: ${ago(backup.at, now)}`, ...quiet };
  }
  return { words: notCopied, tone: uncopied < manyUncopied ? 'quiet' : 'warn', canAllow: false };
}

const minuteMs = 60_000;
const steps: readonly (readonly [ms: number, unit: string])[] = [
  [24 * 60 * minuteMs, 'day'],
  [60 * minuteMs, 'hour'],
  [minuteMs, 'minute'],
];

/** `just now`, `2 minutes ago`, `3 days ago`. A clock that was set back says `just now`. */
export function ago(at: number, now: number): string {
  for (const [ms, unit] of steps) {
    const count = Math.floor((now - at) / ms);
    if (count >= 1) return `${counted(count, unit)} ago`;
  }
  return 'just now';
}
