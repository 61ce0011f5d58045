import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { buildControlChart } from '../../../src/views/charting/buildControlChart.ts';
import { controlHeading } from '../../../src/views/charting/controlHeading.ts';
import { listControlSeries, type SeriesOfControls } from '../../../src/views/charting/controlSeries.ts';
import { controlStory } from '../../../src/views/charting/controlStory.ts';
import { isApart } from '../../../src/views/charting/seriesItem.ts';
import { controlsOf } from '../../../src/views/useControlAssessments.ts';
import { biological, controlId, judgedAs, session, subject, subjectAdded } from '../controlDrafts.ts';
import { draft, ids, opened, week } from '../laboratory.ts';

const dlco: SeriesOfControls = {
  analyzerId: ids.analyzer,
  series: { kind: 'biological', subjectId: subject, quantity: 'dlco' },
};
const va: SeriesOfControls = {
  analyzerId: ids.analyzer,
  series: { kind: 'biological', subjectId: subject, quantity: 'va' },
};
const level = (name: 'low' | 'high'): SeriesOfControls => ({
  analyzerId: ids.analyzer,
  series: { kind: 'simulator', level: name },
});

/** Mean 25.000, sample SD 0.70711; all ten: mean 25.000, sample SD 0.53748 (Python 3, statistics). */
const firstSix = [25, 24, 26, 25.5, 24.5, 25];
const ten = [...firstSix, 25.2, 24.8, 25.1, 24.9];

const tests = (values: readonly number[]) => values.map((value, index) => biological(index, value));

async function storyOf(named: SeriesOfControls, drafts: readonly EntryDraft[], now = Date.parse(week(40))) {
  const { logbook } = await opened([subjectAdded(), ...drafts]);
  const { assessments, failures } = controlsOf(logbook);
  return { logbook, ...controlStory(logbook, assessments, named, { failures, now }) };
}

const chartOf = (story: Awaited<ReturnType<typeof storyOf>>) =>
  buildControlChart({ ...story, compared: [] }, { axis: 'value', showPublished: false, window: null });

describe('listControlSeries', () => {
  it('has a person before a simulator, DLCO before VA, low before high, and none without a control', async () => {
    const { logbook } = await opened([
      subjectAdded('subject-green', 'G1'),
      subjectAdded(),
      session(1, { high: 0.1, low: 0.2 }),
      biological(0, 25),
    ]);
    const listed = listControlSeries(logbook, controlsOf(logbook).assessments);
    expect(listed.map((named) => controlHeading(named, logbook))).toEqual([
      'DLCO, B1, Room 2, biological control',
      'VA, B1, Room 2, biological control',
      'Low level, Room 2, precision-gas simulator',
      'High level, Room 2, precision-gas simulator',
    ]);
    const empty = await opened([]);
    expect(listControlSeries(empty.logbook, controlsOf(empty.logbook).assessments)).toEqual([]);
  });
});

// Hegewald et al., Respiration 2012 (abstract): outside mean ± 12 % or ± 3.0 mL/min/mmHg of the first six tests.
describe('the published rails of a person’s DLCO', () => {
  it('begin with the seventh test and are the nearer of the two limits', async () => {
    const { items, inForce } = await storyOf(dlco, tests([20, 20.5, 19.5, 20, 20.2, 19.8, 20.1]));
    expect(items.slice(0, 6).map(({ published }) => published)).toEqual(new Array(6).fill(null));
    // 12 % of 20.0 is 2.4, which is nearer than 3.0.
    expect(items[6]?.published?.low).toBeCloseTo(17.6, 9);
    expect(inForce.published?.high).toBeCloseTo(22.4, 9);
    const big = await storyOf(dlco, tests(firstSix.map((value) => value + 5)));
    // 12 % of 30.0 is 3.6: here 3.0 is nearer.
    expect(big.inForce.published?.low).toBeCloseTo(27, 9);
    expect(big.inForce.published?.high).toBeCloseTo(33, 9);
  });

  it('are drawn from the sixth test on, for the one to come', async () => {
    const six = await storyOf(dlco, tests(firstSix));
    const chart = chartOf(six);
    expect(chart.rails).toHaveLength(1);
    expect(chart.rails[0]?.from).toBe(six.items[5]?.at);
    expect(chart.rails[0]?.to).toBe(chart.to);
    expect(chartOf(await storyOf(dlco, tests(firstSix.slice(0, 5)))).rails).toEqual([]);
  });

  it('are none for VA', async () => {
    const { items, inForce } = await storyOf(va, tests(ten));
    expect(items.map(({ published }) => published)).toEqual(new Array(10).fill(null));
    expect(inForce.published).toBeNull();
  });
});

