import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../src/journal/entries.ts';
import { foldJournal } from '../../src/journal/fold.ts';
import { checksNotMade, type DueCheck, dueChecks, isNeverNoted } from '../../src/views/schedule.ts';
import { sealChain, syringeAdded } from '../journal/fixtures.ts';
import {
  checkDone,
  cylinderAdded,
  cylinderFitted,
  dropped,
  ofLaboratory,
  ofSyringe,
  scheduleSet,
  serviceSet,
} from './checkDrafts.ts';
import { biological, controlId, judgedAs, subjectAdded } from './controlDrafts.ts';
import { draft, ids, laboratoryDrafts, opened, run, week } from './laboratory.ts';

const zone = 'Europe/Oslo';

async function listed(drafts: readonly EntryDraft[], now: string, inZone = zone) {
  const { logbook } = await opened(drafts);
  return dueChecks(logbook, Date.parse(now), inZone);
}

async function only(check: DueCheck['check'], drafts: readonly EntryDraft[], now: string, inZone = zone) {
  const found = (await listed(drafts, now, inZone)).filter((due) => due.check === check);
  const [due] = found;
  if (due === undefined || found.length > 1) throw new Error(`${found.length} of ${check}`);
  return due;
}

describe('what is due', () => {
  // The laboratory of the tests is added on Thursday 1 January 2026; week 0 is Monday the 5th.
  it('makes a simulation due on the day the analyzer is added, and a week after the last one', async () => {
    const never = await only('simulation', [], '2026-01-01T12:00:00Z');
    expect(never.due).toMatchObject({ state: 'today', dueOn: '2026-01-01' });
    const after = await only('simulation', [run(0, 3), run(1, 3)], '2026-01-19T12:00:00Z');
    expect(after.due).toMatchObject({ state: 'today', dueOn: '2026-01-19' });
    expect(after.last).toMatchObject({ id: ids.run(1), outcome: null });
    expect(after.isUsual).toBe(true);
  });

  it('counts a run by either route, and one that failed, but no voided one and no other method', async () => {
    const last = async (drafts: readonly EntryDraft[]) =>
      (await only('simulation', drafts, '2026-01-30T12:00:00Z')).last?.id;
    expect(await last([run(0, 3), run(1, 3.5)])).toBe(ids.run(1));
    expect(await last([run(0, 3), run(1, 3, { route: 'built-in' })])).toBe(ids.run(1));
    expect(await last([run(0, 3), run(1, 3, { method: 'precision-gas' })])).toBe(ids.run(0));
    const voided = draft('run-voided', { runId: ids.run(1), reason: 'Wrong analyzer.' });
    expect(await last([run(0, 3), run(1, 3), voided])).toBe(ids.run(0));
  });

  it('keeps what is dated after today apart, and lets what is dated later today count', async () => {
    const ahead = await only('simulation', [run(0, 3), run(8, 3)], '2026-01-13T12:00:00Z');
    expect(ahead).toMatchObject({ last: { id: ids.run(0) }, datedAhead: { id: ids.run(8) } });
    expect(ahead.due).toMatchObject({ state: 'overdue', daysOverdue: 1 });
    const laterToday = await only('simulation', [run(0, 3)], '2026-01-05T06:00:00Z');
    expect(laterToday).toMatchObject({ last: { id: ids.run(0) }, datedAhead: null });
    expect(laterToday.due.dueOn).toBe('2026-01-12');
  });

  it('lists an analyzer though the clock was set back to before it was added', async () => {
    const { due } = await only('simulation', [], '2025-06-01T12:00:00Z');
    expect(due.state).toBe('today');
  });

  it('takes the laboratory’s own schedule in place of the usual one', async () => {
    const own = await only('simulation', [scheduleSet('simulation'), run(0, 3)], '2026-01-13T12:00:00Z');
    expect(own).toMatchObject({ isUsual: false, due: { state: 'later', dueOn: '2026-01-19' } });
    expect(own.plan.source).toBe('Decided at the quality meeting.');
  });

  it('asks for a check that was never made from the day on which its schedule was set', async () => {
    const drafts = [...laboratoryDrafts(), scheduleSet('linearity')];
    const added = Array(3).fill('2026-01-01T08:00:00.000Z');
    const logbook = foldJournal(await sealChain(drafts, { at: [...added, '2026-03-02T08:00:00.000Z'] }));
    const due = dueChecks(logbook, Date.parse('2026-03-04T12:00:00Z'), zone).find(
      ({ check }) => check === 'linearity',
    );
    expect(due?.due).toMatchObject({ state: 'overdue', dueOn: '2026-03-02', daysOverdue: 2 });
  });

  it('leaves out what is not made here and names it', async () => {
    const notMade = scheduleSet('linearity', { isMade: false, every: null });
    const { logbook } = await opened([notMade]);
    const checks = dueChecks(logbook, Date.parse('2026-01-05T12:00:00Z'), zone).map(({ check }) => check);
    expect(checks).not.toContain('linearity');
    expect(checks).toContain('biological-control');
    expect(checksNotMade(logbook)).toEqual(['linearity']);
  });

  it('puts off what falls due out of service to the day of return', async () => {
    const out = [run(0, 3), serviceSet(false, '2026-01-10T08:00:00.000Z')];
    const meanwhile = await only('simulation', out, '2026-01-20T12:00:00Z');
    expect(meanwhile.due).toMatchObject({ state: 'paused', dueOn: null });
    const back = [...out, serviceSet(true, '2026-01-21T08:00:00.000Z')];
    expect((await only('simulation', back, '2026-01-23T12:00:00Z')).due).toMatchObject({
      state: 'overdue',
      dueOn: '2026-01-21',
      daysOverdue: 2,
    });
  });

  it('takes the first of two settings of service that say the same', async () => {
    const drafts = [
      run(0, 3),
      serviceSet(false, '2026-01-06T08:00:00.000Z'),
      serviceSet(false, '2026-01-14T08:00:00.000Z'),
      serviceSet(true, '2026-01-20T08:00:00.000Z'),
      serviceSet(true, '2026-01-25T08:00:00.000Z'),
    ];
    expect((await only('simulation', drafts, '2026-01-20T12:00:00Z')).due).toMatchObject({
      state: 'today',
      dueOn: '2026-01-20',
    });
  });

  // Clocks go forward in Oslo on Sunday 29 March 2026 at 01:00 UTC.
  it('keeps the weekday across a change of clocks', async () => {
    const late = run(0, 3, { madeAt: '2026-03-26T22:30:00.000Z' });
    const { due } = await only('simulation', [late], '2026-04-02T21:30:00Z');
    expect(due).toMatchObject({ state: 'today', dueOn: '2026-04-02' });
  });

  it('goes by the clocks on the wall of where it is read', async () => {
    // Half past midnight on Tuesday in Oslo is Monday evening in New York.
    const evening = [run(0, 3, { madeAt: '2026-01-05T23:30:00.000Z' })];
    expect((await only('simulation', evening, '2026-01-06T12:00:00Z')).due.dueOn).toBe('2026-01-13');
    const there = await only('simulation', evening, '2026-01-06T12:00:00Z', 'America/New_York');
    expect(there.due.dueOn).toBe('2026-01-12');
  });

  it('counts arrears from an imported run though the analyzer was written down later', async () => {
    const imported = [run(0, 3, { madeAt: '2025-12-01T08:00:00.000Z' })];
    expect((await only('simulation', imported, '2026-01-03T12:00:00Z')).due).toMatchObject({
      state: 'overdue',
      dueOn: '2025-12-08',
      daysOverdue: 26,
    });
  });

  it('leaves out what is retired', async () => {
    const retired = [
      draft('analyzer-retired', { analyzerId: ids.analyzer, reason: 'Sold.' }),
      draft('syringe-retired', { syringeId: ids.syringe, reason: 'Lost.' }),
      cylinderAdded('2026-02-01'),
      draft('cylinder-retired', { cylinderId: 'cylinder-under-test', reason: 'Empty.' }),
    ];
    const checks = (await listed(retired, '2026-02-05T12:00:00Z')).map(({ check }) => check);
    expect(checks).toEqual(['barometer']);
  });
});

