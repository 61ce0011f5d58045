// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { EntryBody, EntryDraft } from '../../src/journal/entries.ts';
import { closingOf, reopens } from '../../src/views/closing.ts';
import { closingWindow, shareOf } from '../../src/views/closingWindow.ts';
import { listFailures } from '../../src/views/failures.ts';
import {
  actionTaken,
  baseline,
  closingRules,
  closure,
  draft,
  ids,
  lookBackReviewed,
  opened,
  run,
  tenGoodRuns,
  week,
} from './laboratory.ts';

// 3.37 L is 370 mL from 3 L: beyond the published 300.
const far = 3.37;
const fromTo = { from: week(0), to: week(2) };

/** The failure that was opened by the run of that number, in the whole logbook. */
async function failureIn(drafts: readonly EntryDraft[], index = 1) {
  const { logbook, assessments } = await opened(drafts);
  const failures = listFailures(logbook, assessments);
  const failure = failures.find(({ openedBy }) => openedBy.id === ids.run(index));
  if (failure === undefined) throw new Error(`run ${index} opened no failure`);
  return { failure, failures, logbook, assessments };
}

async function closingIn(drafts: readonly EntryDraft[], index = 1) {
  const { failure, ...sources } = await failureIn(drafts, index);
  return closingOf(failure, sources);
}

const numbers = (runs: readonly { id: string }[]) =>
  runs.map(({ id }) => Number(id.replace('run-number-', '')));

describe('what a closure needs', () => {
  it('is an action, a passing run after it and a look-back where the laboratory has set nothing', async () => {
    const opens = [run(0, 3), run(1, far)];
    expect((await closingIn(opens)).missing).toEqual(['action', 'proof', 'look-back']);
    const acted = [...opens, actionTaken(1, week(1.5))];
    expect((await closingIn(acted)).missing).toEqual(['proof', 'look-back']);
    const proven = [...acted, run(2, 3)];
    expect((await closingIn(proven)).missing).toEqual(['look-back']);
    expect((await closingIn([...proven, lookBackReviewed(1, fromTo)])).missing).toEqual([]);
  });

  it('is what the laboratory set last, and a step that it does not ask for is optional', async () => {
    const drafts = [run(0, 3), run(1, far), run(2, 3), closingRules({ proofRuns: 2 })];
    expect(await closingIn(drafts)).toMatchObject({ required: ['proof'], missing: ['proof'] });
    expect((await closingIn([...drafts, run(3, 3)])).missing).toEqual([]);
    const stricter = closingRules({ closingRulesId: 'closing-rules-later', needsLookBack: true });
    expect((await closingIn([...drafts, run(3, 3), stricter])).missing).toEqual(['look-back']);
  });

  it('asks for no run of an analyzer that is retired', async () => {
    const retired = draft('analyzer-retired', { analyzerId: ids.analyzer, reason: 'Worn out.' });
    const closing = await closingIn([run(0, 3), run(1, far), closingRules(), retired]);
    expect(closing).toMatchObject({ required: [], missing: [] });
  });
});

