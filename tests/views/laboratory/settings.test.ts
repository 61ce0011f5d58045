// @vitest-environment node
import { afterEach, describe, expect, it } from 'vitest';
import { defaultControlPolicy, publishedLimits2017, usualPlans } from '../../../src/core/index.ts';
import { entrySchema } from '../../../src/journal/entries.ts';
import { usualDescription } from '../../../src/journal/standing.ts';
import {
  adoptLimits,
  type LimitsDraft,
  limitsDraft,
  limitsWarnings,
  readLimits,
} from '../../../src/views/laboratory/adoptLimits.ts';
import { describeLaboratory, readLaboratory } from '../../../src/views/laboratory/describeLaboratory.ts';
import {
  differsFromUsual,
  type PolicyDraft,
  policyDraft,
  policyWarnings,
  readPolicy,
  setPolicy,
} from '../../../src/views/laboratory/setPolicy.ts';
import {
  isSameSchedule,
  readSchedule,
  type ScheduleDraft,
  scheduleDraft,
  scheduleWarnings,
  setSchedule,
  usualSchedule,
  waysToBeDue,
} from '../../../src/views/laboratory/setSchedule.ts';
import { scheduledChecks } from '../../../src/views/laboratory/settings.ts';
import { setWriting, usualWriting } from '../../../src/views/parts/writing.ts';
import { sealChain } from '../../journal/fixtures.ts';
import { ids, laboratoryDrafts } from '../laboratory.ts';

afterEach(() => setWriting(usualWriting));

describe('the form of the limits', () => {
  const known = [publishedLimits2017];
  const house = { edition: 'House 2026', source: 'Procedure of the house' };
  const read = (changes: Partial<LimitsDraft>) =>
    readLimits({ ...limitsDraft(publishedLimits2017), ...changes }, known);
  const errorsOf = (changes: Partial<LimitsDraft>) => {
    const reading = read(changes);
    return reading.ok ? {} : reading.errors;
  };

  it('comes back as it was opened, with a decimal comma too', () => {
    expect(read({})).toEqual({ ok: true, description: publishedLimits2017 });
    setWriting({ ...usualWriting, decimalMark: 'comma' });
    expect(limitsDraft(publishedLimits2017)).toMatchObject({ dlcoMmol: '0,166', volumePercent: '3' });
    expect(read({})).toEqual({ ok: true, description: publishedLimits2017 });
  });

  it('reads mL and per cent without the noise of binary arithmetic', () => {
    expect(read({ ...house, vaMl: '110.35', volumePercent: '2.9' })).toMatchObject({
      description: { vaToleranceL: 0.11035, volumeCheckFraction: 0.029 },
    });
  });

  it('keeps both DLCO limits apart: one is never converted into the other', () => {
    expect(read({ ...house, dlcoMl: '0.4' })).toMatchObject({
      description: { dlcoMlMinMmHg: 0.4, dlcoMmolMinKPa: 0.166 },
    });
  });

  it('asks for the edition and the source of other values', () => {
    expect(errorsOf({ vaMl: '400' })).toEqual({
      edition: 'These are not the values of “ERS/ATS 2017”: name the edition that they are of.',
      source: 'These values do not stand in the source of “ERS/ATS 2017”: name the one that they stand in.',
    });
    expect(errorsOf({ vaMl: '400', ...house })).toEqual({});
    expect(errorsOf({ edition: ' ', source: '' })).toHaveProperty('edition');
    expect(errorsOf({ edition: ' ', source: '' })).toHaveProperty('source');
  });

  it('lets no edition that was adopted stand for other values', () => {
    const adopted = { ...publishedLimits2017, ...house, vaToleranceL: 0.2 };
    const again = readLimits({ ...limitsDraft(adopted), vaMl: '150' }, [...known, adopted]);
    expect(again).toMatchObject({ ok: false, errors: { edition: expect.stringContaining('House 2026') } });
    expect(readLimits(limitsDraft(adopted), [...known, adopted]).ok).toBe(true);
  });

  it.each([
    ['vaMl', '0.3', /300/],
    ['dlcoMl', '', /Type the DLCO limit/],
    ['dlcoMmol', 'none', /not a number/],
    ['volumePercent', '0', /cannot be/],
    ['holdS', '100', /10 meant/],
  ] as const)('refuses %s of “%s” beside the field', (field, typed, message) => {
    expect(errorsOf({ ...house, [field]: typed })[field]).toMatch(message);
  });

  it('warns of each limit that is wider than the published one, and of none that is not', () => {
    expect(limitsWarnings(publishedLimits2017)).toEqual([]);
    expect(limitsWarnings({ ...publishedLimits2017, vaToleranceL: 0.2 })).toEqual([]);
    const [sentence] = limitsWarnings({ ...publishedLimits2017, vaToleranceL: 0.4, dlcoMmolMinKPa: 0.2 });
    expect(sentence).toContain('Wider than ERS/ATS 2017: VA ±400 mL, DLCO 0.2 mmol/min/kPa.');
  });

  it.each([
    // 8 to 12 s are in order by the 2017 standard.
    [10, 3, 'breath-hold 10 ± 3 s'],
    [12, 2, 'breath-hold 12 ± 2 s'],
    [8, 1, 'breath-hold 8 ± 1 s'],
    [10.3, 1.7, null],
    [11, 1, null],
  ])('weighs a breath-hold of %d ± %d s by both its ends', (target, tolerance, named) => {
    const sentences = limitsWarnings({ ...publishedLimits2017, breathHoldS: { target, tolerance } });
    expect(sentences).toEqual(
      named === null ? [] : [expect.stringContaining(`Wider than ERS/ATS 2017: ${named}.`)],
    );
  });
});

