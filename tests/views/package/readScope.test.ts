import { describe, expect, it } from 'vitest';
import { readScope, usualScope } from '../../../src/views/package/readScope.ts';

const surroundings = { today: '2026-06-01', zone: 'Europe/Oslo', analyzerIds: ['one', 'two'] };
const draft = { from: '2025-06-02', to: '2026-06-01', without: [] as string[] };

describe('usualScope', () => {
  it.each([
    ['2026-06-01', '2025-06-02'],
    // 29 February has no namesake a year earlier: its month’s last day stands in.
    ['2028-02-29', '2027-03-01'],
  ])('is the year up to %s', (today, from) => {
    expect(usualScope(today)).toEqual({ from, to: today, without: [] });
  });
});

describe('readScope', () => {
  it('takes period, zone and the analyzers that are ticked', () => {
    expect(readScope({ ...draft, without: ['one'] }, surroundings)).toEqual({
      ok: true,
      scope: { from: '2025-06-02', to: '2026-06-01', zone: 'Europe/Oslo', analyzerIds: ['two'] },
    });
  });

  it('takes one day', () => {
    expect(readScope({ ...draft, from: '2026-06-01' }, surroundings)).toMatchObject({ ok: true });
  });

  it.each([
    [{ from: '' }, { from: expect.stringContaining('Choose a date') }],
    // As a date field gives it while a year is being typed.
    [{ from: '+020250-06-02' }, { from: expect.stringContaining('four digits') }],
    [{ to: '2026-02-30' }, { to: expect.stringContaining('Choose a date') }],
    [{ to: '2026-06-02' }, { to: expect.stringContaining('after today, 1 Jun 2026') }],
    [{ from: '2026-05-02', to: '2026-05-01' }, { from: 'It begins after it ends.' }],
    [{ without: ['one', 'two'] }, { analyzers: 'Tick one analyzer at least.' }],
  ])('says of %o what is wrong beside its field', (changes, errors) => {
    expect(readScope({ ...draft, ...changes }, surroundings)).toEqual({ ok: false, errors });
  });
});
