import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import {
  buildResidualChart,
  buildWorstChart,
  gasesOf,
} from '../../../src/views/controls/buildLinearityCharts.ts';
import { buildVolumeChart, readingNames } from '../../../src/views/controls/buildVolumeChart.ts';
import { checksOf } from '../../../src/views/controls/chartedChecks.ts';
import { linearitySentences, volumeSentences } from '../../../src/views/controls/describeChecks.ts';
import { afterKey } from '../../../src/views/controls/markChartGeometry.ts';
import { draft, ids, opened, week } from '../laboratory.ts';
import { linearityOfCo, volumeCheck, volumeCheckInWords } from './checkDraftsWithFigures.ts';

async function volumesOf(drafts: readonly EntryDraft[]) {
  const { logbook } = await opened(drafts);
  const checks = checksOf(logbook, ids.analyzer, 'volume-check');
  return { checks, model: buildVolumeChart(checks, 'Room 2') };
}

describe('the chart of volume calibration checks', () => {
  it('has a mark of its own shape for each flow, in per cent of what should be read', async () => {
    const { model } = await volumesOf([volumeCheck(0, [2.97, 3, 3.06])]);
    expect(model?.marks.map(({ shape, y }) => [shape, Number(y.toFixed(6))])).toEqual([
      ['triangle', -1],
      ['circle', 0],
      ['square', 2],
    ]);
    expect(model?.shapes.map(({ name }) => name)).toEqual(['slow', 'middle', 'fast']);
    expect(model?.lines).toHaveLength(3);
  });

  // ±2.5 %, 75 mL of 3 L, both ends in: ATS laboratory manual, 3rd edition.
  it('names what lies beyond ±2.5 % and not what lies on it', async () => {
    const { model } = await volumesOf([volumeCheck(0, [3.075, 2.925, 3.08], 'failed')]);
    expect(model?.marks.map(({ isOut }) => isOut)).toEqual([false, false, true]);
    expect(model?.marks[2]?.label).toBe('+2.7 %');
    expect(model?.rails.map(({ y, text }) => [y, text])).toEqual([
      [2.5, '+2.5 %'],
      [-2.5, '−2.5 %'],
    ]);
    expect(model?.description).toContain('1 outside ±2.5 %');
  });

  it('tells the flow that was typed', async () => {
    const { model } = await volumesOf([volumeCheck(0, [3, 3, 3.03], 'passed', [0.5, 1.5, 6])]);
    expect(model?.marks[2]?.told).toMatch(/fast, 6 L\/s: 3\.03 L of 3\.00 L, \+1\.0 %\.$/);
  });

  it('calls no flow by its order where there are fewer than three readings', async () => {
    const { model, checks } = await volumesOf([volumeCheck(0, [3, 3.01])]);
    expect(model?.shapes.map(({ name }) => name)).toEqual(['further']);
    expect(readingNames(checks)).toEqual(['Reading 1', 'Reading 2']);
  });

  it('is none while no check has readings, and leaves out what was voided', async () => {
    const voided = draft('check-voided', { checkId: 'check-number-1-undefined', reason: 'Typed twice' });
    const { model, checks } = await volumesOf([
      volumeCheckInWords(0),
      volumeCheck(1, [3.2], 'failed'),
      voided,
    ]);
    expect(checks).toHaveLength(1);
    expect(model).toBeNull();
    expect(volumeSentences(checks)).toEqual([
      '1 check, none failed. Last: 5 Jan 2026, noted, no reading written down.',
    ]);
  });

  it('is told in a sentence', async () => {
    const { checks } = await volumesOf([
      volumeCheck(0, [3, 3, 3.1], 'failed'),
      volumeCheck(1, [2.99, 3, 3.03]),
    ]);
    expect(volumeSentences(checks)).toEqual([
      '2 checks, 1 failed. Last: 12 Jan 2026, passed, farthest flow +1.0 %.',
      'Each flow within ±2.5 % of what should be read.',
    ]);
  });
});

async function coOf(drafts: readonly EntryDraft[]) {
  const { logbook } = await opened(drafts);
  const [co] = gasesOf(checksOf(logbook, ids.analyzer, 'linearity'));
  if (co === undefined) throw new Error('no gas was checked');
  return co;
}

describe('the charts of linearity', () => {
  it('show each dilution of the newest check in per cent of full scale', async () => {
    const co = await coOf([linearityOfCo(0, [0, 0, 0]), linearityOfCo(1, [0.1, -0.2, 0.6])]);
    const model = buildResidualChart(co);
    expect(model?.marks.map(({ x, y, isOut }) => [x, Number(y.toFixed(6)), isOut])).toEqual([
      [0, 0.1, false],
      [0.15, -0.2, false],
      [0.3, 0.6, true],
    ]);
    expect(model?.marks[2]?.told).toMatch(/^0\.3 % expected, .* read: \+0\.60 % of full scale, outside\.$/);
    expect(model?.title).toBe('CO, 12 Jan 2026: each dilution');
  });

  it('show the largest deviation of every check over time, on its own side', async () => {
    const co = await coOf([linearityOfCo(0, [0.1, -0.3, 0.2]), linearityOfCo(4, [0, 0.2, 0.7])]);
    const model = buildWorstChart(co);
    expect(model?.marks.map(({ x, y, isOut }) => [x, Number(y.toFixed(6)), isOut])).toEqual([
      [Date.parse(week(0)), -0.3, false],
      [Date.parse(week(4)), 0.7, true],
    ]);
    expect(model?.rails.map(({ text }) => text)).toEqual(['+0.5 %', '−0.5 %']);
  });

  it('tell a gain that is off from an analyzer that is not straight', async () => {
    // Deviations of 0, 0.4 and 0.8 % of full scale lie on a line; of 0, 0.9 and 0 % they do not.
    expect(linearitySentences(await coOf([linearityOfCo(0, [0, 0.4, 0.8])]))).toContain(
      'On a straight line, though not the right one: gain or zero is off, which a calibration can put right.',
    );
    expect(linearitySentences(await coOf([linearityOfCo(0, [0, 0.9, 0])]))).toContain(
      'Not on a straight line: a calibration at two points does not put this right.',
    );
    const good = linearitySentences(await coOf([linearityOfCo(0, [0, 0.1, 0])]));
    expect(good[0]).toBe(
      '5 Jan 2026: +0.10 % of full scale (0.3 %) at the most, within ±0.5 %; 3 dilutions.',
    );
    expect(good.slice(1)).toEqual([
      expect.stringMatching(/^Line through 3 points: reads 1 ×/),
      expect.stringMatching(/^Furthest from that line/),
    ]);
  });
});

describe('the arrow keys on a chart of marks', () => {
  it.each([
    ['ArrowRight', null, 0],
    ['ArrowRight', 2, 2],
    ['ArrowLeft', null, 2],
    ['ArrowLeft', 0, 0],
    ['Home', 2, 0],
    ['End', 0, 2],
    ['Escape', 1, null],
    ['a', 1, undefined],
  ] as const)('%s from %s of three leads to %s', (key, active, expected) => {
    expect(afterKey(key, active, 3)).toBe(expected);
  });

  it('lead nowhere without marks', () => {
    expect(afterKey('ArrowRight', null, 0)).toBeUndefined();
  });
});
