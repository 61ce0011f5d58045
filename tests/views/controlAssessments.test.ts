// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { publishedCheckLimits } from '../../src/core/index.ts';
import type { ControlSeriesName, EntryDraft } from '../../src/journal/entries.ts';
import {
  assessControls,
  assessTyped,
  checkLimitsAt,
  judgementOf,
  listControlFailures,
} from '../../src/views/controlAssessments.ts';
import { controlsOf } from '../../src/views/useControlAssessments.ts';
import { biological, controlId, session, subject, subjectAdded } from './controlDrafts.ts';
import { baseline, draft, ids, opened, week } from './laboratory.ts';

/** Six tests of mean 25.0 mL/min/mmHg; 12 % of that is 3.0. */
const firstSix = [25.5, 24.5, 25, 25.5, 24.5, 25].map((dlco, index) => biological(index, dlco));
const logbookOf = async (drafts: readonly EntryDraft[]) =>
  (await opened([subjectAdded(), ...drafts])).logbook;
const dlcoSeries: ControlSeriesName = { kind: 'biological', subjectId: subject, quantity: 'dlco' };

const closed = (openedBy: number, closedAt: string, series: ControlSeriesName = dlcoSeries) =>
  draft('control-closed', {
    closureId: `control-closure-of-${openedBy}`,
    analyzerId: ids.analyzer,
    failures: [{ series, openedByControlId: controlId(openedBy) }],
    closedAt,
    cause: 'Cylinder concentration entered wrong.',
    correctiveAction: 'Entered as on the certificate.',
    lookBack: 'Nobody was tested meanwhile.',
    signature: null,
  });

const excludedFrom = (from: string) =>
  draft('subject-state-set', {
    settingId: 'setting-of-blue',
    subjectId: subject,
    state: 'excluded',
    from,
    reason: 'Anaemia.',
  });

describe('assessControls', () => {
  it('assesses each control by those before it, whatever was written on its day', async () => {
    const logbook = await logbookOf([...firstSix, biological(6, 28.1), session(7, { low: 0, high: 2.1 })]);
    const assessments = assessControls(logbook);
    expect(assessments.get(controlId(6))).toMatchObject({
      withinPublished: false,
      verdict: { word: 'fail' },
    });
    expect(assessments.get(controlId(7))?.verdict.word).toBe('fail');
    expect([assessments.biological.size, assessments.simulator.size]).toEqual([7, 1]);
    expect(assessments.impossible).toEqual([]);
  });

  it('leaves a voided control and an excluded person’s out of every mean', async () => {
    const voided = draft('control-voided', { controlId: controlId(0), reason: 'Other analyzer.' });
    const logbook = await logbookOf([...firstSix, biological(6, 20), voided, excludedFrom(week(6))]);
    const assessments = assessControls(logbook);
    // Five are left of the six, and the excluded person's is judged by nothing.
    expect(assessments.get(controlId(6))).toMatchObject({ firstTests: { n: 5 }, dlco: { accepted: false } });
  });

  it('sets a control with impossible numbers aside and says which', async () => {
    // Beyond what a double holds once it is converted.
    const absurd = biological(2, 1e308, {
      reading: { dlco: 1e308, dlcoUnit: 'mmol/min/kPa', vaL: 6 },
    });
    const logbook = await logbookOf([...firstSix.filter((_, index) => index !== 2), absurd]);
    const { biological: assessed, impossible } = assessControls(logbook);
    expect(impossible).toMatchObject([{ controlId: controlId(2), problem: /control-number-2/ }]);
    expect(assessed.size).toBe(5);
  });

  it('is worked out once for a logbook', async () => {
    const logbook = await logbookOf(firstSix);
    expect(controlsOf(logbook)).toBe(controlsOf(logbook));
  });
});

describe('assessTyped', () => {
  it('judges a control as it is judged once it is written', async () => {
    const before = await logbookOf([...firstSix, biological(7, 29)]);
    const typed = biological(6, 28.1);
    if (typed.kind !== 'control-recorded') throw new Error('a control');
    const asTyped = assessTyped(typed.body.control, before);
    const after = await logbookOf([...firstSix, biological(7, 29), typed]);
    expect(judgementOf(asTyped)).toEqual(judgementOf(given(assessControls(after).get(controlId(6)))));
    expect(asTyped.verdict.word).toBe('fail');
  });

  it('judges an amended control by the others, not by itself', async () => {
    const logbook = await logbookOf([...firstSix, biological(6, 35)]);
    const amended = biological(6, 25.1);
    if (amended.kind !== 'control-recorded') throw new Error('a control');
    const asTyped = assessTyped(amended.body.control, logbook, controlId(6));
    expect(asTyped).toMatchObject({ firstTests: { n: 6 }, verdict: { word: 'pass' } });
    // A test more would find the failure of the one that is amended open.
    expect(assessTyped(amended.body.control, logbook)).toMatchObject({ dlco: { failureOpen: true } });
  });

  it('judges by the epoch of its moment', async () => {
    const logbook = await logbookOf([...firstSix, baseline(week(6))]);
    const typed = biological(6, 30);
    if (typed.kind !== 'control-recorded') throw new Error('a control');
    expect(assessTyped(typed.body.control, logbook)).toMatchObject({ firstTests: { n: 0 } });
  });

  it('judges nothing by own limits of a person who is excluded at that moment', async () => {
    const logbook = await logbookOf([...firstSix, excludedFrom(week(6))]);
    const typed = biological(6, 26);
    if (typed.kind !== 'control-recorded') throw new Error('a control');
    expect(assessTyped(typed.body.control, logbook)).toMatchObject({ dlco: { z: null } });
    const before = { ...typed.body.control, madeAt: week(5.9) };
    expect(assessTyped(before, logbook)).toMatchObject({ dlco: { z: expect.any(Number) } });
  });
});

