// @vitest-environment node
/**
 * The table of section "from pattern to likely cause" walked row by row as whole logbooks. The pairing of pattern and cause
 * follows from the syringe's mass balance and the single-breath equation, or is common practice; see core/causeTable.ts.
 */
import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../src/journal/entries.ts';
import { listFailures } from '../../src/views/failures.ts';
import { nextChecks, weighInquiry } from '../../src/views/investigationChecks.ts';
import { inquiryInto } from '../../src/views/investigations.ts';
import { analyzerAdded } from '../journal/fixtures.ts';
import { biological, controlId, judgedAs, session, subject, subjectAdded } from './controlDrafts.ts';
import {
  causesOf,
  checkDone,
  event,
  evidenceIn,
  failing,
  goodWeeks,
  hoursLater,
  investigated,
  lookingInto,
  room5,
  room7,
  sameDay,
  sentencesOf,
  twoAnalyzers,
} from './investigationFixtures.ts';
import { draft, ids, opened, week } from './laboratory.ts';

const room2 = goodWeeks(0);
const others = [...goodWeeks(1000, { analyzerId: room5 }), ...goodWeeks(2000, { analyzerId: room7 })];
/** The volume check of a run that reads VA as reported: 3.00 L is expected at the fixed factor 1. */
const readingOf = (vaL: number, volumeCheckL?: number, dlco = 0.01) => ({
  reading: {
    vaL,
    vaReportedAs: 'BTPS' as const,
    dlco,
    dlcoUnit: 'mL/min/mmHg' as const,
    ...(volumeCheckL === undefined ? {} : { volumeCheckL }),
  },
});

