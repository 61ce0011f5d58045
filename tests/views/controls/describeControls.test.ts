import { describe, expect, it } from 'vitest';
import { publishedCheckLimits } from '../../../src/core/index.ts';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import type { SeriesOfControls } from '../../../src/views/charting/controlSeries.ts';
import { controlStory } from '../../../src/views/charting/controlStory.ts';
import { buildControlRows, signalLines } from '../../../src/views/controls/buildControlRows.ts';
import { controlWords } from '../../../src/views/controls/describeControls.ts';
import { readTogetherOf, sameDayRuns } from '../../../src/views/controls/sameDays.ts';
import { controlsOf } from '../../../src/views/useControlAssessments.ts';
import { biological, controlId, session, subject, subjectAdded } from '../controlDrafts.ts';
import { draft, ids, opened, run, tenGoodRuns, week } from '../laboratory.ts';

const dlco: SeriesOfControls = {
  analyzerId: ids.analyzer,
  series: { kind: 'biological', subjectId: subject, quantity: 'dlco' },
};
const va: SeriesOfControls = { ...dlco, series: { kind: 'biological', subjectId: subject, quantity: 'va' } };
const high: SeriesOfControls = { analyzerId: ids.analyzer, series: { kind: 'simulator', level: 'high' } };
const low: SeriesOfControls = { analyzerId: ids.analyzer, series: { kind: 'simulator', level: 'low' } };

/** Mean 25.000, sample SD 0.53748, coefficient of variation 2.15 % (Python 3, statistics). */
const ten = [25, 24, 26, 25.5, 24.5, 25, 25.2, 24.8, 25.1, 24.9];

async function storyOf(named: SeriesOfControls, drafts: readonly EntryDraft[]) {
  const { logbook, assessments } = await opened([subjectAdded(), ...drafts]);
  const controls = controlsOf(logbook);
  const now = Date.parse(week(40));
  const story = controlStory(logbook, controls.assessments, named, { failures: controls.failures, now });
  return { logbook, assessments, controls: controls.assessments, story };
}

async function wordsOf(named: SeriesOfControls, drafts: readonly EntryDraft[]) {
  const { story } = await storyOf(named, drafts);
  return controlWords(named, story, publishedCheckLimits);
}

const tests = (values: readonly number[]) => values.map((value, index) => biological(index, value));

describe('a person’s DLCO in words', () => {
  it('says what the published limits are laid about, and how far the person varies', async () => {
    const words = await wordsOf(dlco, tests(ten));
    expect(words.figures.map(({ name, value }) => [name, value])).toEqual([
      ['n', '10'],
      ['mean', '25.000'],
      ['SD', '0.5375'],
      ['CV', '2.1'],
    ]);
    // ±12 % of 25 and ±3.0 are one and the same: 22.00 to 28.00. Hegewald et al., Respiration 2012 (abstract).
    expect(words.laidAbout).toContain('a mean of 25.000 mL/min/mmHg');
    expect(words.laidAbout).toContain('22.00 to 28.00 mL/min/mmHg');
    expect(words.spread).toBe(
      'Coefficient of variation 2.1 % of 10 accepted tests: within the 6 % that can be reached.',
    );
    // 3 / 0.53748 = 5.58.
    expect(words.published).toContain('stand 5.6 SD below and 5.6 SD above this mean.');
  });

  it('says that nothing is judged before there are six', async () => {
    const words = await wordsOf(dlco, tests(ten.slice(0, 4)));
    expect(words.missing).toBe(
      '4 of 6 tests. Own limits begin at 6 accepted tests; until then nothing is judged.',
    );
    expect([words.laidAbout, words.published]).toEqual(['', '']);
  });

  it('says of VA that no published limit applies', async () => {
    const words = await wordsOf(va, tests(ten));
    expect(words.laidAbout).toMatch(/^No published limit applies/);
    expect(words.published).toBe('');
    expect(words.figures.find(({ name }) => name === 'CV')).toBeUndefined();
  });

  it('says so when a person varies more than can be reached', async () => {
    // Mean 25, sample SD 2.0: 8.0 %.
    const words = await wordsOf(dlco, tests([23, 27, 23, 27, 25, 25]));
    expect(words.spread).toMatch(/^Coefficient of variation 7\.2 % .* more than the 6 %/);
  });
});

describe('a level in words', () => {
  it('names its target and the published ±2.0', async () => {
    const words = await wordsOf(high, [session(0, { high: 0.2 })]);
    expect(words.laidAbout).toBe(
      'Target 35.00 mL/min/mmHg on 5 Jan 2026. Published ±2 mL/min/mmHg about the target (Gallo, Crapo & Jensen, J Investig Med 2007;55(Suppl 1):S153).',
    );
    expect(words.missing).toMatch(/^1 of 10 sessions\. .*only the published limits judge\.$/);
    expect(words.description).toContain('1 session on 5 Jan 2026.');
  });
});