describe('the runs that prove a repair', () => {
  const proofOf = async (...drafts: EntryDraft[]) =>
    (await closingIn([...tenGoodRuns(), run(10, far), ...drafts, closingRules({ proofRuns: 2 })], 10)).proof;

  it('come after the last failing one: an earlier pass is forgotten', async () => {
    expect(numbers((await proofOf(run(11, 3), run(12, far), run(13, 3))).runs)).toEqual([13]);
  });

  it('come after the last action, of which two were needed', async () => {
    const proof = await proofOf(
      actionTaken(10, week(10.5)),
      run(11, 3),
      actionTaken(10, week(11.5)),
      run(12, 3),
    );
    expect(numbers(proof.runs)).toEqual([12]);
    expect(proof).toMatchObject({ needed: 2, after: 'action' });
  });

  // SD 0.0216 L: 3.05 is z 2.3, a warning; it neither proves nor takes a proof away.
  it('lie inside own 2 SD; one that only warns neither proves nor undoes', async () => {
    expect(numbers((await proofOf(run(11, 3), run(12, 3.05), run(13, 3.01))).runs)).toEqual([11, 13]);
  });

  it('are not held to a pattern that began before the action, and are to one that began after it', async () => {
    // Nine in a row above the mean, the last of which fails by its fourth beyond 1 SD.
    const high = [3.01, 3.01, 3.01, 3.01, 3.01, 3.03, 3.03, 3.03, 3.03].map((va, index) =>
      run(10 + index, va),
    );
    const about = [...tenGoodRuns(), ...high, actionTaken(18, week(18.5)), closingRules()];
    const proving = async (...values: number[]) => {
      const runs = values.map((va, index) => run(19 + index, va));
      return numbers((await closingIn([...about, ...runs], 18)).proof.runs);
    };
    // The tenth in a row above the mean breaks 10x, with nine from before the repair.
    expect(await proving(3.01)).toEqual([19]);
    expect(await proving(3.01, 3.2)).toEqual([]);
    expect(await proving(3.03, 3.03, 3.03, 3.03)).toEqual([]);
  });

  it('are neither voided nor set aside', async () => {
    const aside = draft('run-set-aside', { runId: ids.run(11), isSetAside: true, reason: 'Wrong gas.' });
    const voided = draft('run-voided', { runId: ids.run(12), reason: 'Wrong syringe.' });
    expect(numbers((await proofOf(run(11, 3), run(12, 3), aside, voided)).runs)).toEqual([]);
  });

  it('are of the same route and quantity', async () => {
    const other = run(11, 3, { route: 'built-in' });
    const dlcoOut = run(12, 3, { dlco: 0.6 });
    expect(numbers((await proofOf(other, dlcoOut)).runs)).toEqual([12]);
  });
});

describe('an action or a look-back', () => {
  it('belongs to the failure that it names, and not to a later one of the series', async () => {
    const drafts = [
      run(1, far),
      actionTaken(1, week(1.2)),
      lookBackReviewed(1, fromTo),
      run(2, 3),
      closure(1, week(2.5)),
      run(3, far),
    ];
    expect((await closingIn(drafts)).actions).toHaveLength(1);
    const later = await closingIn(drafts, 3);
    expect([later.actions, later.lookBacks]).toEqual([[], []]);
  });

  it('stays where the run that it names was voided and the next one opens the failure', async () => {
    const voided = draft('run-voided', { runId: ids.run(1), reason: 'A slip.' });
    const drafts = [run(1, far), run(2, far), actionTaken(1, week(2.2)), voided];
    expect((await closingIn(drafts, 2)).actions).toHaveLength(1);
  });

  it('is of its quantity alone', async () => {
    const { logbook, assessments } = await opened([run(1, far, { dlco: 0.6 }), actionTaken(1, week(1.2))]);
    const actions = listFailures(logbook, assessments).map((failure) => [
      failure.series.quantity,
      closingOf(failure, { logbook, assessments }).actions.length,
    ]);
    expect(actions).toEqual([
      ['va', 1],
      ['dlco', 0],
    ]);
  });
});

describe('a failure that comes again', () => {
  const again = async (drafts: readonly EntryDraft[], index: number) => {
    const { failure, failures, logbook } = await failureIn(drafts, index);
    return reopens(failure, failures, logbook)?.former.openedBy.id ?? null;
  };
  const closed = [run(1, far), closure(1, week(1.5))];

  it('reopens the one before it where the first run after the closure fails', async () => {
    expect(await again([...closed, run(2, far)], 2)).toBe(ids.run(1));
  });

  it('does so across the new baseline that a repair started', async () => {
    expect(await again([...closed, baseline(week(1.6)), run(2, far)], 2)).toBe(ids.run(1));
  });

  it('is another story after a good run, on another route, and the first of all', async () => {
    expect(await again([...closed, run(2, 3), run(3, far)], 3)).toBeNull();
    expect(await again([...closed, run(2, far, { route: 'built-in' })], 2)).toBeNull();
    expect(await again(closed, 1)).toBeNull();
  });

  it('still reopens it where the run between was voided', async () => {
    const voided = draft('run-voided', { runId: ids.run(2), reason: 'Wrong gas.' });
    expect(await again([...closed, run(2, 3), run(3, far), voided], 3)).toBe(ids.run(1));
  });
});