describe('from what the logbook holds to the likely cause', () => {
  it('volume check and VA off the same way by about the same: volume or flow is measured wrongly', async () => {
    // −6.7 % and −6 %.
    const found = await investigated([...room2, failing(2.8, readingOf(2.8, 2.82))]);
    expect(causesOf(found)[0]).toBe('volume-measurement');
    expect(sentencesOf(found)).toContain('Volume check of 16 Mar 2026: 6.0 % low, limit ±3 %.');
  });

  it('volume check good, VA high, DLCO good: dilution or a dead space left out, and not the volume', async () => {
    const found = await investigated([...room2, failing(3.2, readingOf(3.2, 3.01))]);
    expect(causesOf(found).slice(0, 2).sort()).toEqual(['dead-space-left-out', 'sample-diluted']);
    expect(causesOf(found)).not.toContain('volume-measurement');
  });

  it('volume check good, VA low, DLCO good: gas not purged or a dead space taken off twice', async () => {
    const found = await investigated([...room2, failing(2.85, readingOf(2.85, 2.99))]);
    expect(causesOf(found).slice(0, 2).sort()).toEqual(['dead-space-twice', 'sample-not-purged']);
  });

  it('DLCO off zero with a good VA: the gas analyzers disagree', async () => {
    const found = await investigated([...room2, failing(3.01, { dlco: 0.9 })]);
    expect(found.off).toBe('dlco');
    expect(causesOf(found)[0]).toBe('gas-analyzers-disagree');
  });

  it('the biological control that was made last counts, whichever was written down last', async () => {
    const control = (hours: number, outcome: 'passed' | 'failed') =>
      checkDone('biological-control', { doneAt: hoursLater(hours), outcome });
    const found = await investigated([...room2, failing(3.2), control(2, 'passed'), control(1, 'failed')]);
    expect(sentencesOf(found)).toContain('Biological control of 16 Mar 2026: passed.');
  });

  it('a new name of the analyzer is no work on it: a check made after that still counts', async () => {
    const changed = (changes: Partial<typeof analyzerAdded>) =>
      draft('analyzer-changed', { ...analyzerAdded, ...changes, reason: 'As it is now.' });
    const check = checkDone('volume-check', {
      doneAt: '2026-03-16T20:00:00.000Z',
      volume: { expectedL: 3, readL: [2.82], limitFraction: 0.025 },
      outcome: 'failed',
    });
    // The laboratory's entries are written a minute apart: these from 18:00 on the day of the run.
    const found = async (changes: Partial<typeof analyzerAdded>) => {
      const entries = [...room2, failing(2.8), changed(changes), check];
      const { logbook, assessments } = await opened(entries, undefined, '2026-03-16T18:00:00.000Z');
      const inquiry = inquiryInto(logbook, listFailures(logbook, assessments), ids.run(10));
      if (inquiry === null) throw new Error('the logbook has no run 10');
      return sentencesOf(weighInquiry(inquiry, { logbook, assessments, now: week(11) }));
    };
    const sentence = 'Volume check of 16 Mar 2026: 6.0 % low, limit ±2.5 %.';
    expect(await found({ label: 'Room 2b', place: 'Second floor' })).toContain(sentence);
    expect(await found({ analyzerDeadSpaceL: 0.2 })).not.toContain(sentence);
  });

  it('a cylinder that was fitted is told once, though its event says so too', async () => {
    const fittedAt = '2026-03-12T08:00:00.000Z';
    const found = await investigated([
      ...room2,
      failing(3.2),
      draft('cylinder-added', {
        cylinderId: 'cylinder-9',
        label: 'Gas 9',
        serial: '',
        contents: [{ gas: 'CO', fraction: 0.003 }],
        expiresOn: null,
      }),
      draft('cylinder-fitted', {
        fittingId: 'fitting-9',
        analyzerId: ids.analyzer,
        cylinderId: 'cylinder-9',
        fittedAt,
      }),
      event('cylinder', fittedAt, 'Gas 9 fitted: CO 0.3 %.'),
    ]);
    expect(sentencesOf(found).filter((sentence) => sentence.includes('Gas 9'))).toEqual([
      '12 Mar 2026, when it may have begun: Cylinder: Gas 9 fitted: CO 0.3 %.',
    ]);
  });

  it('one route off and the other good on the same day: what only that route uses', async () => {
    const builtIn = { route: 'built-in' as const };
    const found = await investigated([
      ...room2,
      ...goodWeeks(3000, builtIn),
      failing(3.2),
      sameDay(50, 3.01, builtIn),
    ]);
    expect(causesOf(found)[0]).toBe('route-setting');
    expect(sentencesOf(found)).toContain('Built-in routine: VA is good.');
    // A week before says nothing of the day.
    const before = await investigated([...room2, ...goodWeeks(3000, builtIn), failing(3.2)]);
    expect(evidenceIn(before)).not.toContain('other-route-good');
  });

  it('one syringe fault on three analyzers on the same day: what they share', async () => {
    const found = await investigated([
      ...room2,
      ...others,
      failing(3.2),
      sameDay(50, 3.21, { analyzerId: room5 }),
      sameDay(60, 3.19, { analyzerId: room7 }),
    ]);
    expect(causesOf(found)[0]).toBe('shared');
    expect(
      found.facts.filter(({ key }) => key.startsWith('across')).flatMap(({ runs }) => runs),
    ).toHaveLength(2);
  });

  it('one analyzer moved, the others with the same syringe did not: that analyzer, and not what they share', async () => {
    const found = await investigated([
      ...room2,
      ...others,
      failing(3.2),
      sameDay(50, 3.01, { analyzerId: room5 }),
      sameDay(60, 2.99, { analyzerId: room7 }),
    ]);
    expect(evidenceIn(found)).toContain('only-this-analyzer-moved');
    expect(causesOf(found)).not.toContain('shared');
  });

  it('runs with another syringe are not weighed against each other', async () => {
    const found = await investigated([
      ...room2,
      ...others,
      failing(3.2),
      sameDay(50, 3.21, {
        analyzerId: room5,
        syringeId: 'syringe-of-another-room',
        ...lookingInto('other-analyzer'),
      }),
      sameDay(60, 3.2, { analyzerId: room7, syringeId: 'syringe-of-another-room' }),
      sameDay(70, 3.01, { route: 'built-in', syringeId: 'syringe-of-another-room' }),
    ]);
    expect(evidenceIn(found)).not.toContain('all-analyzers-moved');
    expect(evidenceIn(found)).not.toContain('other-route-good');
  });

  it('a laboratory of two analyzers can tell as well', async () => {
    const entries = [...room2, ...goodWeeks(1000, { analyzerId: room5 }), failing(3.2)];
    const laboratory = twoAnalyzers();
    const stayed = [...entries, sameDay(50, 3.01, { analyzerId: room5 })];
    expect(evidenceIn(await investigated(stayed, { laboratory }))).toContain('only-this-analyzer-moved');
    const moved = [...entries, sameDay(50, 3.19, { analyzerId: room5 })];
    expect(causesOf(await investigated(moved, { laboratory }))[0]).toBe('shared');
    const apart = [...entries, sameDay(50, 2.8, { analyzerId: room5 })];
    expect(evidenceIn(await investigated(apart, { laboratory }))).not.toContain('all-analyzers-moved');
  });

  it('a step that begins at a logged event: that event', async () => {
    const cylinder = event('cylinder', week(9.5), 'New cylinder of test gas.');
    const found = await investigated([...room2, cylinder, failing(3.01, { dlco: 0.9 })]);
    expect(causesOf(found)).toContain('logged-event');
    expect(sentencesOf(found)).toContain(
      '12 Mar 2026, when it may have begun: Cylinder: New cylinder of test gas.',
    );
    const long = event('cylinder', week(3.5), 'New cylinder of test gas.');
    const without = await investigated([...room2, long, failing(3.01, { dlco: 0.9 })]);
    expect(causesOf(without)).not.toContain('logged-event');
    expect(evidenceIn(without)).toContain('no-event-near');
  });

  it('the same room typed week after week: the conditions are not being read', async () => {
    const same = { ambient: { temperatureC: 22, barometricMmHg: 760 } };
    const found = await investigated([...goodWeeks(0, same), failing(3.2, same)]);
    expect(causesOf(found)).toContain('conditions-not-read');
    expect(sentencesOf(found)).toContain('22 °C and 760 mmHg were typed in 11 weeks on end.');
    expect(causesOf(await investigated([...room2, failing(3.2)]))).not.toContain('conditions-not-read');
  });

  it('the biological control off and the simulation good: what the syringe does not exercise', async () => {
    const off = checkDone('biological-control', { outcome: 'failed' });
    const found = await investigated([...room2, failing(3.01), off]);
    expect(found.off).toBeNull();
    expect(causesOf(found)).toEqual(['not-exercised']);
    const passed = checkDone('biological-control', { outcome: 'passed' });
    expect(causesOf(await investigated([...room2, failing(3.01), passed]))).toEqual([]);
  });
});

