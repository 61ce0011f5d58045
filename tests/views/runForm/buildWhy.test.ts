// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { defaultControlPolicy } from '../../../src/core/index.ts';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { buildWhy } from '../../../src/views/runForm/buildWhy.ts';
import { ids, opened, run, tenGoodRuns, theRun } from '../laboratory.ts';

async function whyOf(entries: readonly EntryDraft[], index: number) {
  const { logbook, assessments } = await opened(entries);
  const logged = theRun(logbook, index);
  const assessment = assessments.get(logged.id);
  if (!assessment) throw new Error('the run was not assessed');
  return buildWhy(logged.body, assessment, { logbook, assessments, policy: defaultControlPolicy });
}

const rule = async (entries: readonly EntryDraft[], index: number, key: string) => {
  const found = (await whyOf(entries, index)).rules.find((each) => each.key === key);
  if (!found) throw new Error(`${key} is no reason`);
  return found;
};

// The ten runs: mean 3.000, SD √(0.0042/9) = 0.02160 L. z of 3.05 is 0.05/0.0216 = 2.31, of 3.06 2.78, of 3.2 9.26.
describe('why a run was judged so', () => {
  it('names each rule, what fails the run first, with the runs that took part and the z of their day', async () => {
    const entries = [...tenGoodRuns(), run(10, 3.05), run(11, 3.06)];
    const { rules } = await whyOf(entries, 11);
    expect(rules[0]?.title).toBe('VA: rule 2-2s');
    const twice = await rule(entries, 11, 'va 2-2s');
    expect(twice.sentence).toBe('Two runs in a row beyond 2 SD on the same side. It fails the run.');
    expect(twice.runs.map(({ run: logged, value }) => [logged?.id, value])).toEqual([
      [ids.run(10), '3.050 L'],
      [ids.run(11), '3.060 L'],
    ]);
    // The eleventh run widened the provisional baseline by then: its z is that of its own day.
    expect(twice.runs[0]?.z).toBe('+2.31');
    expect((await rule(entries, 11, 'va 1-2s')).sentence).toMatch(/It warns\.$/);
  });

  // E = 0.2 · 9.26 = 1.85; the limit is 2.86 · √(0.2/1.8) = 0.953.
  it('writes the average of EWMA and its limit in numbers', async () => {
    const { sentence } = await rule([...tenGoodRuns(), run(10, 3.2)], 10, 'va EWMA');
    expect(sentence).toMatch(
      /of which each new run makes 0\.2, stands at \+\d\.\d\d SD; its limit is ±0\.95\./,
    );
  });

  it('writes the sum of CUSUM and its limit in numbers', async () => {
    const { sentence } = await rule([...tenGoodRuns(), run(10, 3.2)], 10, 'va CUSUM');
    expect(sentence).toMatch(
      /Beyond 0\.5 SD each, they come to \d+\.\d\d SD on the high side; the limit is 4\.77\./,
    );
  });

  it('says a breached limit as the standard writes it', async () => {
    const { rules } = await whyOf([run(0, 3.4, { dlco: 0.7 })], 0);
    expect(rules.map(({ sentence }) => sentence)).toEqual([
      'Simulated VA has to lie within 300 mL of 3.00 L, both ends included. One breach fails the run.',
      'DLCO has to lie below 0.5 mL/min/mmHg on either side of zero. One breach fails the run.',
    ]);
  });

  it('says that nothing fired, and while there are no own limits when these will judge', async () => {
    const [passed] = (await whyOf([...tenGoodRuns(), run(10, 3.01)], 10)).rules;
    expect(passed?.sentence).toMatch(/within the published 300 mL.*None of the control rules fired\.$/);
    const [early] = (await whyOf([run(0, 3.01)], 0)).rules;
    expect(early?.sentence).toMatch(/Own limits judge once 10 runs are accepted\.$/);
  });

  it('explains its own words: each rule that fired once, and z only where there is one', async () => {
    const { terms } = await whyOf([...tenGoodRuns(), run(10, 3.05), run(11, 3.06)], 11);
    expect(terms.slice(0, 2)).toEqual(['rule 2-2s', 'rule 1-2s']);
    expect(terms).toContain('z');
    expect(new Set(terms).size).toBe(terms.length);
    const early = (await whyOf([run(0, 3.01)], 0)).terms;
    expect(early).toContain('establishing');
    expect(early).not.toContain('z');
  });

  it('names the edition of the limits that judged, and where it was published', async () => {
    const { limits } = await whyOf([run(0, 3.01)], 0);
    expect(limits).toMatchObject({ edition: '2017', source: expect.stringContaining('1600016') });
  });

  // GUM: syringe 15/√3 = 8.66 mL, dead space 10/√3 = 5.77, display 5/√3 = 2.89; temperature and pressure nothing under a
  // fixed factor: √(8.66² + 5.77² + 2.89²) = 10.8 mL, twice that 21.6 mL. Syringe 75/116.7 = 64 %, dead space 29 %.
  it('writes beside VA how well it is known', async () => {
    const { figures } = await whyOf([run(0, 3.01)], 0);
    expect(figures.find(({ name }) => name === 'Its uncertainty')).toEqual({
      name: 'Its uncertainty',
      value: '±22',
      unit: 'mL',
      note: 'k = 2, about 95 %; standard 11 mL, 64 % from the syringe, 29 % from dead space',
    });
  });
});
