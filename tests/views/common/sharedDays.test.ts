import { describe, expect, it } from 'vitest';
import { sharedDays, sharedDaysOn } from '../../../src/views/common/sharedDays.ts';
import { room5, room7, threeAnalyzers } from '../investigationFixtures.ts';
import { draft, ids, opened, run, week } from '../laboratory.ts';

const on = (analyzerId: string) => ({ analyzerId });
const otherSyringe = draft('syringe-added', {
  syringeId: 'syringe-spare',
  label: 'Spare syringe',
  serial: '',
  volumeL: 3,
  deadSpaceL: 0.11,
  calibrationDueOn: null,
  leakCheckDueOn: null,
});
const laboratory = () => [...threeAnalyzers(), otherSyringe];

/** All three analyzers in a week. */
const together = (index: number) => [
  run(index, 3),
  run(100 + index, 3, { ...on(room5), madeAt: week(index) }),
  run(200 + index, 3, { ...on(room7), madeAt: week(index) }),
];

describe('sharedDays', () => {
  it('lists the days on which two analyzers had the same syringe, newest first', async () => {
    const { logbook, assessments } = await opened(
      [
        ...together(0),
        run(1, 3),
        run(2, 3),
        run(102, 3, { ...on(room5), madeAt: week(2), syringeId: 'syringe-spare' }),
        run(3, 3),
        run(103, 3, { ...on(room5), madeAt: week(3) }),
      ],
      laboratory(),
    );
    const { days, hasEarlier } = sharedDays(logbook, assessments, 10);
    expect(days.map(({ date, analyzers }) => [date, [...analyzers.keys()].sort()])).toEqual([
      ['2026-01-26', [ids.analyzer, room5]],
      ['2026-01-05', [ids.analyzer, room5, room7]],
    ]);
    expect(hasEarlier).toBe(false);
  });

  it('gives as many as are asked for, each of them whole', async () => {
    const { logbook, assessments } = await opened([0, 1, 2, 3].flatMap(together), laboratory());
    const { days, hasEarlier } = sharedDays(logbook, assessments, 2);
    expect(days.map(({ date, analyzers }) => [date, analyzers.size])).toEqual([
      ['2026-01-26', 3],
      ['2026-01-19', 3],
    ]);
    expect(hasEarlier).toBe(true);
    expect(sharedDays(logbook, assessments, 4)).toMatchObject({ hasEarlier: false });
  });

  it('takes the day from the wall of the runs, not from UTC', async () => {
    // 23:30 UTC is 00:30 of the next day in Oslo, where both runs were written down.
    const late = '2026-01-05T23:30:00.000Z';
    const { logbook, assessments } = await opened(
      [run(0, 3, { madeAt: late }), run(100, 3, { ...on(room5), madeAt: '2026-01-06T09:00:00.000Z' })],
      laboratory(),
    );
    expect(sharedDays(logbook, assessments, 5).days.map(({ date }) => date)).toEqual(['2026-01-06']);
    expect(sharedDaysOn(logbook, assessments, '2026-01-06')).toHaveLength(1);
    expect(sharedDaysOn(logbook, assessments, '2026-01-05')).toEqual([]);
  });

  it('leaves out voided runs and runs with another gas', async () => {
    const { logbook, assessments } = await opened(
      [
        run(0, 3),
        run(100, 3, { ...on(room5), madeAt: week(0) }),
        run(200, 3, { ...on(room7), madeAt: week(0), method: 'precision-gas' }),
        draft('run-voided', { runId: ids.run(100), reason: 'Wrong room.' }),
      ],
      laboratory(),
    );
    expect(sharedDays(logbook, assessments, 5).days).toEqual([]);
  });

  it('keeps two syringes of one day apart', async () => {
    const { logbook, assessments } = await opened(
      [
        ...together(0),
        run(300, 3, { syringeId: 'syringe-spare', madeAt: week(0) }),
        run(301, 3, { ...on(room5), syringeId: 'syringe-spare', madeAt: week(0) }),
      ],
      laboratory(),
    );
    const days = sharedDaysOn(logbook, assessments, '2026-01-05');
    expect(days.map(({ syringeId, analyzers }) => [syringeId, analyzers.size]).sort()).toEqual([
      [ids.syringe, 3],
      ['syringe-spare', 2],
    ]);
  });
});
