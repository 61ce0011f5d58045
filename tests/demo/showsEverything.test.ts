/** The demonstration is the app's show window: each screen finds in it what it is there to show. */
import { beforeAll, describe, expect, it } from 'vitest';
import { civilDateOf, daysBetween, rankCauses, routePairs } from '../../src/core/index.ts';
import { demonstrationEntries } from '../../src/demo/laboratory.ts';
import { type Entry, type EntryKind, readEntry } from '../../src/journal/entries.ts';
import { foldJournal } from '../../src/journal/fold.ts';
import type { Logbook, LoggedRun } from '../../src/journal/logbook.ts';
import { fittingAt, laboratoryOf, outOfService, policyStepsOf } from '../../src/journal/standing.ts';
import { assessEach } from '../../src/views/assessEach.ts';
import { builtInOnly } from '../../src/views/builtInOnly.ts';
import { closingOf } from '../../src/views/closing.ts';
import { closingWindow } from '../../src/views/closingWindow.ts';
import { fitCylinder } from '../../src/views/equipment/makeEntries.ts';
import { listFailures, openFailures } from '../../src/views/failures.ts';
import { whatIsKnown } from '../../src/views/investigationFacts.ts';
import { inquiryInto } from '../../src/views/investigations.ts';
import { dueChecks } from '../../src/views/schedule.ts';

const zone = 'Europe/Oslo';
const endAt = Date.UTC(2026, 10, 25, 9);
const now = new Date(endAt).toISOString();

let entries: readonly Entry[] = [];
let logbook: Logbook = foldJournal([]);
let { assessments } = assessEach([], logbook);
beforeAll(async () => {
  entries = await demonstrationEntries({ seed: 20_170_103, endAt, zone });
  logbook = foldJournal(entries);
  const runs = logbook.runs.map(({ simulation }) => simulation);
  assessments = assessEach(runs, logbook).assessments;
});

function analyzerIn(room: string): string {
  const found = [...logbook.analyzers.values()].find(({ description }) => description.label.startsWith(room));
  if (found === undefined) throw new Error(`no analyzer in ${room}`);
  return found.id;
}
const runsIn = (room: string): LoggedRun[] =>
  logbook.runs.filter(({ body }) => body.analyzerId === analyzerIn(room));

describe('the entries of the demonstration', () => {
  it('are of each kind that a screen has something to show of', () => {
    const written = new Set(entries.map(({ kind }) => kind));
    const shown: readonly EntryKind[] = [
      'technologist-added',
      'laboratory-described',
      'syringe-added',
      'analyzer-added',
      'analyzer-changed',
      'run-recorded',
      'run-amended',
      'run-voided',
      'cylinder-added',
      'cylinder-fitted',
      'cylinder-retired',
      'service-set',
      'syringe-dropped',
      'check-done',
      'schedule-set',
      'policy-set',
      'event-recorded',
      'baseline-started',
      'failure-closed',
      'action-taken',
      'look-back-reviewed',
      'baseline-accepted',
      'period-signed',
      'gap-explained',
      'subject-added',
      'subject-state-set',
      'subject-retired',
      'control-recorded',
      'control-voided',
      'control-closed',
    ];
    expect(written).toEqual(new Set(shown));
  });

  it('are all read by the schemas, and are few enough to be made while somebody waits', () => {
    expect(entries.filter((entry) => readEntry(entry).state !== 'known')).toEqual([]);
    expect(entries.length).toBeLessThan(1000);
  });

  it('are written in the laboratory’s own form', () => {
    expect(laboratoryOf(logbook)).toMatchObject({
      name: 'Invented lung-function laboratory',
      decimalMark: 'point',
      dateForm: 'd-mon-yyyy',
    });
  });
});

