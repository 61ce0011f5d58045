// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { entrySchema } from '../../../src/journal/entries.ts';
import type { ClosingWindow } from '../../../src/views/closingWindow.ts';
import { listFailures } from '../../../src/views/failures.ts';
import { localMinute } from '../../../src/views/parts/localTime.ts';
import {
  type ActionDraft,
  actionEntries,
  readAction,
  somebodyElse,
} from '../../../src/views/review/readAction.ts';
import { type LookBackDraft, lookBackEntries, readLookBack } from '../../../src/views/review/readLookBack.ts';
import { daysWords, onsetSentences, uncoveredSentence, windowRows } from '../../../src/views/windowWords.ts';
import { sealChain } from '../../journal/fixtures.ts';
import { ids, opened, run, week } from '../laboratory.ts';

const at = (index: number) => Date.parse(week(index));
const now = at(3);

async function failure() {
  const { logbook, assessments } = await opened([run(0, 3), run(1, 3.37)]);
  const [found] = listFailures(logbook, assessments);
  if (found === undefined) throw new Error('no failure');
  return found;
}

describe('the form of an action', () => {
  const draft: ActionDraft = {
    what: ' Sample line replaced. ',
    doneAt: localMinute(at(1.5)),
    who: ids.technologist,
    part: '',
    type: 'part',
    isEvent: true,
  };
  const errorsOf = async (changes: Partial<ActionDraft>) => {
    const reading = readAction({ ...draft, ...changes }, { failures: [await failure()], now });
    return reading.ok ? {} : reading.errors;
  };

  it('is written with the event that says the same, in one save', async () => {
    const about = [await failure()];
    const reading = readAction(draft, { failures: about, now });
    if (!reading.ok) throw new Error('refused');
    const entries = actionEntries(reading.description, about, ids.supervisor);
    expect(entries.map(({ kind }) => kind)).toEqual(['event-recorded', 'action-taken']);
    const [event, action] = entries;
    expect(event?.body).toMatchObject({
      type: 'part',
      description: 'Sample line replaced.',
      happenedAt: week(1.5),
    });
    expect(action?.body).toMatchObject({
      what: 'Sample line replaced.',
      technologistId: ids.technologist,
      eventId: event?.kind === 'event-recorded' ? event.body.eventId : 'none',
      failures: [{ quantity: 'va', openedByRunId: ids.run(1) }],
    });
    for (const entry of await sealChain(entries)) expect(entrySchema.safeParse(entry).success).toBe(true);
  });

  it('is written alone where the event is recorded already, by somebody who is not of the laboratory', async () => {
    const about = [await failure()];
    const reading = readAction({ ...draft, isEvent: false, who: somebodyElse }, { failures: about, now });
    if (!reading.ok) throw new Error('refused');
    const [action, ...more] = actionEntries(reading.description, about, ids.supervisor);
    expect(more).toEqual([]);
    expect(action?.body).toMatchObject({ technologistId: null, eventId: null });
  });

  it('needs what, who and a time that is neither to come nor before the failing run', async () => {
    expect(await errorsOf({})).toEqual({});
    expect(Object.keys(await errorsOf({ what: ' ', who: '', doneAt: '' }))).toEqual([
      'what',
      'doneAt',
      'who',
    ]);
    expect((await errorsOf({ doneAt: localMinute(at(4)) })).doneAt).toMatch(/still to come/);
    expect((await errorsOf({ doneAt: localMinute(at(0.9)) })).doneAt).toMatch(/before the failing run/);
    expect(await errorsOf({ doneAt: localMinute(at(1)) })).toEqual({});
  });
});

describe('the form of a look-back', () => {
  const draft: LookBackDraft = {
    from: localMinute(at(0)),
    to: localMinute(at(2)),
    reviewerId: ids.supervisor,
    outcome: 'results-corrected',
    tested: '9',
    affected: '2',
    note: '',
  };
  const read = (changes: Partial<LookBackDraft>) => readLookBack({ ...draft, ...changes }, now);
  const errorsOf = (changes: Partial<LookBackDraft>) => {
    const reading = read(changes);
    return reading.ok ? {} : reading.errors;
  };

  it('keeps the time, the outcome and the counts, and is an entry that the journal takes', async () => {
    const reading = read({});
    if (!reading.ok) throw new Error('refused');
    expect(reading.description).toMatchObject({
      from: week(0),
      to: week(2),
      testedCount: 9,
      affectedCount: 2,
    });
    const entries = lookBackEntries(reading.description, [await failure()], ids.supervisor);
    for (const entry of await sealChain(entries)) expect(entrySchema.safeParse(entry).success).toBe(true);
  });

  it('counts nobody where nobody was tested, and nobody affected where none was', () => {
    expect(read({ outcome: 'nobody-tested', tested: 'x' })).toMatchObject({
      description: { testedCount: 0, affectedCount: 0 },
    });
    expect(read({ outcome: 'none-affected', affected: '' })).toMatchObject({
      description: { affectedCount: 0 },
    });
    expect(read({ outcome: 'referred', tested: '', affected: '' })).toMatchObject({
      description: { testedCount: null, affectedCount: null },
    });
  });

  it('says beside the field what cannot be', () => {
    expect(errorsOf({ from: '', to: '', reviewerId: '', outcome: '' })).toMatchObject({
      from: expect.any(String),
      to: expect.any(String),
      reviewerId: expect.any(String),
      outcome: expect.any(String),
    });
    expect(errorsOf({ to: localMinute(at(-1)) }).to).toMatch(/before the beginning/);
    expect(errorsOf({ to: localMinute(at(4)) }).to).toMatch(/still to come/);
    expect(errorsOf({ affected: '10' }).affected).toMatch(/More affected than tested/);
    expect(errorsOf({ outcome: 'none-affected' }).affected).toMatch(/None affected, and yet a number/);
    expect(errorsOf({ affected: '0' }).affected).toMatch(/somebody was affected/);
    expect(errorsOf({ tested: '2.5' }).tested).toMatch(/not a whole number/);
    expect(errorsOf({ tested: 'nine' }).tested).toMatch(/not a number/);
  });
});

