// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { listFailures } from '../../src/views/failures.ts';
import { inquiryInto, isVoided, runLookedInto, type Step } from '../../src/views/investigations.ts';
import { biological, controlId, subjectAdded } from './controlDrafts.ts';
import {
  checkDone,
  failing,
  goodWeeks,
  hoursLater,
  lookingInto,
  room5,
  sameDay,
} from './investigationFixtures.ts';
import { closure, draft, ids, opened, run, week } from './laboratory.ts';

const idOf = (step: Step) =>
  step.kind === 'run' ? step.run.id : step.kind === 'check' ? step.noted.id : step.control.id;

async function inquiry(entries: Parameters<typeof opened>[0], number: number) {
  const { logbook, assessments } = await opened(entries);
  return inquiryInto(logbook, listFailures(logbook, assessments), ids.run(number));
}

const good = goodWeeks(0);

describe('an investigation', () => {
  it('is the failed run with the runs and checks that look into it, oldest first', async () => {
    const found = await inquiry(
      [
        ...good,
        failing(3.37),
        sameDay(300, 3.36, lookingInto('repeat')),
        checkDone('volume-check', { ...lookingInto('volume-check'), doneAt: hoursLater(2) }),
        sameDay(400, 3),
      ],
      10,
    );
    expect(found?.about.id).toBe(ids.run(10));
    expect(found?.steps.map(idOf)).toEqual([`check-of-volume-check-${hoursLater(2)}`, ids.run(300)]);
  });

  it('takes in a control that looks into the run, and keeps it when it is voided', async () => {
    const found = await inquiry(
      [
        ...good,
        failing(3.37),
        subjectAdded(),
        biological(10, 25, lookingInto('biological-control')),
        biological(11, 25),
        draft('control-voided', { controlId: controlId(10), reason: 'A slip.' }),
      ],
      10,
    );
    expect(found?.steps.map(idOf)).toEqual([controlId(10)]);
    expect(found?.steps.map(isVoided)).toEqual([true]);
  });

  it('is the same one from each of its runs, over a chain of failing ones', async () => {
    const entries = [
      ...good,
      failing(3.37),
      sameDay(100, 3.36, lookingInto('repeat')),
      sameDay(200, 3.35, { ...lookingInto('other-route', 100), route: 'built-in' }),
      checkDone('biological-control', lookingInto('biological-control', 200)),
    ];
    for (const number of [10, 100, 200]) {
      const found = await inquiry(entries, number);
      expect(found?.about.id).toBe(ids.run(10));
      expect(found?.steps).toHaveLength(3);
    }
  });

  it('takes in what looks into a later run of the same failure, which nobody linked', async () => {
    const entries = [
      ...good,
      failing(3.37),
      run(11, 3.38),
      run(300, 3.4, { ...lookingInto('repeat', 11), madeAt: week(11.1) }),
    ];
    const found = await inquiry(entries, 11);
    expect(found?.about.id).toBe(ids.run(10));
    expect(found?.steps.map(idOf)).toEqual([ids.run(300)]);
  });

  it('begins anew with a failure after the closure', async () => {
    const entries = [...good, failing(3.37), closure(10, week(10.5)), run(11, 3.4)];
    expect((await inquiry(entries, 11))?.about.id).toBe(ids.run(11));
  });

  it('stays the first one where a run on another analyzer fails, too', async () => {
    const elsewhere = sameDay(300, 3.4, { ...lookingInto('other-analyzer'), analyzerId: room5 });
    expect((await inquiry([...good, failing(3.37), elsewhere], 300))?.about.id).toBe(ids.run(10));
  });

  it('keeps what was voided among its steps', async () => {
    const found = await inquiry(
      [
        ...good,
        failing(3.37),
        sameDay(300, 3.36, lookingInto('repeat')),
        draft('run-voided', { runId: ids.run(300), reason: 'Coupling was loose.' }),
      ],
      10,
    );
    expect(found?.steps.map(idOf)).toEqual([ids.run(300)]);
  });

  it('is of the run itself where that looks into one which the logbook does not have', async () => {
    expect((await inquiry([sameDay(300, 3, lookingInto('repeat', 77))], 300))?.about.id).toBe(ids.run(300));
  });

  it('ends where entries of a foreign file point at each other', async () => {
    const { logbook } = await opened([
      sameDay(100, 3, lookingInto('repeat', 200)),
      sameDay(200, 3, lookingInto('repeat', 100)),
      sameDay(300, 3, lookingInto('repeat', 300)),
    ]);
    expect(runLookedInto(logbook, [], ids.run(100))).toBeDefined();
    expect(runLookedInto(logbook, [], ids.run(300))?.id).toBe(ids.run(300));
    // Nor is a run a step of the investigation that it is about.
    expect(inquiryInto(logbook, [], ids.run(300))?.steps).toEqual([]);
  });

  it('is none where the logbook has no such run', async () => {
    expect(await inquiry(good, 99)).toBeNull();
  });
});
