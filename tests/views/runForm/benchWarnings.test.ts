// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { publishedLimits2017 } from '../../../src/core/index.ts';
import type { EntryBody } from '../../../src/journal/entries.ts';
import { localZone } from '../../../src/views/parts/localTime.ts';
import { draftOfRun } from '../../../src/views/runForm/draftMoves.ts';
import { lastRunOf } from '../../../src/views/runForm/lastRunOf.ts';
import { readBenchDraft } from '../../../src/views/runForm/readBenchDraft.ts';
import { dueChecks, isNeverNoted } from '../../../src/views/schedule.ts';
import { syringeAdded } from '../../journal/fixtures.ts';
import { scheduleSet } from '../checkDrafts.ts';
import { draft, ids, laboratoryDrafts, opened, run, theRun } from '../laboratory.ts';
import { filled, noon, read, readRun } from './drafts.ts';

/** Noon is that of 2 March 2026. */
const syringeIs = (changes: Partial<typeof syringeAdded>) =>
  draft('syringe-changed', { ...syringeAdded, ...changes, reason: 'As its papers say.' });

const leakCheck = (doneAt: string, changes: Partial<EntryBody<'check-done'>> = {}) =>
  draft('check-done', {
    checkId: `check-of-${doneAt}`,
    check: 'syringe-leak',
    analyzerId: null,
    syringeId: ids.syringe,
    technologistId: ids.supervisor,
    doneAt,
    outcome: 'passed',
    volume: null,
    validUntil: null,
    note: '',
    investigates: null,
    ...changes,
  });

const dropped = (droppedAt: string) =>
  draft('syringe-dropped', {
    dropId: `drop-of-${droppedAt}`,
    syringeId: ids.syringe,
    droppedAt,
    description: 'Off the trolley.',
  });

const ofSyringe = async (...drafts: Parameters<typeof opened>[0]) =>
  read({}, (await opened(drafts)).logbook).warnings.syringeId;

