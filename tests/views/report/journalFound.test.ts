import { describe, expect, it } from 'vitest';
import type { ChainBreak, ChainBreakKind } from '../../../src/journal/chain.ts';
import { breaksIn, type howTheChainsStood, journalFound } from '../../../src/views/report/journalFound.ts';
import { sealChain } from '../../journal/fixtures.ts';
import { draft, laboratoryDrafts } from '../laboratory.ts';
import { blocksOf, chapterOf, chaptersOf, sourcesOf, wordsOf } from './reportBuilding.ts';

const broken = (kind: ChainBreakKind): ChainBreak => ({
  kind,
  row: 0,
  entryId: null,
  workstation: null,
  seq: null,
  sentence: '',
});

async function cover(journal: Parameters<typeof howTheChainsStood>[0]) {
  const chapter = chapterOf(chaptersOf(await sourcesOf([], { journal })), 'cover');
  return { about: wordsOf(blocksOf(chapter, 'about')), what: wordsOf(blocksOf(chapter, 'what')) };
}

describe('the state of the journal on the cover', () => {
  it('is one sentence beside the heads where nothing is wrong', async () => {
    const { about, what } = await cover({ breaks: 0, leftOut: 0, lost: 0 });
    expect(about).toMatch(/^Period:/);
    expect(what).toContain('When this was made every entry fitted its hash and the entry before it.');
  });

  it('stands before everything else where something is', async () => {
    const { about, what } = await cover({ breaks: 2, leftOut: 1, lost: 3 });
    expect(about).toMatch(
      /^The journal is not as it was written: the check found 2 breaks .*\n1 stored entry could not be read here.*\n3 entries were lost .*\nPeriod:/,
    );
    expect(what).toContain('the chains did not hold');
  });

  it('says that nothing was checked yet, and claims no more', async () => {
    const { about, what } = await cover({ breaks: null, leftOut: 0, lost: 0 });
    expect(about).toMatch(/^Period:/);
    expect(what).toContain('The chains were not checked to their end when this was made.');
    expect(what).not.toContain('fitted its hash');
  });
});

describe('journalFound', () => {
  it('counts what was left out and what was given up', async () => {
    const known = {
      count: 9,
      workstation: 'workstation-1',
      seq: 9,
      at: '2026-01-01T00:00:00.000Z',
      hash: 'a'.repeat(64),
    };
    const loss = draft('entries-lost', { lossId: 'loss-of-january', initials: 'OF', known, found: 4 });
    const entries = await sealChain([...laboratoryDrafts(), loss], { from: '2026-01-01T00:00:00.000Z' });
    const found = journalFound({ entries, damaged: [{}], newer: { count: 2 } }, 0);
    expect(found).toEqual({ breaks: 0, leftOut: 3, lost: 5 });
    expect(journalFound({ entries: [], damaged: [], newer: null }, null)).toEqual({
      breaks: null,
      leftOut: 0,
      lost: 0,
    });
  });
});

describe('breaksIn', () => {
  it('takes a chain that was continued in two places for no break: both ends are kept', () => {
    const breaks = [broken('hash'), broken('twice'), broken('unreadable')];
    expect(breaksIn({ workstations: [], breaks })).toBe(2);
  });
});
