// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { askAboutFitting } from '../../../src/views/equipment/askAboutFitting.ts';
import { askAboutService } from '../../../src/views/equipment/askAboutService.ts';
import { carriersOf, fittedTo, fittingsOf } from '../../../src/views/equipment/fittedCylinders.ts';
import { servicePeriods } from '../../../src/views/equipment/servicePeriods.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { draft, ids, opened, week } from '../laboratory.ts';
import { cylinderId, fitted, otherRoom, service, testGas } from './equipmentDrafts.ts';

describe('servicePeriods', () => {
  it('pairs each taking out with what put it back, in the order of what was so', async () => {
    const { logbook } = await opened([
      service(week(3), false),
      service(week(1), false),
      service(week(2), true),
    ]);
    const periods = servicePeriods(logbook, ids.analyzer);
    expect(periods.map(({ out, back }) => [out[0]?.body.from, back?.body.from ?? null])).toEqual([
      [week(1), week(2)],
      [week(3), null],
    ]);
  });

  it('keeps both reasons where two took it out, and nothing for a putting back of what was in service', async () => {
    const { logbook } = await opened([
      service(week(0), true),
      service(week(1), false),
      service(week(2), false),
      service(week(3), true),
    ]);
    const [period, ...others] = servicePeriods(logbook, ids.analyzer);
    expect(period?.out).toHaveLength(2);
    expect(period?.back?.body.from).toBe(week(3));
    expect(others).toEqual([]);
  });
});

describe('askAboutService', () => {
  const room = { id: ids.analyzer, description: analyzerAdded };

  it('asks about a moment before the last change, and says what it would not change', async () => {
    const { logbook } = await opened([service(week(2), false)]);
    expect(askAboutService(logbook, room, true, week(1))).toEqual([
      expect.stringMatching(/^Room 2 was taken out of service on .* it stays out of service today\./),
    ]);
    expect(askAboutService(logbook, room, true, week(2))).toEqual([]);
    expect(askAboutService(logbook, { ...room, id: 'analyzer-room-3' }, true, week(1))).toEqual([]);
  });
});

describe('the fittings', () => {
  it('end where the next begins, in whatever order they were written', async () => {
    const { logbook } = await opened([
      draft('cylinder-added', testGas),
      otherRoom,
      fitted(week(4), null),
      fitted(week(1), cylinderId),
      fitted(week(2), cylinderId, 'analyzer-room-3'),
    ]);
    expect(
      fittedTo(logbook, ids.analyzer).map(({ fitting, until }) => [fitting.body.cylinderId, until]),
    ).toEqual([
      [cylinderId, week(4)],
      [null, null],
    ]);
    expect(fittingsOf(logbook, cylinderId).map(({ fitting }) => fitting.body.analyzerId)).toEqual([
      ids.analyzer,
      'analyzer-room-3',
    ]);
    expect(carriersOf(logbook, cylinderId)).toEqual(['Room 3']);
  });
});

describe('askAboutFitting', () => {
  async function asked(tracer: 'CH4' | 'He' | undefined, at: string, ...before: EntryDraft[]) {
    const { logbook } = await opened([
      draft('cylinder-added', testGas),
      draft('analyzer-changed', { ...analyzerAdded, ...(tracer && { tracer }), reason: 'Said.' }),
      ...before,
    ]);
    const analyzer = logbook.analyzers.get(ids.analyzer);
    const cylinder = logbook.cylinders.get(cylinderId);
    if (!analyzer || !cylinder) throw new Error('the laboratory of this test is not whole');
    return {
      fit: askAboutFitting(logbook, analyzer, cylinder, at),
      takeOff: askAboutFitting(logbook, analyzer, null, at),
    };
  }

  it('has nothing to ask of a cylinder in date with the analyzer’s tracer, or where none was said', async () => {
    expect((await asked('He', '2026-03-31T08:00:00.000Z')).fit).toEqual([]);
    expect((await asked(undefined, '2026-03-31T08:00:00.000Z')).fit).toEqual([]);
  });

  it('asks about an expired cylinder and about another tracer', async () => {
    const { fit } = await asked('CH4', '2026-04-02T08:00:00.000Z');
    expect(fit).toEqual([
      expect.stringContaining('ran out on 31 Mar 2026'),
      expect.stringContaining('Room 2 measures Methane (CH₄) as its tracer, and Test gas 4 holds none.'),
    ]);
  });

  it('asks about the one that is on already, and about a moment before the last change', async () => {
    const on = fitted(week(2), cylinderId);
    expect((await asked('He', week(3), on)).fit).toEqual([expect.stringContaining('is on Room 2 already')]);
    expect((await asked('He', week(1), on)).fit).toEqual([
      expect.stringContaining('does not change what is fitted now'),
    ]);
  });

  it('asks about taking off what was never fitted', async () => {
    expect((await asked('He', week(1))).takeOff).toEqual([
      expect.stringContaining('No cylinder is written down on Room 2'),
    ]);
    expect((await asked('He', week(2), fitted(week(1), cylinderId))).takeOff).toEqual([]);
  });
});
