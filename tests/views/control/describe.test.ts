import { describe, expect, it } from 'vitest';
import { defaultControlPolicy } from '../../../src/core/index.ts';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { controlAdvice } from '../../../src/views/control/controlAdvice.ts';
import { describeBiological } from '../../../src/views/control/describeBiological.ts';
import { describeSimulator } from '../../../src/views/control/describeSimulator.ts';
import { readBiological, testsBefore } from '../../../src/views/control/readBiological.ts';
import { sameDayAs, togetherSentences } from '../../../src/views/control/sameDay.ts';
import { assessControls, assessTyped } from '../../../src/views/controlAssessments.ts';
import { biological, session, subjectAdded } from '../controlDrafts.ts';
import { ids, opened, run, tenGoodRuns, week } from '../laboratory.ts';
import { firstSix, typedTest } from './typed.ts';

/** The test of week `index` as a form would hold it. */
async function told(
  entries: readonly EntryDraft[],
  index: number,
  changes: Partial<ReturnType<typeof typedTest>> = {},
  hour = 9,
) {
  const { logbook, assessments } = await opened([subjectAdded(), ...entries]);
  const now = Date.parse(week(index)) + (hour - 8) * 3_600_000;
  const { control } = readBiological(typedTest({ va: '6', ...changes }), { logbook, now });
  if (control === null) throw new Error('the form does not read');
  const assessment = assessTyped(control, logbook);
  if ('levels' in assessment) throw new Error('it is no session');
  const all = assessControls(logbook);
  const words = describeBiological(control, assessment, {
    policy: defaultControlPolicy,
    earlier: testsBefore(logbook, control).map((logged) => ({
      logged,
      assessment: all.biological.get(logged.id),
    })),
    epoch: 0,
    countsNowhere: false,
  });
  return { words, assessment, control, logbook, assessments };
}

const figure = (words: Awaited<ReturnType<typeof told>>['words'], name: string) =>
  words.figures.find((one) => one.name === name)?.value;

