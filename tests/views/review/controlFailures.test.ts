// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { controlsOfSeries } from '../../../src/views/charting/controlSeries.ts';
import { assessControls, listControlFailures } from '../../../src/views/controlAssessments.ts';
import {
  controlClosingEntry,
  controlsClosedFrom,
  readControlClosing,
} from '../../../src/views/review/controlClosing.ts';
import {
  besideLines,
  formerFailures,
  formerSentence,
  itemsOf,
  openingSentences,
  passingSince,
} from '../../../src/views/review/controlFailureWords.ts';
import { biological, controlId, session, subject, subjectAdded } from '../controlDrafts.ts';
import { baseline, draft, ids, opened, run, tenGoodRuns, week } from '../laboratory.ts';

/** Six tests with a mean of 25.00 mL/min/mmHg: the published limits about it are ±3.0, and ±12 %, which is ±3.0 too. */
const sixTests = () => [24.6, 25.4, 24.8, 25.2, 24.9, 25.1].map((dlco, index) => biological(index, dlco));

async function told(drafts: readonly EntryDraft[]) {
  const { logbook, assessments } = await opened([subjectAdded(), ...drafts]);
  const controls = assessControls(logbook);
  const failures = listControlFailures(logbook, controls);
  return { logbook, failures, sources: { logbook, assessments, controls } };
}

async function firstOf(drafts: readonly EntryDraft[]) {
  const { logbook, failures, sources } = await told(drafts);
  const [failure] = failures;
  if (failure === undefined) throw new Error('nothing failed');
  const { items, scale } = controlsOfSeries(logbook, sources.controls, failure);
  return { failure, failures, scale, items: itemsOf(failure, items), sources };
}

const opening = async (drafts: readonly EntryDraft[]) => {
  const { items, failure, scale } = await firstOf(drafts);
  const [item] = items;
  return item === undefined ? [] : openingSentences(item, failure.series, scale);
};

describe('what opened a failure of controls', () => {
  it('is each published limit of a person that it passes, with the distance in the unit and in percent', async () => {
    // 28.50 − 25.00 = 3.50, 14 % of 25.00.
    expect((await opening([...sixTests(), biological(6, 28.5)]))[0]).toBe(
      'DLCO is 3.50 mL/min/mmHg (14.0 %) above the mean of the first six tests, 25.00: outside the published ±12 % and ±3 mL/min/mmHg.',
    );
  });

  it('is the published limit of a level about its target', async () => {
    expect(await opening([session(0, { low: -2.5 })])).toEqual([
      'It reads 2.50 mL/min/mmHg below its target, 15.00: outside the published ±2 mL/min/mmHg.',
    ]);
  });

  it('is a rule in the words of tests, and one between levels by itself', async () => {
    const off = [0.1, -0.1, 0.2, -0.2, 0.1, -0.1, 0.2, -0.2, 0.1, -0.1];
    const sessions = off.map((by, index) => session(index, { low: by, high: by }));
    // SD of the ten 0.156: ±0.6 is some 4 SD on either side, inside the published ±2.0.
    const found = await opening([...sessions, session(10, { low: 0.6, high: -0.6 })]);
    expect(found).toContain('1-3s: one session beyond 3 SD.');
    expect(found).toContain('R-4s: the two levels of the session lie beyond 2 SD on opposite sides.');
  });
});

describe('what shows that it is over', () => {
  const passing = async (...later: EntryDraft[]) => {
    const { items } = await firstOf([...sixTests(), biological(6, 28.5), ...later]);
    return passingSince(items).map(({ id }) => id);
  };

  it('are the passing tests after the last that failed', async () => {
    expect(await passing()).toEqual([]);
    expect(await passing(biological(7, 25), biological(8, 28.6))).toEqual([]);
    expect(await passing(biological(7, 28.6), biological(8, 25))).toEqual([controlId(8)]);
  });

  it('are neither voided nor set aside', async () => {
    const aside = draft('control-set-aside', {
      controlId: controlId(7),
      isSetAside: true,
      reason: 'A cold.',
    });
    expect(await passing(biological(7, 25), aside)).toEqual([]);
  });
});