describe('the cylinders', () => {
  it('are fitted in turn, each with the event that the equipment form writes', () => {
    expect(logbook.fittings).toHaveLength(logbook.cylinders.size);
    for (const { body } of logbook.fittings) {
      const cylinder = body.cylinderId === null ? undefined : logbook.cylinders.get(body.cylinderId);
      if (cylinder === undefined) throw new Error('a fitting without a cylinder');
      const { analyzerId, fittedAt } = body;
      const [, event] = fitCylinder({ analyzerId, fittedAt }, cylinder, false, 'somebody');
      const written = logbook.events.find(
        (each) => each.body.analyzerId === analyzerId && each.body.happenedAt === fittedAt,
      );
      const { eventId: _, ...said } = { ...written?.body };
      expect(event?.body).toMatchObject(said);
    }
  });

  it('hold what their analyzer measures, and only the one fitted now is in use', () => {
    for (const { id, description } of logbook.analyzers.values()) {
      const fitted = fittingAt(logbook, id, now)?.body.cylinderId ?? '';
      const cylinder = logbook.cylinders.get(fitted);
      expect(cylinder?.retired).toBeNull();
      expect(cylinder?.description.contents.map(({ gas }) => gas)).toContain(description.tracer);
    }
    const inUse = [...logbook.cylinders.values()].filter(({ retired }) => retired === null);
    expect(inUse).toHaveLength(logbook.analyzers.size);
  });

  it('never ran out while one was fitted, and one runs out within a fortnight', () => {
    for (const { body } of logbook.fittings) {
      const cylinder = logbook.cylinders.get(body.cylinderId ?? '');
      const last = cylinder?.retired?.at ?? now;
      expect((cylinder?.description.expiresOn ?? '') >= last.slice(0, 10)).toBe(true);
    }
    const today = civilDateOf(endAt, zone);
    const soon = [...logbook.cylinders.values()].filter(({ retired, description: { expiresOn } }) => {
      return retired === null && expiresOn !== null && daysBetween(today, expiresOn) <= 14;
    });
    expect(soon).toHaveLength(1);
  });
});

describe('both routes of room 3', () => {
  it('make forty pairs and more with a small offset, and part in the last four weeks alone', () => {
    const runs = runsIn('Room 3').flatMap(({ id, simulation: { at, route, epoch } }) => {
      const one = assessments.get(id);
      if (one === undefined) return [];
      const va = { value: one.numbers.simulatedVaL, accepted: one.va.accepted };
      const dlco = { value: one.numbers.dlcoMlMinMmHg, accepted: one.dlco.accepted };
      return [{ id, at, route, epoch, va, dlco }];
    });
    const { pairs, offset } = routePairs(runs, zone);
    expect(pairs.length).toBeGreaterThanOrEqual(40);
    expect(Math.abs(offset.va?.mean ?? 1)).toBeLessThan(0.03);
    const parted = pairs.filter(({ va }) => Math.abs(va.z ?? 0) > 3);
    // Four weekly pairs, and that of the runs that looked into the last of them.
    expect(parted).toHaveLength(5);
    expect(parted).toEqual(pairs.slice(-5));
  });

  it('end in an open failure of the built-in one, looked into by four checks', () => {
    const failed = runsIn('Room 3').filter(({ body }) => body.judged?.word === 'fail');
    const [about] = failed;
    if (about === undefined) throw new Error('nothing failed');
    expect(about.body).toMatchObject({ route: 'built-in', reason: 'weekly' });
    expect(about.body.judged?.failureOpen).toBe(true);
    expect(logbook.closures.filter(({ body }) => body.analyzerId === about.body.analyzerId)).toEqual([]);
    const linked = [
      ...logbook.runs.map(({ body }) => body.investigates),
      ...logbook.checks.map(({ entry }) => entry.body.investigates),
    ].filter((link) => link?.runId === about.id);
    expect(linked.map((link) => link?.check)).toEqual([
      'repeat',
      'other-route',
      'other-analyzer',
      'volume-check',
    ]);
    const failures = listFailures(logbook, assessments);
    expect(openFailures(failures).map(({ openedBy }) => openedBy.id)).toContain(about.id);
    const inquiry = inquiryInto(logbook, failures, about.id);
    if (inquiry === null) throw new Error('nothing is looked into');
    expect(inquiry.steps).toHaveLength(4);
    const [likeliest] = rankCauses(whatIsKnown(inquiry, logbook, assessments).seen).causes;
    expect(likeliest?.id).toBe('route-setting');
  });
});