describe('a syringe', () => {
  it('is overdue by the date on its description, until a check made after that was typed says another', async () => {
    const overdue = syringeIs({ leakCheckDueOn: '2026-02-01' });
    expect(await ofSyringe(overdue)).toBe(
      'Dedicated 3 L syringe is overdue: leak check was due on 1 Feb 2026.',
    );
    expect(await ofSyringe(overdue, leakCheck('2026-02-20T09:00:00.000Z'))).toBeUndefined();
    expect(
      await ofSyringe(overdue, leakCheck('2026-02-20T09:00:00.000Z', { validUntil: '2026-02-28' })),
    ).toMatch(/leak check was due on 28 Feb 2026/);
    // One from before the date was typed, on 1 January, says nothing about it.
    expect(await ofSyringe(overdue, leakCheck('2025-12-01T09:00:00.000Z'))).toMatch(/1 Feb 2026/);
    // A check is noted to the minute: in the one in which the date was typed, here at 00:03:41, it comes after.
    const inThatMinute = [overdue, leakCheck('2026-01-01T00:03:00.000Z')];
    const { logbook } = await opened(inThatMinute, laboratoryDrafts(), '2026-01-01T00:00:41.000Z');
    expect(read({}, logbook).warnings.syringeId).toBeUndefined();
  });

  it('without a date of its own is overdue by the laboratory’s interval, or by the usual one, after its last check', async () => {
    // Written at 00:03 on 1 January without a date: a check of the year before holds for its twelve months.
    const undated = syringeIs({ calibrationDueOn: null });
    expect(await ofSyringe(undated, leakCheck('2025-03-02T12:00:00.000Z'))).toBeUndefined();
    expect(await ofSyringe(undated, leakCheck('2025-03-01T12:00:00.000Z'))).toBe(
      'Dedicated 3 L syringe is overdue: leak check was due on 1 Mar 2026.',
    );
    const inJanuary = leakCheck('2026-01-20T09:00:00.000Z');
    expect(await ofSyringe(undated, inJanuary)).toBeUndefined();
    const monthly = scheduleSet('syringe-leak', { every: { unit: 'months', count: 1 } });
    expect(await ofSyringe(undated, inJanuary, monthly)).toMatch(/leak check was due on 20 Feb 2026/);
    // Never noted, it is in arrears since it was added, where the laboratory says that it makes the check.
    expect(await ofSyringe(undated)).toBeUndefined();
    expect(await ofSyringe(undated, monthly)).toMatch(/leak check was due on 1 Jan 2026/);
    const notMade = scheduleSet('syringe-leak', { isMade: false, every: null });
    expect(await ofSyringe(undated, leakCheck('2025-01-20T09:00:00.000Z'), notMade)).toBeUndefined();
    // What the certificate names goes before any interval, whenever it was written down.
    const certified = leakCheck('2025-12-01T09:00:00.000Z', { validUntil: '2026-02-10' });
    expect(await ofSyringe(undated, certified)).toMatch(/10 Feb 2026/);
  });

  it('is overdue for its leak check exactly where Today says so', async () => {
    const dates = [null, '2026-02-01', '2026-05-01'];
    const checks = [
      [],
      ...[null, '2026-02-10', '2026-06-01'].flatMap((validUntil) =>
        ['2024-12-01T09:00:00.000Z', '2025-12-01T09:00:00.000Z', '2026-01-20T09:00:00.000Z'].map((doneAt) => [
          leakCheck(doneAt, { validUntil }),
        ]),
      ),
    ];
    const monthly = scheduleSet('syringe-leak', { every: { unit: 'months', count: 1 } });
    const notMade = scheduleSet('syringe-leak', { isMade: false, every: null });
    let overdue = 0;
    for (const leakCheckDueOn of dates) {
      for (const done of checks) {
        for (const schedule of [[], [monthly], [notMade]]) {
          const { logbook } = await opened([
            syringeIs({ calibrationDueOn: null, leakCheckDueOn }),
            ...done,
            ...schedule,
          ]);
          const onToday = dueChecks(logbook, noon, localZone()).find(({ check }) => check === 'syringe-leak');
          const isOverdue =
            onToday !== undefined && onToday.due.state === 'overdue' && !isNeverNoted(onToday);
          const said = read({}, logbook).warnings.syringeId;
          expect(said !== undefined, JSON.stringify([leakCheckDueOn, done, schedule])).toBe(isOverdue);
          if (isOverdue) overdue += 1;
        }
      }
    }
    expect(overdue).toBeGreaterThan(20);
  });

  it('that was dropped is to be checked before it is trusted, and is trusted after', async () => {
    const fall = dropped('2026-02-10T09:00:00.000Z');
    expect(await ofSyringe(fall)).toMatch(/was dropped on 10 Feb 2026 and not checked for leaks since/);
    expect(await ofSyringe(fall, leakCheck('2026-02-11T09:00:00.000Z'))).toBeUndefined();
    expect(await ofSyringe(fall, leakCheck('2026-02-09T09:00:00.000Z'))).toMatch(/was dropped/);
    // Which of two that bear the same minute came first is not known: Today wants the check, and so does the bench.
    expect(await ofSyringe(fall, leakCheck('2026-02-10T09:00:00.000Z'))).toMatch(/was dropped/);
    expect(await ofSyringe(dropped('2026-03-03T09:00:00.000Z'))).toBeUndefined();
  });

  it('whose last check failed says so', async () => {
    expect(await ofSyringe(leakCheck('2026-02-11T09:00:00.000Z', { outcome: 'failed' }))).toBe(
      'Dedicated 3 L syringe failed its last leak check.',
    );
  });

  it('whose check failed stays failed, as on Today, until one passes: to note something acquits nothing', async () => {
    const leak = leakCheck('2026-02-11T09:00:00.000Z', { outcome: 'failed' });
    const noted = leakCheck('2026-02-12T09:00:00.000Z', { outcome: 'noted', note: 'Sent in.' });
    const passed = leakCheck('2026-02-13T09:00:00.000Z');
    for (const [drafts, isFailed] of [
      [[leak, noted], true],
      [[leak, noted, passed], false],
    ] as const) {
      const { logbook } = await opened(drafts);
      const [due] = dueChecks(logbook, noon, localZone()).filter(({ check }) => check === 'syringe-leak');
      expect(due?.failed !== null).toBe(isFailed);
      expect(read({}, logbook).warnings.syringeId).toBe(
        isFailed ? 'Dedicated 3 L syringe failed its last leak check.' : undefined,
      );
    }
  });

  it('that was carried to an analyzer usually tested with another is named', async () => {
    const { logbook } = await opened([
      draft('syringe-added', { ...syringeAdded, syringeId: 'syringe-spare', label: 'Spare syringe' }),
    ]);
    const carried = { kind: 'carried', analyzerId: 'analyzer-room-5', at: noon } as const;
    const { warnings } = read({ syringeId: 'syringe-spare', origins: { syringeId: carried } }, logbook);
    expect(warnings.syringeId).toBe('Room 2 is usually tested with Dedicated 3 L syringe.');
    expect(read({ syringeId: 'syringe-spare' }, logbook).warnings.syringeId).toBeUndefined();
  });
});

