import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { listFailures, openFailures } from '../../../src/views/failures.ts';
import { buildToday } from '../../../src/views/today/buildToday.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import {
  checkDone,
  cylinderAdded,
  cylinderFitted,
  dropped,
  ofLaboratory,
  ofSyringe,
  scheduleSet,
  serviceSet,
} from '../checkDrafts.ts';
import { biological, controlId, judgedAs, session, subject, subjectAdded } from '../controlDrafts.ts';
import { closure, draft, ids, opened, run } from '../laboratory.ts';

const zone = 'Europe/Oslo';
const analyzer = (name: string) =>
  draft('analyzer-added', { ...analyzerAdded, analyzerId: `analyzer-${name}`, label: name, place: '' });
const on = (name: string) => ({ analyzerId: `analyzer-${name}` });

async function today(drafts: readonly EntryDraft[], now = '2026-01-13T12:00:00Z') {
  const { logbook, assessments } = await opened(drafts);
  const page = buildToday(logbook, openFailures(listFailures(logbook, assessments)), Date.parse(now), zone);
  const [line] = page.lines;
  if (line === undefined) throw new Error('no analyzer is listed');
  return { ...page, line };
}

describe('the line of an analyzer', () => {
  // Week 0 is Monday 5 January 2026.
  it.each([
    ['2026-01-08', 'later', 'Simulation due in 4 days, Mon 12 Jan'],
    ['2026-01-11', 'soon', 'Simulation due tomorrow, Mon 12 Jan'],
    ['2026-01-12', 'today', 'Simulation due today'],
    ['2026-01-13', 'overdue', 'Simulation overdue by 1 day, was due Mon 12 Jan'],
    ['2026-01-15', 'overdue', 'Simulation overdue by 3 days, was due Mon 12 Jan'],
    ['2026-09-15', 'overdue', 'Simulation overdue by 246 days, was due Mon 12 Jan 2026'],
  ])('says on %s that its simulation is %s', async (date, state, sentence) => {
    const { line } = await today([run(0, 3)], `${date}T12:00:00Z`);
    expect(line).toMatchObject({ state, sentences: [sentence], lastRun: { id: ids.run(0) } });
    expect(line.start).toEqual({ words: 'Run Room 2', run: { analyzerId: ids.analyzer } });
  });

  it('tells of an open failure before all else, and offers the run once more as part of its investigation', async () => {
    const { line } = await today([run(0, 3.37, { dlco: 0.6 }), run(1, 3.4)]);
    expect(line.state).toBe('failing');
    expect(line.sentences).toEqual(['Failure open: VA and DLCO, patient test, since Mon 5 Jan']);
    expect(line.failedRunId).toBe(ids.run(0));
    expect(line.start).toEqual({
      words: 'Repeat run',
      run: {
        analyzerId: ids.analyzer,
        route: 'patient-test',
        reason: 'repeat',
        investigates: { runId: ids.run(0), check: 'repeat' },
      },
    });
  });

  it('names the routes of its failures apart', async () => {
    const { line } = await today([run(0, 3.37), run(1, 3, { dlco: 0.6, route: 'built-in' })]);
    expect(line.sentences).toEqual([
      'Failure open: VA, patient test, since Mon 5 Jan; DLCO, built-in routine, since Mon 12 Jan',
    ]);
  });

  it('goes by what is due once the failure is closed', async () => {
    const { line } = await today([run(0, 3.37), closure(0, '2026-01-06T08:00:00.000Z')]);
    expect(line).toMatchObject({ state: 'overdue', failedRunId: null });
  });

  it('offers no run while it is out of service, and says why', async () => {
    const { line } = await today([run(0, 3), serviceSet(false, '2026-01-09T08:00:00.000Z')]);
    expect(line).toMatchObject({ state: 'out-of-service', start: null, digit: null, isOutOfService: true });
    expect(line.sentences).toEqual(['Out of service since Fri 9 Jan: Waits for a valve.']);
  });

  it('keeps its failure in front though it is out of service for it', async () => {
    const { line } = await today([run(0, 3.37), serviceSet(false, '2026-01-09T08:00:00.000Z')]);
    expect(line).toMatchObject({ state: 'failing', isOutOfService: true });
    expect(line.sentences).toHaveLength(2);
  });

  it('says so where the laboratory does not schedule simulations, or by no interval', async () => {
    const notMade = scheduleSet('simulation', { isMade: false, every: null });
    expect((await today([run(0, 3), notMade])).line).toMatchObject({
      state: 'later',
      sentences: ['Simulations are not scheduled here'],
    });
    const byDate = scheduleSet('simulation', { every: null });
    expect((await today([run(0, 3), byDate])).line.sentences).toEqual(['Simulation has no date']);
  });

  it('carries its other checks that want somebody, and no others', async () => {
    const { line } = await today([
      run(0, 3),
      checkDone('volume-check', '2026-01-13T08:00:00.000Z'),
      checkDone('biological-control', '2026-01-05T08:00:00.000Z', { outcome: 'failed' }),
      checkDone('linearity', '2025-11-05T08:00:00.000Z'),
      cylinderAdded('2026-01-13'),
      cylinderFitted('cylinder-under-test', '2026-01-05T08:00:00.000Z'),
    ]);
    expect(line.others.map(({ name, state, sentence }) => [name, state, sentence])).toEqual([
      ['Room 2', 'failing', 'Biological control failed Mon 5 Jan: not passed since'],
      ['Room 2', 'overdue', expect.stringMatching(/^Gas analyzer linearity overdue by \d+ days, was due/)],
      ['Gas 7', 'today', 'Expires today: its last day'],
    ]);
  });
});