describe('the form of a policy', () => {
  const usual = policyDraft(defaultControlPolicy);
  const errorsOf = (changes: Partial<PolicyDraft>) => {
    const reading = readPolicy({ ...usual, ...changes });
    return reading.ok ? {} : reading.errors;
  };

  it('comes back as it was opened', () => {
    expect(readPolicy(usual)).toEqual({ ok: true, description: defaultControlPolicy });
  });

  it.each([
    ['minimumSize', '21', /full at 20 runs/],
    ['minimumSize', '1', /from 2 to 200 runs/],
    ['baselineSize', '20.5', /not a whole number/],
    ['baselineSize', '', /Type the number of runs/],
    ['ewmaLambda', '2', /0.2 meant/],
    ['cusumDecision', '0', /cannot be/],
  ] as const)('refuses %s of “%s” beside the field', (field, typed, message) => {
    expect(errorsOf({ [field]: typed })[field]).toMatch(message);
  });

  it('says in what it differs from the usual one', () => {
    expect(differsFromUsual(defaultControlPolicy)).toEqual([]);
    expect(differsFromUsual({ ...defaultControlPolicy, severity: {} })).toEqual([]);
    expect(
      differsFromUsual({ ...defaultControlPolicy, limits: 'rolling', severity: { '10x': 'off' } }),
    ).toEqual(['Own limits', '10x']);
  });

  it('warns where no rule of its own can fail a run', () => {
    const warnings = { '1-3s': 'warning', '2-2s': 'off', 'R-4s': 'off', '4-1s': 'off' } as const;
    expect(policyWarnings({ ...defaultControlPolicy, severity: { ...warnings, '10x': 'warning' } })).toEqual([
      expect.stringContaining('No rule is an action'),
    ]);
    expect(policyWarnings({ ...defaultControlPolicy, severity: warnings })).toEqual([]);
  });

  it('warns of limits from very few runs unless they are widened for it', () => {
    expect(policyWarnings({ ...defaultControlPolicy, minimumSize: 5 })).toHaveLength(1);
    expect(policyWarnings({ ...defaultControlPolicy, minimumSize: 5, smallSample: true })).toEqual([]);
  });
});

