// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { defaultControlPolicy, defaultSeverity } from '../../../src/core/index.ts';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { usualDescription } from '../../../src/journal/standing.ts';
import { afterNewBaseline, usersOf } from '../../../src/views/equipment/consequences.ts';
import { equipmentStates } from '../../../src/views/equipment/equipmentStates.ts';
import { historyOfRecord } from '../../../src/views/equipment/historyOfRecord.ts';
import { inOrder } from '../../../src/views/equipment/inOrder.ts';
import { newAnalyzer } from '../../../src/views/equipment/readAnalyzer.ts';
import { analyzerReader, personReader } from '../../../src/views/equipment/readers.ts';
import { readHappened } from '../../../src/views/parts/readHappened.ts';
import { dueChecks } from '../../../src/views/schedule.ts';
import { analyzerAdded, syringeAdded } from '../../journal/fixtures.ts';
import { draft, ids, opened, run, technologistDraft, week } from '../laboratory.ts';
import { cylinderId, fitted, otherRoom, service, testGas } from './equipmentDrafts.ts';

describe('usersOf', () => {
  const now = Date.parse(week(20));

  it('are the analyzers whose usual syringe it is, and those that ran with it in the last 90 days', async () => {
    const spare = draft('syringe-added', { ...syringeAdded, syringeId: 'syringe-spare', label: 'Spare' });
    const { logbook } = await opened([
      spare,
      otherRoom,
      run(5, 3, { syringeId: 'syringe-spare', analyzerId: ids.analyzer }),
      run(10, 3, { syringeId: 'syringe-spare', analyzerId: 'analyzer-room-3' }),
    ]);
    const labels = (syringeId: string) =>
      usersOf(logbook, syringeId, now).map(({ description }) => description.label);
    expect(labels(ids.syringe)).toEqual(['Room 2', 'Room 3']);
    // Week 5 lies 105 days before week 20, week 10 70 days.
    expect(labels('syringe-spare')).toEqual(['Room 3']);
  });

  it('are no retired ones, and a voided run is no use', async () => {
    const { logbook } = await opened([
      draft('syringe-added', { ...syringeAdded, syringeId: 'syringe-spare', label: 'Spare' }),
      run(19, 3, { syringeId: 'syringe-spare' }),
      draft('run-voided', { runId: ids.run(19), reason: 'A slip.' }),
    ]);
    expect(usersOf(logbook, 'syringe-spare', now)).toEqual([]);
    const { logbook: retired } = await opened([
      draft('analyzer-retired', { analyzerId: ids.analyzer, reason: 'Sold.' }),
    ]);
    expect(usersOf(retired, ids.syringe, now)).toEqual([]);
  });
});

describe('equipmentStates', () => {
  async function wordsOf(id: string, at: string, drafts: EntryDraft[]) {
    const { logbook } = await opened(drafts);
    const now = Date.parse(at);
    return equipmentStates(logbook, dueChecks(logbook, now, 'UTC'), now).get(id)?.words;
  }

  it('says since when an analyzer is out of service', async () => {
    expect(await wordsOf(ids.analyzer, week(3), [service(week(2), false)])).toBe(
      'out of service since 19 Jan 2026',
    );
    expect(await wordsOf(ids.analyzer, week(1), [run(1, 3), service(week(2), false)])).toBeUndefined();
  });

  it('says that a simulation is overdue, and nothing while it is not', async () => {
    expect(await wordsOf(ids.analyzer, week(3), [run(1, 3)])).toBe('simulation overdue, was due 19 Jan 2026');
    expect(await wordsOf(ids.analyzer, week(2), [run(1, 3)])).toBeUndefined();
  });

  it('says that a cylinder has expired from the day after its last, however the schedule is set', async () => {
    const drafts = [draft('cylinder-added', testGas)];
    expect(await wordsOf(cylinderId, '2026-03-31T12:00:00.000Z', drafts)).toBeUndefined();
    expect(await wordsOf(cylinderId, '2026-04-01T12:00:00.000Z', drafts)).toBe(
      'expired, last day 31 Mar 2026',
    );
  });

  it('says that a syringe was dropped until its leak check is made', async () => {
    const drop = draft('syringe-dropped', {
      dropId: 'drop-number-1',
      syringeId: ids.syringe,
      droppedAt: week(2),
      description: 'Fell.',
    });
    const check = draft('check-done', {
      checkId: 'check-number-1',
      check: 'syringe-leak',
      analyzerId: null,
      syringeId: ids.syringe,
      technologistId: ids.supervisor,
      doneAt: week(3),
      outcome: 'passed',
      volume: null,
      validUntil: null,
      note: '',
      investigates: null,
    });
    expect(await wordsOf(ids.syringe, week(4), [drop])).toBe('dropped, not checked since');
    expect(await wordsOf(ids.syringe, week(4), [drop, check])).toBeUndefined();
  });
});