describe('the slow leak of room 7', () => {
  it('is the other failure that is open, dated within two weeks of when it began, with its cause in front', () => {
    const failures = listFailures(logbook, assessments);
    const [leak, ...more] = openFailures(failures).filter(
      ({ analyzerId }) => analyzerId === analyzerIn('Room 7'),
    );
    if (leak === undefined) throw new Error('nothing leaks');
    expect([more, openFailures(failures)]).toEqual([[], expect.toSatisfy((all) => all.length === 2)]);
    expect(leak.openedBy.body).toMatchObject({ reason: 'weekly', judged: { word: 'fail' } });
    expect(assessments.get(leak.openedBy.id)?.numbers.vaWithinPublished).toBe(true);
    // The scenario's truth: it leaks from the run of the day on which the valve was taken out.
    const began = logbook.events.find(({ body }) => body.description.startsWith('Valve of the sample bag'));
    const truth = Date.parse(began?.body.happenedAt ?? '');
    const { likely, drift } = closingWindow(leak, { logbook, assessments, now: endAt });
    const offBy = (at: number | null | undefined) => Math.abs((at ?? 0) - truth) / 86_400_000;
    expect(offBy(drift?.after)).toBeLessThan(14);
    expect(offBy(drift?.before)).toBeLessThan(14);
    expect(offBy(((likely?.after ?? 0) + (likely?.before ?? 0)) / 2)).toBeLessThan(14);
    const inquiry = inquiryInto(logbook, failures, leak.openedBy.id);
    if (inquiry === null) throw new Error('nothing is looked into');
    const causes = rankCauses(whatIsKnown(inquiry, logbook, assessments).seen).causes.map(({ id }) => id);
    expect(causes.indexOf('sample-diluted')).toBeLessThan(2);
    expect(causes).toContain('sample-diluted');
  });
});

describe('a failure that was closed', () => {
  it('has its action, a look-back over the whole window and the runs that prove it, as the app asks for them', () => {
    const closed = listFailures(logbook, assessments).filter(({ ended }) => ended?.by === 'closure');
    expect(closed).toHaveLength(2);
    for (const failure of closed) {
      const closing = closingOf(failure, { logbook, assessments });
      expect(closing.missing).toEqual([]);
      if (failure.ended?.by !== 'closure') throw new Error('not closed');
      const { body } = failure.ended.closure;
      expect(body.proofRunIds).toEqual(closing.proof.runs.map(({ id }) => id));
      expect(body.correctiveAction).toBe(closing.actions.map((action) => action.body.what).join(' '));
      expect(body.cause).not.toBe('');
      const window = closingWindow(failure, { logbook, assessments, now: endAt });
      expect(Date.parse(closing.lookBacks[0]?.body.from ?? '')).toBeLessThanOrEqual(window.from ?? 0);
    }
  });
});

describe('the day on which the demonstration ends', () => {
  it.each([0, 1, 2, 3, 4, 5, 6])(
    'has something overdue, due today and announced, and one out of service, %i days on',
    async (days) => {
      const at = endAt + days * 24 * 3600_000;
      const then = foldJournal(await demonstrationEntries({ seed: 20_170_103, endAt: at, zone }));
      const states = new Set(dueChecks(then, at, zone).map(({ due }) => due.state));
      for (const state of ['overdue', 'today', 'soon', 'later', 'paused']) expect(states).toContain(state);
      const out = [...then.analyzers.values()].filter(
        ({ id }) => outOfService(then, id, new Date(at).toISOString()) !== null,
      );
      expect(out.map(({ description }) => description.place)).toEqual(['Room 6']);
      expect(builtInOnly(then, at, zone).map(({ label }) => label)).toEqual(['Room 5 sample-bag']);
    },
  );
});