describe('the order of the lines', () => {
  const later = '2026-01-12T08:00:00.000Z';

  it('puts failing first, then out of service, overdue, due today, soon, later', async () => {
    const page = await today(
      [
        ...['soon', 'fails', 'later', 'today', 'out'].map(analyzer),
        run(1, 3, { ...on('soon'), madeAt: '2026-01-07T08:00:00.000Z' }),
        run(2, 3.4, { ...on('fails'), madeAt: later }),
        run(3, 3, { ...on('later'), madeAt: later }),
        run(4, 3, { ...on('today'), madeAt: '2026-01-06T08:00:00.000Z' }),
        run(5, 3, { ...on('out'), madeAt: later }),
        serviceSet(false, '2026-01-09T08:00:00.000Z', 'analyzer-out'),
        run(0, 3, { madeAt: '2026-01-02T08:00:00.000Z' }),
      ],
      '2026-01-13T12:00:00Z',
    );
    expect(page.lines.map(({ name, digit }) => [name, digit])).toEqual([
      ['fails', 1],
      ['out', null],
      ['Room 2', 2],
      ['today', 3],
      ['soon', 4],
      ['later', 5],
    ]);
  });

  it('puts what is overdue longest first', async () => {
    const page = await today([
      analyzer('Room 1'),
      run(0, 3, { madeAt: '2026-01-04T08:00:00.000Z' }),
      run(1, 3, { ...on('Room 1'), madeAt: '2026-01-02T08:00:00.000Z' }),
    ]);
    expect(page.lines.map(({ name }) => name)).toEqual(['Room 1', 'Room 2']);
  });

  it('lets no daily check rise above a weekly run, but one that has failed', async () => {
    const rested = run(0, 3, { madeAt: later });
    const due = run(1, 3, { ...on('Room 1'), madeAt: '2026-01-06T08:00:00.000Z' });
    const daily = (outcome: 'passed' | 'failed') =>
      checkDone('volume-check', '2026-01-05T08:00:00.000Z', { outcome });
    const order = async (outcome: 'passed' | 'failed') =>
      (await today([analyzer('Room 1'), rested, due, daily(outcome)])).lines.map(({ name }) => name);
    expect(await order('passed')).toEqual(['Room 1', 'Room 2']);
    expect(await order('failed')).toEqual(['Room 2', 'Room 1']);
  });

  it('puts an analyzer that fails itself before one whose check has failed', async () => {
    const page = await today([
      analyzer('Room 1'),
      run(0, 3, { madeAt: later }),
      checkDone('biological-control', '2026-01-05T08:00:00.000Z', { outcome: 'failed' }),
      run(1, 3.4, { ...on('Room 1'), madeAt: later }),
    ]);
    expect(page.lines.map(({ name }) => name)).toEqual(['Room 1', 'Room 2']);
  });

  it('numbers nine of forty', async () => {
    const many = Array.from({ length: 39 }, (_, index) => analyzer(`Room ${index + 3}`));
    const { lines } = await today(many);
    expect(lines).toHaveLength(40);
    expect(lines.map(({ digit }) => digit).filter((digit) => digit !== null)).toEqual([
      1, 2, 3, 4, 5, 6, 7, 8, 9,
    ]);
  });
});