describe('historyOfRecord', () => {
  it('words what happened to an analyzer, a syringe and a cylinder', async () => {
    const { logbook } = await opened([
      draft('cylinder-added', testGas),
      draft('cylinder-changed', {
        ...testGas,
        contents: [
          { gas: 'CO', fraction: 0.003 },
          { gas: 'CH4', fraction: 0.003 },
        ],
        reason: 'Read from the certificate.',
      }),
      fitted(week(1), cylinderId),
      fitted(week(2), null),
      service(week(3), false),
      service(week(4), true),
      draft('syringe-dropped', {
        dropId: 'drop-number-1',
        syringeId: ids.syringe,
        droppedAt: week(2),
        description: 'Fell.',
      }),
    ]);
    const told = (entries: Parameters<typeof historyOfRecord>[0]) =>
      historyOfRecord(inOrder(entries), logbook).map(({ what, reason }) => `${what}: ${reason}`);
    expect(told([...logbook.fittings, ...logbook.services, ...logbook.drops])).toEqual([
      expect.stringMatching(/^Cylinder fitted: Test gas 4 to Room 2, from 12 Jan 2026/),
      expect.stringMatching(/^Cylinder taken off: Room 2, from 19 Jan 2026/),
      expect.stringMatching(/^Taken out of service: from 26 Jan 2026.*\. Leaks\.$/),
      expect.stringMatching(/^Put back in service: from 2 Feb 2026.*\. Tested after the repair\.$/),
      expect.stringMatching(/^Dropped: 19 Jan 2026.*\. Fell\.$/),
    ]);
    const history = logbook.cylinders.get(cylinderId)?.history ?? [];
    expect(historyOfRecord(history, logbook).at(-1)?.changes).toEqual([
      { name: 'Helium (He)', from: '10 %', to: '–' },
      { name: 'Balance', from: '89.7 %', to: '99.4 %' },
      { name: 'Methane (CH₄)', from: '–', to: '0.3 %' },
    ]);
  });
});

describe('what a new analyzer starts from', () => {
  it('is the laboratory’s units and its first syringe in use', async () => {
    const { logbook } = await opened([
      draft('laboratory-described', {
        ...usualDescription,
        descriptionId: 'description-1',
        pressureUnit: 'hPa',
        dlcoUnit: 'mmol/min/kPa',
        reason: 'As we write.',
      }),
      draft('syringe-retired', { syringeId: ids.syringe, reason: 'Worn.' }),
      draft('syringe-added', { ...syringeAdded, syringeId: 'syringe-new-one', label: 'New' }),
    ]);
    expect(newAnalyzer(logbook)).toMatchObject({
      pressureUnit: 'hPa',
      dlcoUnit: 'mmol/min/kPa',
      syringeId: 'syringe-new-one',
    });
  });
});

describe('afterNewBaseline', () => {
  it('counts the runs by the analyzer’s own policy, from when it holds', async () => {
    const { logbook } = await opened([
      draft('policy-set', {
        policyId: 'policy-number-1',
        analyzerId: ids.analyzer,
        policy: { ...defaultControlPolicy, severity: defaultSeverity, minimumSize: 6 },
        from: week(2),
        reason: 'As our procedure says.',
      }),
    ]);
    const onDay = (at: string) => afterNewBaseline(logbook, ids.analyzer, Date.parse(at));
    expect(onDay(week(3))).toContain('The next 6 accepted runs');
    expect(onDay(week(1))).toContain('The next 10 accepted runs');
  });
});

describe('a name in use', () => {
  const typed = { name: 'Olaf Fiske', initials: 'of', role: 'technologist' } as const;

  it('is refused whatever its capitals and spaces, and free again once the other is retired', async () => {
    const { logbook } = await opened([technologistDraft()]);
    expect(personReader(logbook)(typed)).toEqual({
      ok: false,
      errors: { initials: expect.stringContaining('“OF” stands for somebody else already') },
    });
    const { logbook: later } = await opened([
      technologistDraft(),
      draft('technologist-retired', { technologistId: ids.technologist, reason: 'Left.' }),
    ]);
    expect(personReader(later)(typed).ok).toBe(true);
  });

  it('adds to what else is wrong', async () => {
    const { logbook } = await opened([]);
    const reading = analyzerReader(logbook)({
      ...newAnalyzer(logbook),
      label: ' room  2',
      analyzerDeadSpaceMl: '',
    });
    expect(reading.ok ? [] : Object.keys(reading.errors)).toEqual(['analyzerDeadSpaceMl', 'label']);
  });

  it('stops no change of one that shares it since a merge', async () => {
    const { logbook } = await opened([
      draft('analyzer-added', { ...analyzerAdded, analyzerId: 'analyzer-elsewhere' }),
    ]);
    const own = logbook.analyzers.get('analyzer-elsewhere');
    expect(analyzerReader(logbook, own)({ ...newAnalyzer(logbook), label: 'Room 2' }).ok).toBe(true);
  });
});

describe('readHappened', () => {
  const now = Date.parse('2026-03-02T12:00:00.000Z');
  it('takes what has been, and names what is to come or no date', () => {
    expect(readHappened('2026-03-01T08:00', now)).toEqual({ at: expect.stringMatching(/^2026-0[23]-.*Z$/) });
    expect(readHappened('2026-03-04T08:00', now)).toHaveProperty('problem');
    expect(readHappened('', now)).toHaveProperty('problem');
    expect(readHappened('0026-03-01T08:00', now)).toHaveProperty('problem');
  });
});