describe('the window in words', () => {
  const window: ClosingWindow = {
    firstFailing: at(10),
    lastGood: at(9),
    lastGoodIsInDoubt: true,
    likely: { after: at(7), before: at(8) },
    drift: { after: at(5), before: at(6) },
    earliest: at(3),
    from: at(3),
    inService: [{ from: at(10), to: at(10.5) }],
    stopped: at(10.5),
    to: at(10.5),
  };

  it('says when it began as a step and as a drift, and how early it may have been', () => {
    expect(onsetSentences(window)).toEqual([
      'If it came at once, it most likely began between 23 Feb 2026 and 2 Mar 2026; if it has grown steadily, between 9 Feb 2026 and 16 Feb 2026.',
      'The runs also allow a beginning as early as just after 26 Jan 2026.',
      'Runs that passed since then, the last on 9 Mar 2026, may have been made with the fault.',
    ]);
  });

  it('says it once where both agree, and that nothing tells where nothing does', () => {
    const sudden = { after: at(9), before: at(10) };
    const sure = { likely: sudden, drift: sudden, earliest: at(9), lastGoodIsInDoubt: false };
    expect(onsetSentences({ ...window, ...sure })).toEqual([
      'It most likely began between 9 Mar 2026 and 16 Mar 2026.',
    ]);
    const silent = { likely: null, drift: null, earliest: undefined, lastGoodIsInDoubt: false };
    expect(onsetSentences({ ...window, ...silent })).toEqual([
      'The runs show no onset of their own: it began between the last good run, 9 Mar 2026, and the failing one, 16 Mar 2026.',
    ]);
    expect(onsetSentences({ ...window, ...silent, lastGood: null })).toEqual([
      'No run before the failing one was good: nothing tells when it began.',
    ]);
  });

  it('tells the days that are certain from those that are possible', () => {
    const rows = new Map(windowRows(window, true).map(({ name, value }) => [name, value]));
    expect(rows.get('Possibly wrong')).toBe('49 days, up to the failing run');
    // 3.5 of 52.5 days.
    expect(rows.get('Certainly in doubt')).toBe('4 days in service after the failing run: 7 % of the window');
    const stopOf = (isOpen: boolean) =>
      windowRows({ ...window, stopped: null }, isOpen).find(({ name }) => name === 'Stopped')?.value;
    expect([stopOf(true), stopOf(false)]).toEqual([
      'not yet: it is in service with the failure open',
      'never: it was in service to the end',
    ]);
    const outOfService = windowRows({ ...window, inService: [], stopped: at(10), to: at(10) }, true);
    expect(outOfService.at(-1)?.value).toMatch(/^no time/);
    expect([0, 0.4, 1, 13.6].map(daysWords)).toEqual([
      'less than a day',
      'less than a day',
      '1 day',
      '14 days',
    ]);
  });

  it('says what no review has covered, and nothing of a window that still grows', () => {
    const review = (from: number, to: number) => ({ from: week(from), to: week(to) });
    expect(uncoveredSentence(window, [])).toBeNull();
    expect(uncoveredSentence(window, [review(3, 10.5)])).toBeNull();
    expect(uncoveredSentence(window, [review(3, 6), review(6, 10.5)])).toBeNull();
    expect(uncoveredSentence(window, [review(4, 10)])).toMatch(
      /^Not looked at of the window: from 26 Jan .* to 2 Feb .*; from 16 Mar .* to 19 Mar /,
    );
    expect(uncoveredSentence(window, [review(7, 10.5), review(3, 6)])).toMatch(
      /window: from 16 Feb .* to 23 Feb [^;]*$/,
    );
    expect(uncoveredSentence({ ...window, from: null }, [review(8, 10.5)])).toBeNull();
    expect(uncoveredSentence({ ...window, stopped: null }, [review(3, 10)])).toBeNull();
  });
});