describe('describeBiological', () => {
  it('counts the first six and judges none of them', async () => {
    const { words } = await told(firstSix().slice(0, 2), 2);
    expect(words.found[0]).toBe(
      'DLCO is 25.40 mL/min/mmHg: it is test 3 of the first 6, and nothing is judged before there are 6.',
    );
    expect(words.found[1]).toBe('VA is 6.00 L. No own limits yet (2 of 6 tests).');
  });

  // Mean of the first six by hand: (24.6 + 25.4 + 25.1 + 24.9 + 25.3 + 24.7) / 6 = 25.0. Limits: Hegewald et al., Respiration 2012.
  it.each([
    [
      '26.2',
      /1\.20 \(\+4\.8 %\) above the mean of the first 6, 25\.00: inside the published ±12 % and ±3 mL/,
    ],
    ['28', /3\.00 \(\+12\.0 %\) above .*: inside the published/],
    ['28.01', /outside the published ±12 % and ±3 mL\/min\/mmHg\./],
    ['21.9', /3\.10 \(−12\.4 %\) below the mean of the first 6, 25\.00: outside the published/],
    ['25', /on the mean of the first 6, 25\.00/],
  ])('says how far %s lies from the mean of the first six', async (dlco, sentence) => {
    const { words } = await told(firstSix(), 6, { dlco });
    expect(words.found[0]).toMatch(sentence);
  });

  it('says the distance in the unit of the reading and in that of the limit', async () => {
    const { words } = await told(firstSix(), 6, { dlco: '8.771', dlcoUnit: 'mmol/min/kPa' });
    // 8.771 · 2.987 = 26.20 (factor recalled from the 2017 ERS/ATS standard).
    expect(words.found[0]).toMatch(
      /^DLCO is 8\.771 mmol\/min\/kPa, 0\.401 \(\+4\.8 %, \+1\.20 mL\/min\/mmHg\) above the mean of the first 6, 8\.370/,
    );
  });

  it('gives the limits as figures, and the coefficient of variation with this test', async () => {
    const { words } = await told(firstSix(), 6, { dlco: '25' });
    expect(figure(words, 'Published ±12 %')).toBe('22.00 to 28.00 mL/min/mmHg');
    expect(figure(words, 'Published ±3 mL/min/mmHg')).toBe('22.00 to 28.00 mL/min/mmHg');
    // Sample SD of the six by hand: √((2 · 0.16 + 2 · 0.01 + 2 · 0.09) / 5) = 0.3225; of all seven √(0.52 / 6) = 0.2944, 1.2 %.
    expect(figure(words, 'DLCO, own mean')).toBe('25.000 mL/min/mmHg, SD 0.3225, n 6');
    expect(figure(words, 'Coefficient of variation')).toBe('1.2 % of 7 accepted tests; 6 % can be reached');
    // t(5; 0.97725) · √(7/6): 2.649 · 1.0801 from a table of t and by interpolation, so to 0.02.
    const [low = 0] = (figure(words, 'DLCO, own 2 SD') ?? '').split(' ').map(Number);
    expect(Math.abs(low - (25 - 2.649 * 1.0801 * 0.3225))).toBeLessThan(0.02);
  });

  it('says where a coefficient of variation is above what can be reached', async () => {
    const wide = [20, 30, 20, 30, 20, 30].map((dlco, index) => biological(index, dlco));
    const { words } = await told(wide, 6, { dlco: '25' });
    expect(figure(words, 'Coefficient of variation')).toMatch(/: this person varies more$/);
  });

  it('takes haemoglobin for an explanation where both moved the same way, and corrects nothing', async () => {
    const low = await told(firstSix(), 6, { dlco: '24', haemoglobin: '12.1' });
    expect(low.words.explanations).toEqual([
      'Haemoglobin is 12.1 g/dL, 2.1 g/dL below the median of 6 earlier ones, 14.2 g/dL. Less of it takes up less: it may explain a part of the distance. Nothing is corrected for it.',
    ]);
    expect(low.assessment.dlcoMlMinMmHg).toBe(24);
    const high = await told(firstSix(), 6, { dlco: '26', haemoglobin: '12.1' });
    expect(high.words.explanations[0]).toMatch(/it does not explain the distance/);
    const same = await told(firstSix(), 6, { dlco: '26', haemoglobin: '142', haemoglobinUnit: 'g/L' });
    expect(same.words.explanations).toEqual([
      'Haemoglobin is 142 g/L, as the median of 6 earlier ones, 14.2 g/dL.',
    ]);
    const onTheMean = await told(firstSix(), 6, { dlco: '25', haemoglobin: '12.1' });
    expect(onTheMean.words.explanations).toEqual([
      'Haemoglobin is 12.1 g/dL, 2.1 g/dL below the median of 6 earlier ones, 14.2 g/dL. Less of it takes up less.',
    ]);
  });

  it('says where a person is tested at another time of day than usual', async () => {
    expect((await told(firstSix(), 6, {}, 16)).words.explanations).toEqual([
      expect.stringMatching(/^Made at \d\d:00; this person is usually tested about \d\d:00\./),
    ]);
    expect((await told(firstSix(), 6, {}, 10)).words.explanations).toEqual([]);
  });
});