describe('a biological control that was entered', () => {
  const off = judgedAs('fail', { withinPublished: false });
  const good = judgedAs('pass', { withinPublished: true });
  const controlled = (...drafts: EntryDraft[]) =>
    investigated([...room2, failing(3.01), subjectAdded(), ...drafts]);

  it('off on the day of a good simulation: what the syringe does not exercise', async () => {
    const found = await controlled(biological(10, 29, { judged: off }));
    expect(causesOf(found)).toEqual(['not-exercised']);
    expect(sentencesOf(found)).toContain('Biological control B1, 16 Mar 2026: off.');
    expect(found.checks.find(({ check }) => check === 'biological-control')?.state).toBe('known');
  });

  it('good, or beyond judging as yet, speaks for none', async () => {
    expect(causesOf(await controlled(biological(10, 25, { judged: good })))).toEqual([]);
    const early = await controlled(biological(10, 29));
    expect(causesOf(early)).toEqual([]);
    expect(sentencesOf(early)).toContain(
      'Biological control B1, 16 Mar 2026: made, but nothing can judge it yet.',
    );
  });

  it('names the rules it is off by, and beyond 2 SD is off without any', async () => {
    const signals = [{ rule: '2-2s', severity: 'action', across: 'tests' }] as const;
    const judged = judgedAs('fail', { z: 2.2, withinPublished: true, signals: [...signals] });
    expect(sentencesOf(await controlled(biological(10, 29, { judged })))).toContain(
      'Biological control B1, 16 Mar 2026: off (2-2s).',
    );
    // Beyond 2 SD of twenty tests, not of six: t(19; 0.977) · √(1 + 1/20) = 2.19, t(5; 0.977) · √(1 + 1/6) = 2.86.
    const alone = (n: number) => judgedAs('warn', { n, z: -2.3, withinPublished: true });
    expect(causesOf(await controlled(biological(10, 21, { judged: alone(20) })))).toEqual(['not-exercised']);
    expect(causesOf(await controlled(biological(10, 21, { judged: alone(6) })))).toEqual([]);
  });

  it('counts where it was made to find out, on whatever day before the repair', async () => {
    const linked = biological(11, 29, { judged: off, ...lookingInto('biological-control') });
    expect(causesOf(await controlled(linked))).toEqual(['not-exercised']);
    expect(causesOf(await controlled(biological(11, 29, { judged: off })))).toEqual([]);
    const repaired = event('part', hoursLater(2), 'Mouthpiece line.');
    expect(causesOf(await controlled(linked, repaired))).toEqual([]);
  });

  it('counts for nothing once it is voided, set aside, or of a person who was excluded', async () => {
    const made = biological(10, 29, { judged: off });
    const controlIs = { controlId: controlId(10), reason: 'A slip.' };
    const excluded = draft('subject-state-set', {
      settingId: 'setting-of-blue',
      subjectId: subject,
      state: 'excluded',
      from: week(9),
      reason: 'Pregnant.',
    });
    expect(sentencesOf(await controlled(made, excluded))).toContain(
      'Biological control B1, 16 Mar 2026: made, and counts in no mean.',
    );
    for (const undone of [
      draft('control-voided', controlIs),
      draft('control-set-aside', { ...controlIs, isSetAside: true }),
      excluded,
    ]) {
      expect(causesOf(await controlled(made, undone))).toEqual([]);
    }
  });

  it('gives way to a check that was noted after it', async () => {
    const made = biological(10, 29, { judged: off });
    const noted = checkDone('biological-control', { doneAt: hoursLater(2), outcome: 'passed' });
    expect(causesOf(await controlled(made, noted))).toEqual([]);
  });

  it('leaves a simulator of the day to the reader', async () => {
    const judged = judgedAs('fail', { name: 'low', withinPublished: false });
    const found = await controlled(session(10, { low: 2.4 }, { judged }));
    expect(causesOf(found)).toEqual([]);
    expect(sentencesOf(found)).toContain('Precision-gas simulator, 16 Mar 2026: off.');
  });
});