describe('the own limits of a person’s series', () => {
  // t(9; 0.99865)·√(1 + 1/10) = 4.294: R and SciPy agree; see tests/core/statistics.
  it('are those that judge: widened for the tests that they rest on', async () => {
    const { limits } = chartOf(await storyOf(dlco, tests(ten)));
    const last = limits.at(-1);
    expect(last?.mean).toBeCloseTo(25, 9);
    expect(((last?.high3 ?? 0) - 25) / 0.53748).toBeCloseTo(4.294, 3);
    expect(limits[0]?.from).toBe(Date.parse(week(5)) + 3_600_000);
  });

  it('open no failure within and one beyond, which lasts to the edge of the chart', async () => {
    const story = await storyOf(dlco, tests([...ten, 28.5, 25]));
    expect(story.items.slice(10).map(({ word, breached }) => [word, breached])).toEqual([
      ['fail', true],
      // What CUSUM has added up does not go with one good test.
      ['warn', false],
    ]);
    const chart = chartOf(story);
    expect(chart.failures).toMatchObject([{ id: controlId(10), open: true, to: chart.to }]);
    expect(chart.points.at(-1)?.dot).toBe('apart');
  });
});

describe('a control as its series sees it', () => {
  it('is written in the unit of the last one', async () => {
    const inSi = biological(1, 8.4, { reading: { dlco: 8.4, dlcoUnit: 'mmol/min/kPa', vaL: 6 } });
    const { items, scale } = await storyOf(dlco, [biological(0, 25), inSi]);
    expect(scale.unit).toBe('mmol/min/kPa');
    // 1 mmol/min/kPa is 2.987 mL/min/mmHg (recalled; conversion table of the 2017 ERS/ATS standard): 25 is 8.370.
    expect(items[0]?.value).toBeCloseTo(25 / 2.987, 2);
    expect(items[1]?.value).toBeCloseTo(8.4, 9);
  });

  it('shows what an amendment replaced', async () => {
    const first = biological(0, 52);
    const { items } = await storyOf(dlco, [
      first,
      draft('control-amended', {
        amendmentId: 'amendment-one',
        controlId: controlId(0),
        control: { ...controlOf(first), reading: { dlco: 25, dlcoUnit: 'mL/min/mmHg', vaL: 6 } },
        judged: judgedAs('pass'),
        reason: 'Digits in the wrong order',
      }),
    ]);
    expect(items[0]?.value).toBe(25);
    expect(items[0]?.former).toMatchObject([{ value: '52.00', initials: 'IM' }]);
  });

  it('is apart where its person was excluded when it was made', async () => {
    const excluded = draft('subject-state-set', {
      settingId: 'setting-one',
      subjectId: subject,
      state: 'excluded',
      from: week(3),
      reason: 'Anaemia found',
    });
    const { items, others } = await storyOf(dlco, [...tests(firstSix), excluded]);
    expect(items.map(isApart)).toEqual([false, false, false, true, true, true]);
    expect(items[3]?.setAside?.reason).toContain('Anaemia found');
    expect(others).toMatchObject([{ word: 'B1: Excluded', description: 'Anaemia found' }]);
  });
});

describe('a level of a simulator', () => {
  it('is its distance from the target, between ±2.0 mL/min/mmHg', async () => {
    // Gallo, Crapo & Jensen, J Investig Med 2007;55(Suppl 1):S153.
    const { items, inForce, scale } = await storyOf(level('high'), [
      session(0, { low: 0.5, high: -0.25 }),
      session(1, { low: 0.1 }),
      session(2, { high: 2.01 }),
    ]);
    expect(items.map(({ value }) => Number(value.toFixed(6)))).toEqual([-0.25, 2.01]);
    expect(items.map(({ word }) => word)).toEqual(['pass', 'fail']);
    expect(inForce.published).toMatchObject({ low: -2, high: 2 });
    expect([scale.value(2.01), scale.value(-0.25), scale.value(0)]).toEqual(['+2.01', '−0.25', '0.00']);
  });

  it('has R-4s between the levels of one session as a signal of both', async () => {
    const steady = [0.1, -0.1, 0.05, -0.05, 0.1, -0.1, 0.05, -0.05, 0.1, -0.1];
    const sessions = steady.map((off, index) => session(index, { low: off, high: off }));
    const drafts = [...sessions, session(10, { low: 0.22, high: -0.22 })];
    const [low, high] = [await storyOf(level('low'), drafts), await storyOf(level('high'), drafts)];
    for (const story of [low, high]) {
      const last = story.items.at(-1);
      expect(last?.word).toBe('fail');
      expect(last?.evaluation.signals.filter(({ rule }) => rule === 'R-4s')).toHaveLength(1);
      expect(story.failures).toHaveLength(1);
    }
  });
});

function controlOf(recorded: EntryDraft) {
  if (recorded.kind !== 'control-recorded' || recorded.body.control.kind !== 'biological') {
    throw new Error('no biological control was recorded');
  }
  return recorded.body.control;
}
