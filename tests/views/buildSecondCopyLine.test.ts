import { describe, expect, it } from 'vitest';
import type { SecondCopySnapshot } from '../../src/store/secondCopy.ts';
import { ago, buildSecondCopyLine } from '../../src/views/buildSecondCopyLine.ts';

const now = Date.UTC(2026, 2, 9, 12);
const minutes = (count: number) => now - count * 60_000;

const state = (changes: Partial<SecondCopySnapshot> = {}): SecondCopySnapshot => ({
  isKnown: true,
  chosen: null,
  phase: { name: 'idle' },
  written: null,
  backup: null,
  ...changes,
});
const chosen = { folder: 'share', fileName: 'copy.jsonl' };
/** Rows whose last hash tells their number. */
const rowsOf = (count: number) => Array.from({ length: count }, (_, row) => ({ hash: `hash ${row + 1}` }));
const line = (changes: Partial<SecondCopySnapshot>, rows = 41) =>
  buildSecondCopyLine(state(changes), rowsOf(rows), now);
const wrote = (at: number, rows: number, lastHash = `hash ${rows}`) => ({ at, rows, lastHash });

describe('buildSecondCopyLine', () => {
  it.each([
    ['nothing is known yet', state({ isKnown: false }), 41],
    ['the logbook is empty', state(), 0],
  ])('says nothing while %s', (_when, snapshot, rows) => {
    expect(buildSecondCopyLine(snapshot, rowsOf(rows), now)).toBeNull();
  });

  it.each<[string, Partial<SecondCopySnapshot>, number, string, string]>([
    ['no copy and few entries', {}, 1, '1 entry not yet copied', 'quiet'],
    ['no copy and many entries', {}, 41, '41 entries not yet copied', 'warn'],
    [
      'a backup file of all',
      { backup: wrote(minutes(3 * 1440), 41) },
      41,
      'Backup file: 3 days ago',
      'quiet',
    ],
    ['a backup file of some', { backup: wrote(minutes(5), 38) }, 41, '3 entries not yet copied', 'quiet'],
    ['a copy of all', { chosen, written: wrote(minutes(2), 41) }, 41, 'Second copy: 2 minutes ago', 'quiet'],
    ['a copy that is not yet there', { chosen }, 41, 'Second copy: being written', 'quiet'],
    [
      'a copy that is about to follow',
      { chosen, phase: { name: 'writing' }, written: wrote(minutes(2), 40) },
      41,
      'Second copy: 2 minutes ago, 1 entry to come',
      'quiet',
    ],
    [
      'a copy that failed',
      {
        chosen,
        phase: { name: 'failed', reason: 'folder', message: 'gone' },
        written: wrote(minutes(2), 38),
      },
      41,
      'Second copy failed: 3 entries not yet copied',
      'fail',
    ],
    [
      'a copy that failed, and a later backup file of all',
      {
        chosen,
        phase: { name: 'failed', reason: 'folder', message: 'gone' },
        backup: wrote(minutes(1), 41),
      },
      41,
      'Second copy failed: all entries are copied',
      'fail',
    ],
    [
      'a copy that holds more',
      { chosen, phase: { name: 'failed', reason: 'holds-more', message: '' } },
      41,
      'Second copy stopped: it holds entries that are not here',
      'fail',
    ],
    [
      'a permission that was lost',
      { chosen, phase: { name: 'permission' }, written: wrote(minutes(2), 40) },
      41,
      'Second copy waits for permission: 1 entry not yet copied',
      'warn',
    ],
  ])('says of %s', (_what, changes, rows, words, tone) => {
    expect(line(changes, rows)).toMatchObject({ words, tone });
  });

  it('offers to allow it again where the permission was lost, and only there', () => {
    expect(line({ chosen, phase: { name: 'permission' } })?.canAllow).toBe(true);
    expect(line({ chosen, phase: { name: 'writing' } })?.canAllow).toBe(false);
  });

  it.each([
    ['more entries than are here', wrote(minutes(2), 60)],
    ['as many entries, and others', wrote(minutes(2), 41, 'hash of a lost entry')],
  ])('does not take entries for copied where the copy was written with %s', (_what, written) => {
    expect(line({ chosen, written })?.words).toContain('41 entries to come');
    expect(line({ backup: written })?.words).toBe('41 entries not yet copied');
  });

  it('does not count a standing copy that was given up', () => {
    expect(line({ written: wrote(minutes(2), 41) })?.words).toBe('41 entries not yet copied');
  });
});

describe('ago', () => {
  it.each([
    [-60_000, 'just now'],
    [0, 'just now'],
    [59_999, 'just now'],
    [60_000, '1 minute ago'],
    [3_599_999, '59 minutes ago'],
    [3_600_000, '1 hour ago'],
    [86_399_999, '23 hours ago'],
    [86_400_000, '1 day ago'],
    [400 * 86_400_000, '400 days ago'],
  ])('writes %i ms as %s', (ms, words) => {
    expect(ago(now - ms, now)).toBe(words);
  });
});