describe('as the checks come in', () => {
  it('the ranking follows them, and the next proposal is none that was made', async () => {
    const first = await investigated([...room2, failing(3.2)]);
    expect(nextChecks(first)[0]?.check).toBe('repeat');
    expect(nextChecks(first)[1]?.check).toBe('volume-check');
    expect(causesOf(first)).toContain('volume-measurement');

    const repeated = [...room2, failing(3.2), sameDay(20, 3.21, lookingInto('repeat'))];
    const second = await investigated(repeated);
    expect(nextChecks(second)[0]?.check).toBe('volume-check');
    expect(sentencesOf(second)).toContain('Repeated: VA is high. Not a slip.');

    const read = checkDone('volume-check', {
      ...lookingInto('volume-check'),
      volume: { expectedL: 3.36, readL: [3.35, 3.37, 3.36], limitFraction: 0.025 },
    });
    const third = await investigated([...repeated, read]);
    expect(causesOf(third)).not.toContain('volume-measurement');
    expect(third.checks.find(({ check }) => check === 'volume-check')?.done).toHaveLength(1);
    expect(nextChecks(third).map(({ check }) => check)).not.toContain('volume-check');
    expect(nextChecks(third)[0]?.check).not.toBe('repeat');
  });

  it('the reading furthest off speaks for a noted volume check, as on its own page', async () => {
    const read = checkDone('volume-check', {
      ...lookingInto('volume-check'),
      outcome: 'failed',
      volume: { expectedL: 3, readL: [3.03, 2.88, 3.09], limitFraction: 0.025 },
    });
    const found = await investigated([...room2, failing(2.8), read]);
    // −4 % is the furthest of +1, −4 and +3 %; their mean is none.
    expect(sentencesOf(found)).toContain('Volume check of 16 Mar 2026: 4.0 % low, limit ±2.5 %.');
    expect(causesOf(found)[0]).toBe('volume-measurement');
  });

  it('a failure that began and was found on one day names the day once', async () => {
    const found = await investigated([...room2, sameDay(20, 3, {}), failing(3.2, { madeAt: hoursLater(2) })]);
    expect(sentencesOf(found)).toContain(
      'Nothing was logged on the analyzer on 16 Mar 2026, when it may have begun.',
    );
  });

  it('what was read with the run itself is known and not proposed again', async () => {
    const found = await investigated([...room2, failing(3.2, readingOf(3.2, 3))]);
    expect(found.checks.find(({ check }) => check === 'volume-check')?.state).toBe('known');
    expect(nextChecks(found).map(({ check }) => check)).not.toContain('volume-check');
    expect(sentencesOf(found)).toContain('Volume check of 16 Mar 2026: as expected, limit ±3 %.');
  });

  it('a run after the room was read anew speaks for or against the conditions', async () => {
    const good = await investigated([...room2, failing(3.2), sameDay(20, 3, lookingInto('read-conditions'))]);
    expect(causesOf(good)[0]).toBe('conditions-or-conversion');
    const off = await investigated([
      ...room2,
      failing(3.2),
      sameDay(20, 3.21, lookingInto('read-conditions')),
    ]);
    expect(causesOf(off)[0]).not.toBe('conditions-or-conversion');
  });

  it('a failed volume check without figures does not say which way', async () => {
    const failedCheck = checkDone('volume-check', { ...lookingInto('volume-check'), outcome: 'failed' });
    const found = await investigated([...room2, failing(3.2), failedCheck]);
    expect(evidenceIn(found).filter((id) => id.startsWith('volume-check'))).toEqual([]);
    expect(sentencesOf(found)).toContain('Volume check of 16 Mar 2026: failed, without figures.');
  });

  it('what is voided counts for nothing', async () => {
    const read = checkDone('volume-check', { ...lookingInto('volume-check'), checkId: 'check-number-1' });
    const voided = draft('check-voided', { checkId: 'check-number-1', reason: 'Wrong analyzer.' });
    const found = await investigated([...room2, failing(3.2), read, voided]);
    expect(evidenceIn(found)).not.toContain('volume-check-good');
    expect(nextChecks(found).map(({ check }) => check)).toContain('volume-check');
  });

  it('what is found after the analyzer was worked on says nothing of the fault', async () => {
    const repair = event('bag', hoursLater(1), 'Bag replaced.');
    const later = checkDone('volume-check', { ...lookingInto('volume-check'), doneAt: hoursLater(2) });
    const before = checkDone('volume-check', { ...lookingInto('volume-check'), doneAt: hoursLater(0.5) });
    expect(evidenceIn(await investigated([...room2, failing(3.2), repair, later]))).not.toContain(
      'volume-check-good',
    );
    expect(evidenceIn(await investigated([...room2, failing(3.2), repair, before]))).toContain(
      'volume-check-good',
    );
  });

  it('a dropped syringe is said', async () => {
    const drop = draft('syringe-dropped', {
      dropId: 'drop-number-1',
      syringeId: ids.syringe,
      droppedAt: week(9.2),
      description: 'Fell off the trolley.',
    });
    expect(sentencesOf(await investigated([...room2, drop, failing(3.2)]))).toContainEqual(
      expect.stringMatching(/^The syringe was dropped on 10 Mar 2026/),
    );
  });
});