describe('the form of a schedule', () => {
  const weekly: ScheduleDraft = { made: 'by-interval', count: '1', unit: 'weeks', announceDays: '1' };

  it.each(scheduledChecks)('of %s comes back as it was opened', (check) => {
    const { source: _, ...usual } = usualSchedule(check);
    expect(readSchedule(scheduleDraft(usual, usual))).toEqual({ ok: true, description: usual });
    expect(waysToBeDue(check)).toContain(scheduleDraft(usual, usual).made);
  });

  it('knows every check that the core has a plan of', () => {
    expect([...scheduledChecks].sort()).toEqual(usualPlans.map(({ kind }) => kind).sort());
  });

  it('reads weeks as days', () => {
    expect(readSchedule({ ...weekly, count: '2' })).toMatchObject({
      description: { isMade: true, every: { unit: 'days', count: 14 } },
    });
  });

  it.each([
    [{ count: '' }, 'count', /Type how many weeks/],
    [{ count: '1.5' }, 'count', /not a whole number/],
    [{ count: '58' }, 'count', /cannot be/],
    [{ announceDays: '7' }, 'announceDays', /at all times/],
    [{ announceDays: '' }, 'announceDays', /0 for the day itself/],
  ] as const)('refuses %o beside the field', (changes, field, message) => {
    const reading = readSchedule({ ...weekly, ...changes });
    expect(reading.ok ? '' : reading.errors[field]).toMatch(message);
  });

  it('starts a check that is made here again from its usual interval', () => {
    const usual = usualSchedule('simulation');
    const notMade = { isMade: false, every: null, announceDays: 0 };
    const opened = scheduleDraft(notMade, usual);
    expect(opened).toMatchObject({ made: 'not-here', count: '1', unit: 'weeks', announceDays: '1' });
    expect(readSchedule(opened)).toEqual({ ok: true, description: notMade });
  });

  it('warns of what is rarer than usual, with its source, and of nothing that is not', () => {
    const every = (count: number) => ({
      isMade: true,
      every: { unit: 'days' as const, count },
      announceDays: 1,
    });
    expect(scheduleWarnings('simulation', every(14))).toEqual([
      expect.stringContaining('The usual: weekly, and whenever a fault is suspected: ERS/ATS standard 2017'),
    ]);
    expect(scheduleWarnings('simulation', every(7))).toEqual([]);
    expect(scheduleWarnings('simulation', every(3))).toEqual([]);
    expect(scheduleWarnings('simulation', { isMade: false, every: null, announceDays: 0 })).toEqual([
      expect.stringMatching(/^Nothing will say here that a simulation is due/),
    ]);
    // A year of months and 365 days are one length.
    expect(
      scheduleWarnings('barometer', { isMade: true, every: { unit: 'days', count: 365 }, announceDays: 1 }),
    ).toEqual([]);
  });

  it('is the same however often what is not made would be announced', () => {
    const notMade = { isMade: false, every: null, announceDays: 0 };
    expect(isSameSchedule(notMade, { ...notMade, announceDays: 3 })).toBe(true);
    expect(isSameSchedule(notMade, usualSchedule('simulation'))).toBe(false);
  });
});

describe('what the forms write', () => {
  it('is an entry that the journal takes', async () => {
    const by = ids.supervisor;
    const from = '2026-03-02T07:45:00.000Z';
    const policy = readPolicy(policyDraft(defaultControlPolicy));
    const laboratory = readLaboratory({ ...usualDescription, name: ' Lung function ' });
    if (!policy.ok || !laboratory.ok) throw new Error('a usual form was refused');
    expect(laboratory.description.name).toBe('Lung function');
    const { source: _, ...schedule } = usualSchedule('cylinder-expiry');
    const drafts = [
      ...laboratoryDrafts(),
      ...describeLaboratory(laboratory.description, by, 'New name.'),
      ...setSchedule('cylinder-expiry', schedule, by, 'As labels say.'),
      ...adoptLimits(publishedLimits2017, from, by, 'Adopted.'),
      ...setPolicy(ids.analyzer, policy.description, from, by, 'Set.'),
    ];
    for (const entry of await sealChain(drafts)) expect(() => entrySchema.parse(entry)).not.toThrow();
  });
});
