// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { endedAt } from '../../../src/views/closing.ts';
import { type Failure, listFailures, openFailures } from '../../../src/views/failures.ts';
import { eventsDuring } from '../../../src/views/review/eventsDuring.ts';
import { baseline, closure, draft, ids, opened, run, tenGoodRuns, week } from '../laboratory.ts';

// 3.37 L is 370 mL from 3 L: beyond the published 300. A DLCO of 0.6 is not below the published 0.5.
const far = 3.37;

async function failuresOf(drafts: readonly EntryDraft[]): Promise<readonly Failure[]> {
  const { logbook, assessments } = await opened(drafts);
  return listFailures(logbook, assessments);
}

const told = (failures: readonly Failure[]) =>
  failures.map(({ series, runs, ended }) => [
    series.quantity,
    runs.map(({ id }) => Number(id.replace('run-number-', ''))),
    ended?.by ?? 'open',
  ]);

describe('listFailures', () => {
  it('finds none in good runs, nor in an empty logbook', async () => {
    expect(await failuresOf([])).toEqual([]);
    expect(await failuresOf(tenGoodRuns())).toEqual([]);
  });

  it('opens one at a breached limit and keeps every later run in it until it is closed', async () => {
    const failures = await failuresOf([run(0, 3), run(1, far), run(2, 3), run(3, 3.01)]);
    expect(told(failures)).toEqual([['va', [1, 2, 3], 'open']]);
    expect(failures[0]?.openedBy.id).toBe(ids.run(1));
    expect(openFailures(failures)).toHaveLength(1);
  });

  it('opens one at an action rule inside the published limits', async () => {
    // z of 3.08 is 0.08/0.0216 = 3.7.
    expect(told(await failuresOf([...tenGoodRuns(), run(10, 3.08)]))).toEqual([['va', [10], 'open']]);
  });

  it('opens one for each quantity, in the order in which they opened', async () => {
    const failures = await failuresOf([run(0, 3, { dlco: 0.6 }), run(1, far), run(2, 3)]);
    expect(told(failures)).toEqual([
      ['dlco', [0, 1, 2], 'open'],
      ['va', [1, 2], 'open'],
    ]);
  });

  it('keeps routes and analyzers apart', async () => {
    const failures = await failuresOf([
      run(0, far),
      run(1, 3, { route: 'built-in' }),
      run(2, far, { analyzerId: 'analyzer-room-3' }),
    ]);
    expect(failures.map(({ analyzerId, series, runs }) => [analyzerId, series.route, runs.length])).toEqual([
      [ids.analyzer, 'patient-test', 1],
      ['analyzer-room-3', 'patient-test', 1],
    ]);
  });

  it('ends one at its closure; later runs are not in it', async () => {
    const failures = await failuresOf([run(0, 3), run(1, far), run(2, 3), closure(1, week(2.5)), run(3, 3)]);
    expect(told(failures)).toEqual([['va', [1, 2], 'closure']]);
    expect(openFailures(failures)).toEqual([]);
  });

  it('closes only the quantity that the closure names', async () => {
    const failures = await failuresOf([run(0, far, { dlco: 0.6 }), closure(0, week(0.5), ['va'])]);
    expect(told(failures)).toEqual([
      ['va', [0], 'closure'],
      ['dlco', [0], 'open'],
    ]);
  });

  it('opens a new one at the first failing run after a closure', async () => {
    const failures = await failuresOf([run(1, far), closure(1, week(1.5)), run(2, far), run(3, 3)]);
    expect(told(failures)).toEqual([
      ['va', [1], 'closure'],
      ['va', [2, 3], 'open'],
    ]);
  });

  it('gives each failure the closure that came first after it opened', async () => {
    const failures = await failuresOf([
      run(1, far),
      closure(1, week(1.5)),
      run(2, far),
      closure(2, week(2.5)),
    ]);
    expect(
      failures.map(({ ended }) => (ended?.by === 'closure' ? ended.closure.body.closedAt : null)),
    ).toEqual([week(1.5), week(2.5)]);
  });

  it('is put aside by a new baseline, before and after the next run is made', async () => {
    const aside = [run(1, far), baseline(week(1.5))];
    expect(told(await failuresOf(aside))).toEqual([['va', [1], 'new-baseline']]);
    expect(told(await failuresOf([...aside, run(2, 3)]))).toEqual([['va', [1], 'new-baseline']]);
    expect(told(await failuresOf([...aside, run(2, far)]))).toEqual([
      ['va', [1], 'new-baseline'],
      ['va', [2], 'open'],
    ]);
  });

  it('was closed, not put aside, when the new baseline came after the closure', async () => {
    const failures = await failuresOf([run(1, far), closure(1, week(1.5)), baseline(week(1.6)), run(2, 3)]);
    expect(told(failures)).toEqual([['va', [1], 'closure']]);
  });

  it('does not take the closure of a later failure for its own', async () => {
    const failures = await failuresOf([run(1, far), baseline(week(1.5)), run(2, far), closure(2, week(2.5))]);
    expect(told(failures)).toEqual([
      ['va', [1], 'new-baseline'],
      ['va', [2], 'closure'],
    ]);
  });

  it('forgets a voided run: one that opened it opens nothing, one within it is not told', async () => {
    const voided = (index: number) => draft('run-voided', { runId: ids.run(index), reason: 'Wrong gas.' });
    expect(await failuresOf([run(1, far), run(2, 3), voided(1)])).toEqual([]);
    expect(told(await failuresOf([run(1, far), run(2, 3), run(3, 3), voided(2)]))).toEqual([
      ['va', [1, 3], 'open'],
    ]);
  });
});

const spanOf = (failure: Failure) => ({
  analyzerId: failure.analyzerId,
  from: failure.openedBy.body.madeAt,
  until: endedAt(failure),
});

describe('eventsDuring', () => {
  const event = (index: number, description: string) =>
    draft('event-recorded', {
      eventId: `event-of-week-${index}`,
      analyzerId: ids.analyzer,
      happenedAt: week(index),
      type: 'sensor',
      description,
    });

  it('tells what was done between opening and closure, oldest first', async () => {
    const { logbook, assessments } = await opened([
      run(1, far),
      event(1.4, 'replaced'),
      event(1.2, 'cleaned'),
      event(0.5, 'too early'),
      event(3, 'too late'),
      closure(1, week(2)),
    ]);
    const [failure] = listFailures(logbook, assessments);
    if (!failure) throw new Error('no failure');
    expect(eventsDuring(spanOf(failure), logbook).map(({ sentence }) => sentence)).toEqual([
      'Sensor: cleaned',
      'Sensor: replaced',
    ]);
  });

  it('tells nothing of what came after the baseline that put it aside', async () => {
    const { logbook, assessments } = await opened([
      run(1, far),
      event(1.2, 'replaced'),
      baseline(week(1.5)),
      event(40, 'another story'),
    ]);
    const [failure] = listFailures(logbook, assessments);
    if (!failure) throw new Error('no failure');
    expect(eventsDuring(spanOf(failure), logbook).map(({ sentence }) => sentence)).toEqual([
      'Sensor: replaced',
    ]);
  });
});