describe('a control', () => {
  const failed = biological(0, 30, { judged: judgedAs('fail') });
  const on = (drafts: readonly EntryDraft[]) =>
    only('biological-control', [subjectAdded(), ...drafts], '2026-01-09T12:00:00Z');

  it('is the last of its check, and failing as it was judged on its day', async () => {
    expect(await on([failed])).toMatchObject({ last: { id: controlId(0) }, failed: { id: controlId(0) } });
  });

  it('fails no more once a slip was put right, and is made all the same', async () => {
    const right = biological(0, 25);
    if (right.kind !== 'control-recorded') throw new Error('a control');
    const amended = draft('control-amended', {
      amendmentId: 'amendment-of-the-slip',
      reason: 'Read 25, typed 30.',
      ...right.body,
    });
    expect(await on([failed, amended])).toMatchObject({ last: { id: controlId(0) }, failed: null });
  });

  it('that was set aside was made, and says nothing of the analyzer', async () => {
    const aside = draft('control-set-aside', {
      controlId: controlId(0),
      isSetAside: true,
      reason: 'The person had a cold.',
    });
    expect(await on([failed, aside])).toMatchObject({ last: { outcome: 'noted' }, failed: null });
  });
});

describe('a noted check', () => {
  it('is the last that stands, and failing until a later one passes', async () => {
    const failed = checkDone('biological-control', '2026-01-06T08:00:00.000Z', { outcome: 'failed' });
    const noted = checkDone('biological-control', '2026-01-07T08:00:00.000Z', { outcome: 'noted' });
    const passed = checkDone('biological-control', '2026-01-08T08:00:00.000Z');
    const on = (drafts: readonly EntryDraft[]) => only('biological-control', drafts, '2026-01-09T12:00:00Z');
    expect(await on([failed])).toMatchObject({ failed: { outcome: 'failed' }, due: { state: 'later' } });
    expect(await on([failed, noted])).toMatchObject({
      failed: { outcome: 'failed' },
      last: { outcome: 'noted' },
    });
    expect(await on([failed, noted, passed])).toMatchObject({ failed: null });
    // Written down in another order, they were still done in this one.
    expect(await on([passed, noted, failed])).toMatchObject({ failed: null });
  });

  it('counts no more once it is voided', async () => {
    const passed = checkDone('linearity', '2026-01-08T08:00:00.000Z', { checkId: 'check-to-be-voided' });
    const voided = draft('check-voided', { checkId: 'check-to-be-voided', reason: 'Another analyzer.' });
    const { last, ...due } = await only('linearity', [passed, voided], '2026-01-09T12:00:00Z');
    expect(last).toBeNull();
    expect(isNeverNoted({ last, ...due })).toBe(true);
  });

  it('is nobody’s arrears while it is usual and none was ever noted', async () => {
    const now = '2026-06-01T12:00:00Z';
    expect(isNeverNoted(await only('biological-control', [], now))).toBe(true);
    expect(isNeverNoted(await only('biological-control', [scheduleSet('biological-control')], now))).toBe(
      false,
    );
    expect(isNeverNoted(await only('simulation', [], now))).toBe(false);
    const noted = checkDone('biological-control', '2026-01-08T08:00:00.000Z');
    expect(isNeverNoted(await only('biological-control', [noted], now))).toBe(false);
  });

  it('of the barometer is the laboratory’s', async () => {
    const done = checkDone('barometer', '2026-01-08T08:00:00.000Z', {
      ...ofLaboratory,
      validUntil: '2026-07-31',
    });
    const barometer = await only('barometer', [done], '2026-06-01T12:00:00Z');
    expect(barometer.about.kind).toBe('laboratory');
    expect(barometer.due.dueOn).toBe('2026-07-31');
  });
});