describe('an analyzer', () => {
  const out = draft('service-set', {
    serviceId: 'out-of-service',
    analyzerId: ids.analyzer,
    inService: false,
    from: '2026-02-20T09:00:00.000Z',
    reason: 'Valve sticks',
  });

  it('out of service is asked about, unless the run is one after service', async () => {
    const { logbook } = await opened([out]);
    expect(read({}, logbook).questions).toHaveLength(1);
    expect(read({}, logbook).questions[0]).toMatch(/out of service since 20 Feb 2026, .*: Valve sticks\. Is/);
    expect(read({ reason: 'after-service' }, logbook).questions).toEqual([]);
    expect(read({ reason: 'after-service' }, logbook).warnings.analyzerId).toMatch(/out of service/);
  });

  it('is not asked about for a run from before, nor once it is back', async () => {
    const { logbook } = await opened([out]);
    expect(read({ madeAt: '2026-02-19T12:00' }, logbook).questions).toEqual([]);
    const back = draft('service-set', {
      serviceId: 'back-in-service',
      analyzerId: ids.analyzer,
      inService: true,
      from: '2026-03-01T09:00:00.000Z',
      reason: 'New valve.',
    });
    const { logbook: later } = await opened([out, back]);
    expect(read({}, later)).toMatchObject({ questions: [], warnings: {} });
  });
});

describe('the limits of a run', () => {
  const stricter = { ...publishedLimits2017, edition: 'Our own of 2026', vaToleranceL: 0.2 };
  const adopted = draft('limits-adopted', {
    adoptionId: 'adoption-of-march',
    from: '2026-03-01T00:00:00.000Z',
    limits: stricter,
    reason: 'Decided by the laboratory.',
  });

  it('are those in force when it was made, and an amended run keeps its own', async () => {
    const { logbook } = await opened([adopted, run(0, 3.4)]);
    expect(readRun({}, logbook).limits).toEqual(stricter);
    expect(readRun({ madeAt: '2026-02-27T12:00' }, logbook).limits).toEqual(publishedLimits2017);
    const amending = theRun(logbook, 0);
    const moved = { ...draftOfRun(amending), madeAt: '2026-03-02T12:00' };
    expect(readBenchDraft(moved, { logbook, now: noon, amending }).run?.limits).toEqual(amending.body.limits);
  });
});

describe('lastRunOf', () => {
  it('is the newest that stands, without the one that is amended; none for an analyzer without runs', async () => {
    const { logbook } = await opened([
      run(0, 3.1),
      run(1, 3.2),
      run(2, 3.3),
      draft('run-voided', { runId: ids.run(2), reason: 'Wrong syringe.' }),
    ]);
    expect(lastRunOf(logbook, ids.analyzer)?.id).toBe(ids.run(1));
    expect(lastRunOf(logbook, ids.analyzer, ids.run(1))?.id).toBe(ids.run(0));
    expect(lastRunOf(logbook, ids.analyzer, ids.run(0))?.id).toBe(ids.run(1));
    expect(lastRunOf(logbook, 'analyzer-nowhere')).toBeUndefined();
    expect(lastRunOf((await opened([])).logbook, ids.analyzer)).toBeUndefined();
  });
});

describe('a temperature in °F', () => {
  it('is judged in °C and kept as typed: 72.5 °F is 22.5 °C', async () => {
    const { logbook } = await opened([], laboratoryDrafts());
    expect(readRun({ temperature: '72,5', temperatureUnit: '°F' }, logbook)).toMatchObject({
      ambient: { temperatureC: 22.5 },
      temperatureAsTyped: { value: 72.5, unit: '°F' },
    });
    expect(readRun({}, logbook)).not.toHaveProperty('temperatureAsTyped');
    expect(filled.temperatureUnit).toBe('°C');
    const { errors } = read({ temperature: '22', temperatureUnit: '°F' }, logbook);
    expect(errors.temperature).toMatchObject({ slip: { kind: 'unit', unit: '°C' } });
  });
});
