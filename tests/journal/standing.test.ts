import { describe, expect, it } from 'vitest';
import { type ControlPolicy, defaultControlPolicy, publishedLimits2017 } from '../../src/core/index.ts';
import { type EntryDraft, entryKinds, readEntry, versionOf } from '../../src/journal/entries.ts';
import { foldJournal } from '../../src/journal/fold.ts';
import { controlPolicySchema } from '../../src/journal/laboratory.ts';
import {
  adoptedLimitsAt,
  closingRulesOf,
  fittingAt,
  laboratoryOf,
  outOfService,
  policyStepsOf,
  scheduleOf,
  usualClosingRules,
  usualDescription,
} from '../../src/journal/standing.ts';
import { draft, ids, laboratoryDrafts, runRecorded, sealChain, technologistAdded } from './fixtures.ts';

const reason = 'As agreed.';
const day = (number: number) => `2026-03-${String(number).padStart(2, '0')}T07:00:00.000Z`;
const severity = {
  '1-2s': 'warning',
  '1-3s': 'action',
  '2-2s': 'action',
  'R-4s': 'action',
  '4-1s': 'off',
  '10x': 'off',
  '7T': 'off',
  EWMA: 'warning',
  CUSUM: 'off',
} as const;
const policy = { ...defaultControlPolicy, severity };

const folded = async (drafts: readonly EntryDraft[]) =>
  foldJournal(await sealChain([...laboratoryDrafts(), ...drafts]));

const service = (serviceId: string, inService: boolean, from: string) =>
  draft('service-set', { serviceId, analyzerId: ids.analyzer, inService, from, reason });

describe('outOfService', () => {
  it('holds from its instant on, until the analyzer is put back', async () => {
    const logbook = await folded([
      service('service-1-out', false, day(3)),
      service('service-2-in', true, day(5)),
    ]);
    expect(outOfService(logbook, ids.analyzer, day(2))).toBeNull();
    expect(outOfService(logbook, ids.analyzer, day(3))).toMatchObject({ from: day(3), reason });
    expect(outOfService(logbook, ids.analyzer, day(5))).toBeNull();
    expect(outOfService(logbook, 'another-analyzer', day(4))).toBeNull();
  });

  it('takes the later written of two from one instant', async () => {
    const logbook = await folded([
      service('service-1-out', false, day(3)),
      service('service-2-in', true, day(3)),
    ]);
    expect(outOfService(logbook, ids.analyzer, day(4))).toBeNull();
  });

  it('is complained of where a technologist puts an analyzer back', async () => {
    const technologist = {
      ...technologistAdded,
      technologistId: ids.technologist,
      role: 'technologist',
    } as const;
    const back = { ...service('service-1-in', true, day(3)), by: ids.technologist };
    const out = { ...service('service-2-out', false, day(4)), by: ids.technologist };
    const { problems } = await folded([draft('technologist-added', technologist), back, out]);
    expect(problems).toEqual([
      { entryId: back.id, sentence: expect.stringContaining('which only a supervisor may') },
    ]);
  });
});

describe('fittingAt', () => {
  it('is the cylinder fitted last, also when that was none', async () => {
    const cylinder = {
      label: 'A',
      serial: '',
      contents: [{ gas: 'CO' as const, fraction: 0.003 }],
      expiresOn: null,
    };
    const fitted = (fittingId: string, cylinderId: string | null, fittedAt: string) =>
      draft('cylinder-fitted', { fittingId, analyzerId: ids.analyzer, cylinderId, fittedAt });
    const { problems, ...logbook } = await folded([
      draft('cylinder-added', { cylinderId: 'cylinder-1', ...cylinder }),
      fitted('fitting-01', 'cylinder-1', day(2)),
      fitted('fitting-02', null, day(6)),
      fitted('fitting-03', 'cylinder-unknown', day(7)),
    ]);
    expect(fittingAt(logbook, ids.analyzer, day(1))).toBeUndefined();
    expect(fittingAt(logbook, ids.analyzer, day(5))?.body.cylinderId).toBe('cylinder-1');
    expect(fittingAt(logbook, ids.analyzer, day(6))?.body.cylinderId).toBeNull();
    expect(problems).toEqual([
      {
        entryId: expect.any(String),
        sentence: 'Refers to cylinder cylinder-unknown, which is not in the logbook.',
      },
    ]);
  });
});