describe('the rows of a table of controls', () => {
  it('are newest first, with the distance from the first six, haemoglobin and what was said', async () => {
    const last = biological(6, 26.25, {
      haemoglobin: { value: 13.4, unit: 'g/dL' },
      comment: 'After a night shift',
    });
    const { story, logbook } = await storyOf(dlco, [...tests(ten.slice(0, 6)), last]);
    const rows = buildControlRows([story], { technologists: logbook.technologists, sameDay: new Map() });
    expect(rows).toHaveLength(7);
    // 26.25 less 25.00 is 1.25, 5.0 %.
    expect(rows[0]).toMatchObject({
      off: '+1.25 (+5.0 %)',
      haemoglobin: { text: '13.4 g/dL' },
      by: 'IM',
      notes: ['After a night shift'],
    });
    expect(rows[6]).toMatchObject({ off: '–', haemoglobin: { text: '–' }, notes: [] });
  });

  it('write the distance in the unit of the table, whatever each was reported in', async () => {
    const reading = { dlco: 8.4, dlcoUnit: 'mmol/min/kPa', vaL: 6 } as const;
    const drafts = [...tests(ten.slice(0, 6)), biological(6, 26), biological(7, 8.4, { reading })];
    const { story, logbook } = await storyOf(dlco, drafts);
    const rows = buildControlRows([story], { technologists: logbook.technologists, sameDay: new Map() });
    // 1 mL/min/mmHg is 1/2.987 mmol/min/kPa (recalled; the 2017 ERS/ATS standard's conversion): 0.335.
    expect(rows[1]?.off).toBe('+0.335 (+4.0 %)');
  });

  it('keep a voided test with its reason and without signals', async () => {
    const voided = draft('control-voided', { controlId: controlId(6), reason: 'Mask leaked' });
    const { story, logbook } = await storyOf(dlco, [...tests([...ten.slice(0, 6), 29]), voided]);
    const rows = buildControlRows([story], { technologists: logbook.technologists, sameDay: new Map() });
    expect(rows[0]?.measured[0]?.signals).toEqual([]);
    expect(rows[0]?.notes.at(-1)).toMatch(/^Voided by IM, .*: Mask leaked$/);
  });

  it('put both levels of a session on one row, and name what stands between them once', async () => {
    const steady = [0.1, -0.1, 0.05, -0.05, 0.1, -0.1, 0.05, -0.05, 0.1, -0.1];
    const drafts = [
      ...steady.map((off, index) => session(index, { low: off, high: off })),
      session(10, { low: 0.22, high: -0.22 }),
      session(11, { high: 0.1 }),
    ];
    const [ofLow, ofHigh] = [await storyOf(low, drafts), await storyOf(high, drafts)];
    const rows = buildControlRows([ofLow.story, ofHigh.story], {
      technologists: ofLow.logbook.technologists,
      sameDay: new Map(),
    });
    expect(rows).toHaveLength(12);
    expect(rows[0]?.measured.map((cells) => cells?.value ?? null)).toEqual([null, '+0.10']);
    const [, split] = rows;
    expect(split?.measured.map((cells) => cells?.value)).toEqual(['+0.22', '−0.22']);
    const lines = split ? signalLines(split, [{ of: 'Low' }, { of: 'High' }]) : [];
    expect(lines[0]).toBe('R-4s across the levels');
    expect(lines.join(' ').match(/R-4s/g)).toHaveLength(1);
    expect(lines.some((line) => line.startsWith('High: '))).toBe(true);
  });
});

describe('the tests beside the simulations of their days', () => {
  /** Runs of weeks 0 to 9 are good; that of week 10 reads a DLCO beyond the published 0.5 mL/min/mmHg. */
  const runs = [...tenGoodRuns(), run(10, 3, { dlco: 0.6 })];

  it('find the simulations of a control’s own day', async () => {
    const { logbook, story } = await storyOf(dlco, [...runs, ...tests(ten.slice(0, 3)), biological(20, 25)]);
    const sameDay = sameDayRuns(
      logbook,
      story.items.map(({ logged }) => logged),
    );
    expect(sameDay.get(controlId(1))?.map(({ id }) => id)).toEqual([ids.run(1)]);
    expect(sameDay.get(controlId(20))).toEqual([]);
  });

  it('name the days on which the two disagree, newest first, and count those on which both were as usual', async () => {
    const drafts = [
      ...runs,
      ...tests(ten),
      // Week 10: the syringe is off and the person is as usual.
      biological(10, 25),
      run(11, 3, { dlco: 0.02 }),
      // Week 11: the person is off, beyond 3.0, and the syringe is not.
      biological(11, 21),
    ];
    const { logbook, assessments, controls, story } = await storyOf(dlco, drafts);
    const { groups, judged } = readTogetherOf(story.items, 'dlco', { logbook, assessments, controls });
    const days = groups.map(({ id, days: of }) => [id, of.map(({ logged }) => logged.id)]);
    expect(days).toContainEqual(['only-simulation-off', [controlId(10)]]);
    expect(judged).toBeGreaterThanOrEqual(1);
    expect(groups.every(({ says }) => says !== '')).toBe(true);
  });

  it('are none without a simulation', async () => {
    const { logbook, assessments, controls, story } = await storyOf(dlco, tests(ten));
    expect(readTogetherOf(story.items, 'dlco', { logbook, assessments, controls })).toEqual({
      groups: [],
      usual: 0,
      judged: 0,
    });
  });
});