describe('the window that is looked back on', () => {
  const service = (from: string, inService: boolean): EntryDraft => {
    const body: EntryBody<'service-set'> = {
      serviceId: `service-from-${from}`,
      analyzerId: ids.analyzer,
      inService,
      from,
      reason: 'Failing.',
    };
    return draft('service-set', body);
  };
  const windowOf = async (drafts: readonly EntryDraft[], index = 10, now = week(13)) => {
    const { failure, ...sources } = await failureIn(drafts, index);
    return closingWindow(failure, { ...sources, now: Date.parse(now) });
  };
  const at = (index: number) => Date.parse(week(index));

  it('of a sudden fault goes from the last good run to now, while nothing has stopped it', async () => {
    const window = await windowOf([...tenGoodRuns(), run(10, far)]);
    expect(window).toMatchObject({
      lastGood: at(9),
      from: at(9),
      firstFailing: at(10),
      stopped: null,
      to: at(13),
      likely: { after: at(9), before: at(10) },
    });
    expect(shareOf(window)).toEqual({ certainDays: 21, possibleDays: 7 });
  });

  it('ends where it was taken out of service, and nothing is certain where that was before the failing run', async () => {
    const stopped = await windowOf([...tenGoodRuns(), run(10, far), service(week(10.5), false)]);
    expect(stopped).toMatchObject({ stopped: at(10.5), to: at(10.5) });
    expect(shareOf(stopped).certainDays).toBeCloseTo(3.5, 9);
    const before = await windowOf([...tenGoodRuns(), service(week(9.5), false), run(10, far)]);
    expect(before).toMatchObject({ stopped: at(10), to: at(10), inService: [] });
  });

  it('takes in the time for which it was put back while the failure was open', async () => {
    const drafts = [...tenGoodRuns(), run(10, far), service(week(10.5), false), service(week(11), true)];
    const window = await windowOf([...drafts, service(week(12), false)]);
    expect(window.inService).toEqual([
      { from: at(10), to: at(10.5) },
      { from: at(11), to: at(12) },
    ]);
    expect(shareOf(window).certainDays).toBeCloseTo(10.5, 9);
    expect((await windowOf(drafts)).to).toBe(at(13));
  });

  it('ends with the closure, whatever was said of the service later', async () => {
    const drafts = [...tenGoodRuns(), run(10, far), closure(10, week(11)), service(week(12), false)];
    expect(await windowOf(drafts)).toMatchObject({ stopped: null, to: at(11) });
  });

  it('of a slow fault goes back past runs that passed', async () => {
    // z of 1.9, 1.9, 1.9 and 3.7.
    const slow = [run(10, 3.04), run(11, 3.04), run(12, 3.04), run(13, 3.08)];
    const window = await windowOf([...tenGoodRuns(), ...slow], 13, week(14));
    expect(window).toMatchObject({ lastGood: at(12), lastGoodIsInDoubt: true });
    // Before the tenth run nothing was judged: the ninth is the last of the baseline that the others are measured by.
    expect(window.likely).toEqual({ after: at(9), before: at(10) });
    expect(window.from).toBe(at(9));
  });

  it('has no last good run where the first of all fails', async () => {
    const window = await windowOf([run(1, far)], 1, week(1));
    expect(window).toMatchObject({ lastGood: null, from: null, likely: null, inService: [] });
    expect(shareOf(window).possibleDays).toBeNull();
  });
});