describe('policyStepsOf', () => {
  it('gives the core its policies in the order of their instants', async () => {
    const set = (policyId: string, from: string, baselineSize: number) =>
      draft('policy-set', {
        policyId,
        analyzerId: ids.analyzer,
        policy: { ...policy, baselineSize },
        from,
        reason,
      });
    const logbook = await folded([set('policy-001', day(9), 30), set('policy-002', day(4), 25)]);
    const steps: readonly { from: number; policy: ControlPolicy }[] = policyStepsOf(logbook, ids.analyzer);
    expect(steps.map(({ from, policy: { baselineSize } }) => [from, baselineSize])).toEqual([
      [Date.parse(day(4)), 25],
      [Date.parse(day(9)), 30],
    ]);
    expect(policyStepsOf(logbook, 'another-analyzer')).toEqual([]);
  });

  it('takes no policy whose minimum exceeds its size', () => {
    expect(controlPolicySchema.safeParse(policy).success).toBe(true);
    expect(controlPolicySchema.safeParse({ ...policy, minimumSize: 21 }).success).toBe(false);
    const { CUSUM: _, ...incomplete } = severity;
    expect(controlPolicySchema.safeParse({ ...policy, severity: incomplete }).success).toBe(false);
  });
});

describe('what a laboratory sets', () => {
  it('is the usual as long as nobody has said', async () => {
    const logbook = await folded([]);
    expect(laboratoryOf(logbook)).toEqual(usualDescription);
    expect(scheduleOf(logbook, 'linearity')).toBeUndefined();
    expect(adoptedLimitsAt(logbook, day(1))).toBeUndefined();
  });

  it('is what was said last', async () => {
    const schedule = (scheduleId: string, count: number) =>
      draft('schedule-set', {
        scheduleId,
        check: 'linearity',
        isMade: true,
        every: { unit: 'months', count },
        announceDays: 14,
        reason,
      });
    const limits = { ...publishedLimits2017, edition: 'Another', vaToleranceL: 0.2 };
    const description = { ...usualDescription, name: 'Invented', decimalMark: 'comma' as const };
    const logbook = await folded([
      schedule('schedule-1', 6),
      schedule('schedule-2', 3),
      draft('limits-adopted', { adoptionId: 'adoption-1', limits, from: day(5), reason }),
      draft('laboratory-described', { descriptionId: 'described-1', ...description, reason }),
    ]);
    expect(scheduleOf(logbook, 'linearity')?.every).toEqual({ unit: 'months', count: 3 });
    expect(adoptedLimitsAt(logbook, day(4))).toBeUndefined();
    expect(adoptedLimitsAt(logbook, day(5))?.edition).toBe('Another');
    expect(laboratoryOf(logbook)).toEqual(description);
  });
});

describe('a check that was noted', () => {
  const check = {
    checkId: 'check-0001',
    check: 'biological-control' as const,
    analyzerId: ids.analyzer,
    syringeId: null,
    technologistId: ids.supervisor,
    doneAt: day(2),
    outcome: 'passed' as const,
    volume: null,
    validUntil: null,
    note: '',
    investigates: { runId: ids.run(1), check: 'biological-control' as const },
  };

  it('stays when it is voided, with the reason', async () => {
    const { checks, problems } = await folded([
      draft('run-recorded', runRecorded(1)),
      draft('check-voided', { checkId: check.checkId, reason }),
      draft('check-done', check),
    ]);
    expect(problems).toEqual([]);
    expect(checks).toMatchObject([{ id: check.checkId, voided: { reason } }]);
  });

  it('is complained of where the run it looks into is unknown', async () => {
    const { problems } = await folded([draft('check-done', check)]);
    expect(problems).toMatchObject([
      { sentence: `Refers to run ${ids.run(1)}, which is not in the logbook.` },
    ]);
  });
});

describe('a run that is set aside', () => {
  const setAside = (isSetAside: boolean) => draft('run-set-aside', { runId: ids.run(1), isSetAside, reason });

  it('takes part in no mean, and stands', async () => {
    const { runs, problems } = await folded([draft('run-recorded', runRecorded(1)), setAside(true)]);
    expect(problems).toEqual([]);
    expect(runs).toMatchObject([{ voided: null, setAside: { reason }, simulation: { excluded: true } }]);
  });

  it('is a run like others once it is taken back in', async () => {
    const { runs } = await folded([draft('run-recorded', runRecorded(1)), setAside(true), setAside(false)]);
    expect(runs).toMatchObject([{ setAside: null, simulation: { excluded: false } }]);
  });
});

describe('closingRulesOf', () => {
  it('is the usual until it was set, and what was set last from then on', async () => {
    const set = (closingRulesId: string, proofRuns: number) =>
      draft('closing-rules-set', {
        closingRulesId,
        proofRuns,
        needsAction: true,
        needsLookBack: false,
        reason,
      });
    expect(closingRulesOf(await folded([]))).toEqual(usualClosingRules);
    const logbook = await folded([set('closing-1', 3), set('closing-2', 2)]);
    expect(closingRulesOf(logbook)).toEqual({ proofRuns: 2, needsAction: true, needsLookBack: false });
  });
});

describe('readEntry', () => {
  it.each(entryKinds)('takes a %s of a version that is not known for a newer one', (kind) => {
    const version = versionOf(kind) + 1;
    expect(readEntry({ kind, version })).toEqual({ state: 'newer', kind, version });
    expect(readEntry({ kind, version: versionOf(kind) })).toMatchObject({ state: 'damaged' });
  });
});