describe('beside the simulations', () => {
  const off = [...sixTests(), biological(10, 28.5)];

  it('a good run of the day says that it is something the syringe does not exercise, or the person', async () => {
    const { failure, sources } = await firstOf([...off, ...tenGoodRuns(), run(10, 3)]);
    const [line] = besideLines(failure, sources);
    expect(line).toMatchObject({ run: { id: ids.run(10) } });
    expect(line?.says).toMatch(/^The syringe finds nothing: /);
    expect(line?.next).toMatch(/^Test the person again, and another one/);
  });

  it('a run of another day, or one that was voided, says nothing', async () => {
    const voided = draft('run-voided', { runId: ids.run(10), reason: 'A slip.' });
    const { failure, sources } = await firstOf([...off, ...tenGoodRuns(), run(10, 3), voided]);
    expect(besideLines(failure, sources)).toEqual([]);
  });

  it('stands beside a simulator without a reading of its own', async () => {
    const { failure, sources } = await firstOf([...tenGoodRuns(), run(10, 3), session(10, { low: 2.5 })]);
    expect(besideLines(failure, sources)).toMatchObject([{ says: '', run: { id: ids.run(10) } }]);
  });
});

describe('earlier failures of the series', () => {
  it('are told with how they ended', async () => {
    const closedFirst = draft('control-closed', {
      closureId: 'closure-of-the-first',
      analyzerId: ids.analyzer,
      failures: [
        {
          series: { kind: 'biological', subjectId: subject, quantity: 'dlco' },
          openedByControlId: controlId(6),
        },
      ],
      closedAt: week(6.5),
      cause: 'Mouthpiece leaked.',
      correctiveAction: 'Replaced.',
      lookBack: 'Nobody was tested.',
      signature: null,
    });
    const { failures } = await told([...sixTests(), biological(6, 28.5), closedFirst, biological(7, 28.5)]);
    expect(failures).toHaveLength(2);
    const [first, second] = failures;
    if (first === undefined || second === undefined) throw new Error('there are not two');
    expect(formerFailures(first, failures)).toEqual([]);
    expect(formerFailures(second, failures)).toEqual([first]);
    expect(formerSentence(first)).toBe('Opened 16 Feb 2026, closed 19 Feb 2026: Mouthpiece leaked.');
  });

  it('a new baseline puts one aside', async () => {
    const { failure } = await firstOf([...sixTests(), biological(6, 28.5), baseline(week(6.5))]);
    expect(formerSentence(failure)).toBe('Opened 16 Feb 2026, put aside by the new baseline of 19 Feb 2026.');
  });
});

describe('a closing as it is typed', () => {
  const typed = {
    cause: ' A leak. ',
    correctiveAction: 'Mouthpiece replaced',
    lookBack: 'Four tested, none affected.',
    withoutProof: '',
  };

  it('is read where a later test has passed', () => {
    expect(readControlClosing(typed, true)).toEqual({
      ok: true,
      description: {
        cause: 'A leak.',
        correctiveAction: 'Mouthpiece replaced',
        lookBack: 'Four tested, none affected.',
      },
    });
  });

  it('asks why where none has, and keeps the answer with what was done', () => {
    expect(readControlClosing(typed, false)).toMatchObject({
      ok: false,
      errors: { withoutProof: expect.stringMatching(/^Say why/) },
    });
    expect(readControlClosing({ ...typed, withoutProof: 'The simulator went back' }, false)).toMatchObject({
      ok: true,
      description: {
        correctiveAction: 'Mouthpiece replaced. Closed without a passing test: The simulator went back.',
      },
    });
  });

  it('refuses what the journal could not hold, and says by how much', () => {
    const long = { ...typed, correctiveAction: 'x'.repeat(1999), withoutProof: 'Gone' };
    // 1999 and a stop, a blank, 31 of `Closed without a passing test: `, and `Gone.`: 37 beyond 2000.
    expect(readControlClosing(long, false)).toMatchObject({
      ok: false,
      errors: { correctiveAction: expect.stringMatching(/^This is 37 letters too long/) },
    });
  });

  it.each(['cause', 'correctiveAction', 'lookBack'] as const)('cannot be without its %s', (field) => {
    expect(readControlClosing({ ...typed, [field]: ' ' }, true)).toMatchObject({
      ok: false,
      errors: { [field]: expect.any(String) },
    });
  });

  it('names each series with the control that opened it, from no earlier than the last of its tests', async () => {
    const { failures } = await told([session(0, { low: 2.4, high: 2.6 })]);
    const closedAt = controlsClosedFrom(failures, '2026-01-01T00:00:00.000Z');
    expect(closedAt).toBe(week(0));
    const content = { cause: 'A leak.', correctiveAction: 'Mended.', lookBack: 'Nobody.' };
    expect(controlClosingEntry(failures, content, { by: ids.supervisor, closedAt })).toMatchObject({
      kind: 'control-closed',
      by: ids.supervisor,
      body: {
        analyzerId: ids.analyzer,
        closedAt: week(0),
        signature: null,
        ...content,
        failures: [
          { series: { kind: 'simulator', level: 'low' }, openedByControlId: controlId(0) },
          { series: { kind: 'simulator', level: 'high' }, openedByControlId: controlId(0) },
        ],
      },
    });
  });
});
