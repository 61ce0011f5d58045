// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { BenchDraft } from '../../../src/views/runForm/benchDraft.ts';
import {
  originWords,
  readAgain,
  withKeptRoom,
  withoutCarried,
  withoutOtherDays,
} from '../../../src/views/runForm/origins.ts';
import { ids, opened } from '../laboratory.ts';
import { filled, noon, read } from './drafts.ts';

const minute = 60_000;
const { logbook } = await opened([]);
const carriedAt = (at: number) => ({ kind: 'carried', analyzerId: ids.analyzer, at }) as const;
const own = { syringeId: 'syringe-of-the-room', attached: [] };

const draft: BenchDraft = {
  ...filled,
  origins: {
    technologistId: carriedAt(noon),
    syringeId: carriedAt(noon),
    temperature: carriedAt(noon),
    pressure: { kind: 'report' },
  },
};

describe('what is carried', () => {
  it('goes at one press, the syringe for the analyzer’s own, and leaves what was typed or read from a report', () => {
    expect(withoutCarried(draft, own)).toEqual({
      ...filled,
      technologistId: '',
      syringeId: 'syringe-of-the-room',
      temperature: '',
      origins: { pressure: { kind: 'report' } },
    });
  });

  it('goes by itself on another day, and is the very same draft on its own', () => {
    expect(withoutOtherDays(draft, own, noon + 5 * minute)).toBe(draft);
    expect(withoutOtherDays(draft, own, noon + 24 * 60 * minute)).toMatchObject({
      temperature: '',
      technologistId: '',
      pressure: '760',
    });
  });

  it('names where and when it was read', () => {
    expect(originWords(carriedAt(noon), logbook, noon + 5 * minute)).toMatch(
      /^carried from Room 2, \d\d:00$/,
    );
    expect(originWords({ kind: 'report' }, logbook, noon)).toBe('from the report');
  });
});

describe('a room that was read a while ago', () => {
  it('asks to be read again after more than an hour, not before', () => {
    expect(readAgain(carriedAt(noon), noon + 60 * minute)).toBeNull();
    expect(readAgain(carriedAt(noon), noon + 61 * minute)).toMatch(/more than an hour ago: read it again/);
    const { warnings } = read({ origins: { temperature: carriedAt(noon) } }, logbook, noon + 61 * minute);
    expect(warnings.temperature).toMatch(/read it again/);
    expect(warnings.pressure).toBeUndefined();
  });

  it('typed yesterday and never recorded, it stays and is marked; what was typed a moment ago is not', () => {
    expect(withKeptRoom(filled, noon, noon + 5 * minute)).toBe(filled);
    const monday = withKeptRoom(filled, noon, noon + 24 * 60 * minute);
    expect(monday).toMatchObject({ temperature: '22', pressure: '760' });
    expect(monday.origins).toEqual({
      temperature: { kind: 'kept', at: noon },
      pressure: { kind: 'kept', at: noon },
    });
    expect(read(monday, logbook, noon + 24 * 60 * minute).warnings.temperature).toMatch(/2 Mar 2026/);
  });
});