describe('room 1', () => {
  it('was out of service for three weeks, without a run, and is back by the supervisor', () => {
    const [out, back] = logbook.services.filter(({ body }) => body.analyzerId === analyzerIn('Room 1'));
    if (out === undefined || back === undefined) throw new Error('never out of service');
    expect([out.body.inService, back.body.inService]).toEqual([false, true]);
    expect(
      daysBetween(
        civilDateOf(Date.parse(out.body.from), zone),
        civilDateOf(Date.parse(back.body.from), zone),
      ),
    ).toBe(21);
    expect(logbook.technologists.get(back.by)?.role).toBe('supervisor');
    const within = runsIn('Room 1').filter(
      ({ body }) => body.madeAt > out.body.from && body.madeAt < back.body.from,
    );
    expect(within).toEqual([]);
  });
});

describe('what else was done', () => {
  it('is a fall of the syringe with its leak check on the same day', () => {
    const [drop] = logbook.drops;
    const after = logbook.checks.filter(({ entry: { body } }) => {
      const day = body.doneAt.slice(0, 10);
      return body.check === 'syringe-leak' && day === drop?.body.droppedAt.slice(0, 10);
    });
    expect(after.map(({ entry }) => entry.body.syringeId)).toEqual([drop?.body.syringeId]);
  });

  it('is a volume check a week in the last twelve on every analyzer, linearity every fourth', () => {
    const counts = new Map<string, number>();
    for (const { entry } of logbook.checks) {
      const key = `${entry.body.check} ${entry.body.investigates?.check ?? ''}`;
      counts.set(key, (counts.get(key) ?? 0) + 1);
    }
    expect(Object.fromEntries(counts)).toEqual({
      'volume-check ': 7 * 12,
      'volume-check volume-check': 2,
      'linearity ': 19 + 5,
      'syringe-leak ': 3,
      'syringe-calibration ': 1,
      'barometer ': 1,
    });
  });

  it('is one run amended, one voided, two schedules and one policy set with their reasons', () => {
    const amended = logbook.runs.filter(({ amendments }) => amendments.length > 0);
    expect(amended).toHaveLength(1);
    const [run] = amended;
    const typed = run?.entry.body.ambient.temperatureC ?? 0;
    expect(typed - (run?.body.ambient.temperatureC ?? 0)).toBeCloseTo(3, 9);
    expect(run?.amendments[0]?.body.reason).toContain(typed.toFixed(1));
    expect(logbook.runs.filter(({ voided }) => voided !== null)).toHaveLength(1);
    expect(logbook.schedules.map(({ body }) => body.reason)).toEqual([
      'Carried from room to room.',
      'Kept in here once a week; the daily ones stay on the sheet beside the analyzer.',
    ]);
    const [step] = policyStepsOf(logbook, analyzerIn('Room 3'));
    expect(step?.policy.severity['7T']).toBe('action');
    expect(logbook.policies).toHaveLength(1);
  });

  it('is the filter counted in the dead space, and a thermometer in °F kept as typed', () => {
    for (const { body } of runsIn('Room 5')) {
      expect(body.attached).toEqual([{ name: 'Filter', volumeL: 0.04 }]);
      expect(body.syringe.deadSpaceL).toBe(0.15);
    }
    for (const { body } of runsIn('Room 6')) {
      expect(body.temperatureAsTyped?.unit).toBe('°F');
      const fahrenheit = body.temperatureAsTyped?.value ?? Number.NaN;
      // 68 °F is 20 °C, 77 °F is 25 °C: five degrees for nine.
      expect(body.ambient.temperatureC).toBeCloseTo(20 + ((fahrenheit - 68) * 5) / 9, 9);
    }
  });
});
