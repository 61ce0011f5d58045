import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../src/journal/entries.ts';
import { builtInOnly, builtInOnlySentence } from '../../src/views/builtInOnly.ts';
import { draft, ids, opened, run, week } from './laboratory.ts';

const zone = 'Etc/UTC';
const day = 86_400_000;
/** The laboratory is written down on 1 January 2026. Week 8 is 2 March. */
const now = Date.parse(week(8)) + 3_600_000;

const builtIn = (index: number, changes: Parameters<typeof run>[2] = {}) =>
  run(index, 3, { route: 'built-in', ...changes });
const found = async (drafts: readonly EntryDraft[], at = now) =>
  builtInOnly((await opened(drafts)).logbook, at, zone);

const fourWeeks = () => [5, 6, 7, 8].map((index) => builtIn(index));
const service = (inService: boolean, from: string) =>
  draft('service-set', {
    serviceId: `service-${from}`,
    analyzerId: ids.analyzer,
    inService,
    from,
    reason: 'Sensor sent away.',
  });

describe('builtInOnly', () => {
  it('finds an analyzer whose syringe runs of four weeks are all built-in', async () => {
    expect(await found(fourWeeks())).toEqual([{ analyzerId: ids.analyzer, label: 'Room 2', runs: 4 }]);
  });

  it('is content with one patient test within 28 days, and not with one of the 28th day before', async () => {
    const patientTest = (daysAgo: number) =>
      run(90, 3, { madeAt: new Date(now - daysAgo * day).toISOString() });
    expect(await found([...fourWeeks(), patientTest(27)])).toEqual([]);
    expect(await found([...fourWeeks(), patientTest(28)])).toHaveLength(1);
  });

  it('does not count a voided patient test, nor one with another gas', async () => {
    const voided = draft('run-voided', { runId: ids.run(90), reason: 'Wrong analyzer.' });
    expect(await found([...fourWeeks(), run(90, 3, { madeAt: week(7) }), voided])).toHaveLength(1);
    expect(
      await found([...fourWeeks(), run(90, 3, { madeAt: week(7), method: 'precision-gas' })]),
    ).toHaveLength(1);
  });

  it('says nothing of an analyzer without a run, in use for less than 28 days, or retired', async () => {
    expect(await found([])).toEqual([]);
    expect(await found([0, 1].map((index) => builtIn(index)))).toEqual([]);
    const early = [0, 1, 2].map((index) => builtIn(index));
    expect(await found(early, Date.UTC(2026, 0, 28, 12))).toEqual([]);
    expect(await found(early, Date.UTC(2026, 0, 29, 12))).toHaveLength(1);
    const retired = draft('analyzer-retired', { analyzerId: ids.analyzer, reason: 'Worn out.' });
    expect(await found([...fourWeeks(), retired])).toEqual([]);
  });

  it('goes by the first imported run where the analyzer was written down later', async () => {
    const before = builtIn(90, { madeAt: '2025-12-01T08:00:00.000Z' });
    const early = [0, 1].map((index) => builtIn(index));
    expect(await found([before, ...early], Date.UTC(2026, 0, 20, 12))).toHaveLength(1);
    expect(await found(early, Date.UTC(2026, 0, 20, 12))).toEqual([]);
  });

  it('waits four weeks after a return into service, and says nothing of one out of service', async () => {
    expect(await found([...fourWeeks(), service(false, week(7))])).toEqual([]);
    const back = [service(false, week(3)), service(true, week(5))];
    expect(await found([...fourWeeks(), ...back])).toEqual([]);
    const longBack = [service(false, week(2)), service(true, week(4))];
    expect(await found([...fourWeeks(), ...longBack])).toHaveLength(1);
  });
});

describe('builtInOnlySentence', () => {
  it('says how many, and what the standard asks for', () => {
    const named = { analyzerId: ids.analyzer, label: 'Room 2' };
    expect(builtInOnlySentence({ ...named, runs: 4 })).toMatch(
      /^Room 2: all 4 syringe runs of the last four weeks are by the built-in routine\. The 2017 ERS\/ATS standard asks for/,
    );
    expect(builtInOnlySentence({ ...named, runs: 1 })).toMatch(
      /^Room 2: the only syringe run of the last four weeks is by the built-in routine\./,
    );
  });
});