describe('a syringe', () => {
  const changed = (dates: Partial<typeof syringeAdded>) =>
    draft('syringe-changed', { ...syringeAdded, ...dates, reason: 'New certificate.' });
  const now = '2026-03-01T12:00:00Z';

  it('is due on the date typed for it', async () => {
    // The syringe of the tests is calibrated until 30 September 2026.
    const { due, hasOwnDate } = await only('syringe-calibration', [], '2026-10-02T12:00:00Z');
    expect(due).toMatchObject({ state: 'overdue', dueOn: '2026-09-30', daysOverdue: 2 });
    expect(hasOwnDate).toBe(true);
  });

  it('goes by a later check in place of that date, and by the date its certificate names', async () => {
    const done = '2026-02-01T08:00:00.000Z';
    const plain = await only('syringe-calibration', [checkDone('syringe-calibration', done, ofSyringe)], now);
    expect(plain.due.dueOn).toBe('2027-02-01');
    const certified = checkDone('syringe-calibration', done, { ...ofSyringe, validUntil: '2026-12-31' });
    expect((await only('syringe-calibration', [certified], now)).due.dueOn).toBe('2026-12-31');
  });

  it('goes by a date typed after the check, and not by one that another change left as it was', async () => {
    // The changes are written on 1 January: a check of the year before comes before them, one of December 2025 too.
    const before = checkDone('syringe-calibration', '2025-12-01T08:00:00.000Z', ofSyringe);
    const typed = await only(
      'syringe-calibration',
      [before, changed({ calibrationDueOn: '2026-05-01' })],
      now,
    );
    expect(typed.due.dueOn).toBe('2026-05-01');
    const after = checkDone('syringe-calibration', '2026-01-01T00:02:30.000Z', ofSyringe);
    // Typed at midnight with the syringe, a minute after midnight nothing but its label changes.
    const labelOnly = await only('syringe-calibration', [after, changed({ label: 'Old faithful' })], now);
    expect(labelOnly.due.dueOn).toBe('2027-01-01');
  });

  it('goes by a check noted to the minute in which the date was typed', async () => {
    // The fourth entry, at 00:03:41.
    const typed = changed({ calibrationDueOn: '2026-02-01' });
    const dueAfter = async (doneAt: string) => {
      const drafts = [typed, checkDone('syringe-calibration', doneAt, ofSyringe)];
      const { logbook } = await opened(drafts, laboratoryDrafts(), '2026-01-01T00:00:41.000Z');
      const found = dueChecks(logbook, Date.parse(now), zone);
      return found.find(({ check }) => check === 'syringe-calibration')?.due.dueOn;
    };
    expect(await dueAfter('2026-01-01T00:03:00.000Z')).toBe('2027-01-01');
    expect(await dueAfter('2026-01-01T00:02:00.000Z')).toBe('2026-02-01');
  });

  it('is due at once after a fall, until its leak check is made', async () => {
    const fall = dropped('2026-02-20T09:00:00.000Z');
    const checked = (at: string) => checkDone('syringe-leak', at, ofSyringe);
    const fallen = await only('syringe-leak', [checked('2026-02-01T08:00:00.000Z'), fall], now);
    expect(fallen.droppedAt).toBe('2026-02-20T09:00:00.000Z');
    expect(fallen.due.state).toBe('overdue');
    const settled = await only('syringe-leak', [fall, checked('2026-02-20T10:00:00.000Z')], now);
    expect(settled).toMatchObject({ droppedAt: null, due: { state: 'later', dueOn: '2027-02-20' } });
  });
});