describe('judgementOf', () => {
  it('writes down each series with what it was judged by, and R-4s between the levels in both', async () => {
    const steady = Array.from({ length: 10 }, (_, index) => {
      const by = index % 2 === 0 ? 0.5 : -0.5;
      return session(index, { low: by, high: -by });
    });
    const logbook = await logbookOf([...steady, session(10, { low: 1.2, high: -1.2 })]);
    const judged = judgementOf(given(assessControls(logbook).get(controlId(10))));
    // SD of ±0.5 in turn is 0.527: z is 2.28.
    expect(judged).toMatchObject({ word: 'fail', establishing: false, failureOpen: true });
    expect(judged.series.map(({ name, value, z }) => [name, value, z])).toEqual([
      ['low', expect.closeTo(1.2, 9), expect.closeTo(2.277, 3)],
      ['high', expect.closeTo(-1.2, 9), expect.closeTo(-2.277, 3)],
    ]);
    for (const { signals } of judged.series) {
      expect(signals).toContainEqual({ rule: 'R-4s', severity: 'action', across: 'levels' });
    }
  });

  it('says of VA that no published limit applies', async () => {
    const logbook = await logbookOf([...firstSix, biological(6, 26)]);
    const { series } = judgementOf(given(assessControls(logbook).get(controlId(6))));
    expect(series.map(({ name, withinPublished }) => [name, withinPublished])).toEqual([
      ['dlco', true],
      ['va', null],
    ]);
  });
});

describe('listControlFailures', () => {
  const failuresOf = async (drafts: readonly EntryDraft[]) => {
    const logbook = await logbookOf(drafts);
    return listControlFailures(logbook, assessControls(logbook)).map(
      ({ openedBy, series, controls, ended }) => ({
        openedBy: openedBy.id,
        series,
        controls: controls.map(({ id }) => id),
        ended: ended?.by ?? null,
      }),
    );
  };
  const failing = [...firstSix, biological(6, 29), biological(7, 25), biological(8, 25)];

  it('opens at the control that was out and takes in those after it', async () => {
    expect(await failuresOf(failing)).toEqual([
      {
        openedBy: controlId(6),
        series: dlcoSeries,
        controls: [controlId(6), controlId(7), controlId(8)],
        ended: null,
      },
    ]);
  });

  it('ends with a closure of its series, and a later one is another', async () => {
    const again = [...failing, closed(6, week(7.5)), biological(9, 29)];
    expect(await failuresOf(again)).toMatchObject([
      { openedBy: controlId(6), controls: [controlId(6), controlId(7)], ended: 'closure' },
      { openedBy: controlId(9), ended: null },
    ]);
    const ofVa = closed(6, week(7.5), { ...dlcoSeries, quantity: 'va' });
    expect(await failuresOf([...failing, ofVa])).toMatchObject([{ ended: null }]);
  });

  it('ends with a new baseline of the analyzer', async () => {
    expect(await failuresOf([...failing, baseline(week(7.5))])).toMatchObject([
      { controls: [controlId(6), controlId(7)], ended: 'new-baseline' },
    ]);
  });

  it('forgets one whose control is voided', async () => {
    const voided = draft('control-voided', { controlId: controlId(6), reason: 'Mouthpiece leaked.' });
    expect(await failuresOf([...failing, voided])).toEqual([]);
  });
});

describe('checkLimitsAt', () => {
  it('are the published ones until the laboratory adopts its own', async () => {
    const limits = { ...publishedCheckLimits, edition: 'Ours' };
    const adopted = draft('check-limits-adopted', {
      adoptionId: 'adoption-of-ours',
      limits,
      from: week(1),
      reason: 'As agreed.',
    });
    const logbook = await logbookOf([adopted]);
    expect(checkLimitsAt(logbook, week(0))).toEqual(publishedCheckLimits);
    expect(checkLimitsAt(logbook, week(1)).edition).toBe('Ours');
  });
});

function given<T>(value: T | undefined): T {
  if (value === undefined) throw new Error('not there');
  return value;
}