describe('describeSimulator', () => {
  async function session10(off: { low: number; high: number }) {
    // Ten sessions in turn above and below: distances of mean 0 and, by hand, SD √(10 · 0.04 / 9) = 0.2108.
    const before = Array.from({ length: 10 }, (_, index) =>
      session(index, index % 2 === 0 ? { low: 0.2, high: 0.2 } : { low: -0.2, high: -0.2 }),
    );
    const { logbook } = await opened([...before, session(10, off)]);
    const logged = logbook.controls.at(-1);
    const assessment = assessControls(logbook).simulator.get(logged?.id ?? '');
    if (logged?.control.kind !== 'simulator' || assessment === undefined) throw new Error('no session');
    return { words: describeSimulator(logged.control, assessment, defaultControlPolicy), assessment };
  }

  it('says of each level how far from its target it reads, against the published limit and the own ones', async () => {
    const { words } = await session10({ low: 0.1, high: -2.01 });
    expect(words.found).toEqual([
      'Low level reads 15.10 mL/min/mmHg, 0.10 above its target, 15.00: inside the published ±2 mL/min/mmHg. Own limits: z +0.5, inside your 2 SD.',
      'High level reads 32.99 mL/min/mmHg, 2.01 below its target, 35.00: outside the published ±2 mL/min/mmHg. Own limits: z −9.5, outside your 3 SD.',
    ]);
  });

  it('says once that the levels part within a session', async () => {
    const { words, assessment } = await session10({ low: 0.5, high: -0.5 });
    expect(assessment.acrossLevels).toBe(true);
    expect(words.reasons).toEqual(['R-4s: the two levels of the session lie beyond 2 SD on opposite sides.']);
    expect(assessment.verdict.word).toBe('fail');
  });
});

describe('sameDayAs', () => {
  const sameDay = async (entries: readonly EntryDraft[], dlco: string) => {
    const { control, assessment, logbook, assessments } = await told(entries, 12, { dlco });
    return sameDayAs(control, assessment, { logbook, assessments, zone: 'Europe/Oslo' });
  };

  it('reads the person’s test together with the syringe’s run of that day', async () => {
    const before = [...firstSix(), ...tenGoodRuns()];
    const good = await sameDay([...before, run(12, 3.0, { dlco: 0.01 })], '29');
    expect(good.runs.map(({ id }) => id)).toEqual([ids.run(12)]);
    expect(good.together.map(({ quantity }) => quantity)).toEqual(['va', 'dlco']);
    expect(togetherSentences(good).find((sentence) => sentence.startsWith('DLCO'))).toMatch(
      /^DLCO: The syringe finds nothing: .*Test the person again/,
    );
    const both = await sameDay([...before, run(12, 3.0, { dlco: 0.7 })], '29');
    expect(togetherSentences(both).join(' ')).toMatch(
      /off the same way: the CO and the tracer analyzer disagree/,
    );
    const agree = await sameDay([...before, run(12, 3.0, { dlco: 0.01 })], '25');
    expect(togetherSentences(agree)).toEqual(['The person and the syringe agree that nothing has changed.']);
  });

  it('has nothing to say where no run was made that day, or none was judged', async () => {
    expect((await sameDay(firstSix(), '29')).runs).toEqual([]);
    const unjudged = await sameDay([...firstSix(), run(12, 3.0)], '25');
    expect(unjudged.runs).toHaveLength(1);
    expect(togetherSentences(unjudged)).toEqual([]);
  });
});

describe('controlAdvice', () => {
  const pass = { word: 'pass' as const, establishing: false, findings: [] };
  const assessed = async (entries: readonly EntryDraft[], dlco: string) =>
    (await told(entries, 6, { dlco })).assessment;

  it('never sends a patient to the analyzer', async () => {
    const assessment = await assessed(firstSix(), '29');
    for (const kind of ['biological', 'simulator'] as const) {
      for (const failureOpen of [true, false]) {
        for (const countsNowhere of [true, false]) {
          for (const word of ['pass', 'warn', 'fail'] as const) {
            const input = { ...assessment, verdict: { ...pass, word } };
            const { sentence, next } = controlAdvice({ kind, assessment: input, failureOpen, countsNowhere });
            expect(`${sentence} ${next}`).not.toMatch(/may be tested|go on with patients|test patients\b/i);
            if (word === 'fail') expect(sentence).toMatch(/^Test no patients/);
          }
        }
      }
    }
  });

  it('says of an open failure that nothing enters a mean', async () => {
    const assessment = await assessed(firstSix(), '25');
    const { sentence } = controlAdvice({
      kind: 'biological',
      assessment,
      failureOpen: true,
      countsNowhere: false,
    });
    expect(sentence).toMatch(/^A failure of this control is open/);
  });
});