describe('a cylinder', () => {
  it('is due on the last day of its label, with the analyzers it is fitted to', async () => {
    const drafts = [
      cylinderAdded('2026-02-01'),
      cylinderFitted('cylinder-under-test', '2026-01-05T08:00:00.000Z'),
    ];
    const lastDay = await only('cylinder-expiry', drafts, '2026-02-01T12:00:00Z');
    expect(lastDay).toMatchObject({ due: { state: 'today' }, about: { fittedTo: [ids.analyzer] } });
    const after = await only('cylinder-expiry', drafts, '2026-02-02T12:00:00Z');
    expect(after.due).toMatchObject({ state: 'overdue', daysOverdue: 1 });
  });

  it('is fitted to none once another, or none, took its place', async () => {
    const drafts = [
      cylinderAdded('2026-02-01'),
      cylinderFitted('cylinder-under-test', '2026-01-05T08:00:00.000Z'),
      cylinderFitted(null, '2026-01-06T08:00:00.000Z'),
    ];
    expect((await only('cylinder-expiry', drafts, '2026-02-01T12:00:00Z')).about.fittedTo).toEqual([]);
  });

  it('without a date is not listed, nor is an analyzer without a cylinder an error', async () => {
    const checks = (await listed([cylinderAdded(null)], '2026-02-01T12:00:00Z')).map(({ check }) => check);
    expect(checks).not.toContain('cylinder-expiry');
  });
});

it('lists the checks of 40 analyzers in the order of the logbook', async () => {
  const more = Array.from({ length: 39 }, (_, index) =>
    draft('analyzer-added', {
      ...analyzerNumber(index),
    }),
  );
  const due = await listed([...more, run(0, 3)], week(1));
  const simulations = due.filter(({ check }) => check === 'simulation');
  expect(simulations).toHaveLength(40);
  expect(simulations[0]?.about.id).toBe(ids.analyzer);
  expect(simulations[39]?.about.id).toBe('analyzer-number-38');
});

function analyzerNumber(index: number) {
  const [, , added] = laboratoryDrafts();
  if (added?.kind !== 'analyzer-added') throw new Error('the laboratory has no analyzer');
  return { ...added.body, analyzerId: `analyzer-number-${index}`, label: `Room ${index + 3}` };
}