describe('the checks that are offered', () => {
  const offered = async (
    entries: Parameters<typeof investigated>[0],
    laboratory?: ReturnType<typeof twoAnalyzers>,
  ) => {
    const found = await investigated(entries, laboratory && { laboratory });
    return found.checks.map(({ check }) => check);
  };

  it('say of the other route that the analyzer may not have it, where nobody has seen it', async () => {
    const labelOf = async (drafts: readonly EntryDraft[]) =>
      (await investigated(drafts)).checks.find(({ check }) => check === 'other-route')?.begins[0]?.label;
    expect(await labelOf([...room2, failing(3.2)])).toBe('Run the built-in routine, if it has one');
    const both = [...room2, ...goodWeeks(3000, { route: 'built-in' }), failing(3.2)];
    expect(await labelOf(both)).toBe('Run the built-in routine');
  });

  it('another analyzer only where one in service is tested with the same syringe', async () => {
    const found = await investigated([...room2, ...others, failing(3.2)]);
    const labels = () =>
      found.checks.find(({ check }) => check === 'other-analyzer')?.begins.map(({ label }) => label);
    expect(labels()).toEqual(['Run Room 5', 'Run Room 7']);
    const one = sameDay(50, 3.01, { analyzerId: room5, ...lookingInto('other-analyzer') });
    const after = await investigated([...room2, ...others, failing(3.2), one]);
    const left = after.checks.find(({ check }) => check === 'other-analyzer');
    expect(left?.begins.map(({ label }) => label)).toEqual(['Run Room 7']);
    const out = (analyzerId: string) =>
      draft('service-set', {
        serviceId: `service-of-${analyzerId}`,
        analyzerId,
        inService: false,
        from: week(9),
        reason: 'Waits for a valve.',
      });
    const none = [...room2, failing(3.2), out(room5), out(room7)];
    expect(await offered(none)).not.toContain('other-analyzer');
  });

  it('begin linked to the run that is looked into, with its syringe', async () => {
    const found = await investigated([...room2, ...others, failing(3.2)]);
    const begin = found.checks.find(({ check }) => check === 'other-analyzer')?.begins[0];
    expect(begin).toMatchObject({
      kind: 'run',
      start: {
        analyzerId: room5,
        syringeId: ids.syringe,
        reason: 'suspected-fault',
        investigates: { runId: ids.run(10), check: 'other-analyzer' },
      },
    });
    const volume = found.checks.find(({ check }) => check === 'volume-check')?.begins[0];
    expect(volume).toMatchObject({
      kind: 'note',
      href: `/check/volume-check/${ids.analyzer}/${ids.run(10)}/volume-check`,
    });
    const control = found.checks.find(({ check }) => check === 'biological-control')?.begins[0];
    expect(control).toMatchObject({
      kind: 'note',
      href: `/control/biological/${ids.analyzer}/${ids.run(10)}`,
    });
  });
});