describe('the page', () => {
  it('counts what is wanted, checks apart from analyzers', async () => {
    const page = await today([
      run(0, 3),
      checkDone('biological-control', '2026-01-05T08:00:00.000Z'),
      dropped('2026-01-12T08:00:00.000Z'),
    ]);
    expect(page.summary).toBe('Analyzers: 1 overdue. Other checks: 2 overdue.');
    expect(page.ofTheLaboratory[0]).toMatchObject({
      name: 'Dedicated 3 L syringe',
      state: 'overdue',
      sentence: 'Leak and stop check due at once: dropped Mon 12 Jan and not checked since',
    });
  });

  it('says when something will be due once nothing is', async () => {
    const page = await today([run(0, 3)], '2026-01-08T12:00:00Z');
    expect(page.summary).toBe('Nothing is due today. Next in 4 days, Mon 12 Jan.');
  });

  it('names usual checks that were never noted once each, and counts none of them', async () => {
    const { neverNoted, summary, line } = await today([analyzer('Room 1')], '2026-01-01T12:00:00Z');
    expect(summary).toBe('Analyzers: 2 due today.');
    expect(line.others).toEqual([]);
    expect(neverNoted).toEqual([
      { check: 'volume-check', count: 2 },
      { check: 'biological-control', count: 2 },
      { check: 'linearity', count: 2 },
      { check: 'simulator', count: 2 },
      { check: 'syringe-leak', count: 1 },
      { check: 'barometer', count: 1 },
    ]);
  });

  it('leaves what is not fitted, syringes and the barometer to the laboratory', async () => {
    const { ofTheLaboratory, line } = await today([
      cylinderAdded('2026-01-10'),
      checkDone('barometer', '2025-06-01T08:00:00.000Z', ofLaboratory),
      checkDone('syringe-leak', '2026-01-02T08:00:00.000Z', ofSyringe),
    ]);
    expect(ofTheLaboratory.map(({ due, state }) => [due.check, state])).toEqual([
      ['cylinder-expiry', 'overdue'],
      ['syringe-leak', 'later'],
      ['syringe-calibration', 'later'],
      ['barometer', 'later'],
    ]);
    expect(line.others).toEqual([]);
  });

  it('says what is dated after today', async () => {
    const { datedAhead, line } = await today([run(0, 3), run(2, 3)]);
    expect(datedAhead).toEqual(['Room 2, Mon 19 Jan: simulation']);
    expect(line.state).toBe('overdue');
  });
});

describe('an open failure of controls', () => {
  /** Six tests with a mean of 25.00 mL/min/mmHg from 5 January on, the seventh 14 % above it. */
  const tests = [
    ...[24.6, 25.4, 24.8, 25.2, 24.9, 25.1].map((dlco, index) => biological(index, dlco)),
    biological(6, 28.5, { judged: judgedAs('fail', { withinPublished: false }) }),
  ];
  const now = '2026-02-17T12:00:00Z';

  it('has a line of its own in place of the check that failed, with the ways to its story and to the next', async () => {
    const { line, summary } = await today([subjectAdded(), run(6, 3), ...tests], now);
    expect(line.controlFailures).toEqual([
      {
        key: subject,
        sentence: 'Failure open: biological control B1, DLCO, since Mon 16 Feb',
        href: `/review/control/${controlId(6)}/dlco`,
        enterHref: `/control/biological/${ids.analyzer}`,
      },
    ]);
    expect(line.others).toEqual([]);
    expect(line.state).toBe('later');
    expect(summary).toBe('No run is due. Other checks: 1 failing.');
  });

  it('of both levels of the simulator is one line', async () => {
    const { line } = await today([run(6, 3), session(6, { low: 2.4, high: 2.4 })], now);
    expect(line.controlFailures.map(({ sentence }) => sentence)).toEqual([
      'Failure open: simulator, low and high level, since Mon 16 Feb',
    ]);
  });

  it('lifts its analyzer like a check that has failed, though the last test passed', async () => {
    const { lines } = await today(
      [analyzer('Room 1'), run(1, 3, on('Room 1')), subjectAdded(), run(6, 3), ...tests, biological(6.5, 25)],
      now,
    );
    expect(lines.map(({ name, state }) => [name, state])).toEqual([
      ['Room 2', 'later'],
      ['Room 1', 'overdue'],
    ]);
  });

  it('is gone once it is closed', async () => {
    const closed = draft('control-closed', {
      closureId: 'closure-of-the-test',
      analyzerId: ids.analyzer,
      failures: [
        {
          series: { kind: 'biological', subjectId: subject, quantity: 'dlco' },
          openedByControlId: controlId(6),
        },
      ],
      closedAt: '2026-02-16T12:00:00.000Z',
      cause: 'Mouthpiece leaked.',
      correctiveAction: '',
      lookBack: '',
      signature: null,
    });
    const { line } = await today([subjectAdded(), run(6, 3), ...tests, closed], now);
    expect(line.controlFailures).toEqual([]);
    expect(line.others.map(({ sentence }) => sentence)).toEqual([
      'Biological control failed Mon 16 Feb: not passed since',
    ]);
  });
});
