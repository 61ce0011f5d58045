import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type {
  BiologicalContent,
  ControlJudgement,
  Entry,
  EntryDraft,
  SimulatorContent,
  SubjectState,
} from '../../src/journal/entries.ts';
import { foldJournal } from '../../src/journal/fold.ts';
import { adoptedCheckLimitsAt, subjectStateAt } from '../../src/journal/standing.ts';
import { draft, ids, laboratoryDrafts, sealChain, technologistAdded } from './fixtures.ts';

const reason = 'As agreed.';
const day = (number: number) => `2026-03-${String(number).padStart(2, '0')}T07:00:00.000Z`;
const subjectId = 'subject-one';

const biological: BiologicalContent = {
  kind: 'biological',
  madeAt: day(9),
  analyzerId: ids.analyzer,
  technologistId: ids.supervisor,
  comment: '',
  subjectId,
  reading: { dlco: 27.4, dlcoUnit: 'mL/min/mmHg', vaL: 6.1 },
  limits: { edition: 'Usual', source: 'Invented for this test.', fraction: 0.12, dlcoMlMinMmHg: 3, cv: 0.06 },
};
const simulator: SimulatorContent = {
  kind: 'simulator',
  madeAt: day(10),
  analyzerId: ids.analyzer,
  technologistId: ids.supervisor,
  comment: '',
  simulator: '',
  levels: [
    {
      level: 'low',
      targetMlMinMmHg: 14,
      basis: { kind: 'certificate', dlco: 14, dlcoUnit: 'mL/min/mmHg' },
      reading: { dlco: 14.4, dlcoUnit: 'mL/min/mmHg' },
    },
  ],
  limits: { edition: 'Usual', source: 'Invented for this test.', dlcoMlMinMmHg: 2 },
};
const judged: ControlJudgement = {
  word: 'pass',
  establishing: true,
  failureOpen: false,
  series: [
    { name: 'dlco', value: 27.4, withinPublished: null, n: 0, mean: null, sd: null, z: null, signals: [] },
  ],
};

const subject = draft('subject-added', { subjectId, code: 'B1', note: '' });
const recorded = (
  controlId: string,
  changes: Partial<BiologicalContent> = {},
): Extract<EntryDraft, { kind: 'control-recorded' }> => {
  const control = { ...biological, ...changes };
  return {
    id: `entry-of-${controlId}`,
    by: ids.supervisor,
    kind: 'control-recorded',
    body: { controlId, control, judged },
  };
};
const state = (settingId: string, to: SubjectState, from: string) =>
  draft('subject-state-set', { settingId, subjectId, state: to, from, reason });

const folded = async (drafts: readonly EntryDraft[]) =>
  foldJournal(await sealChain([...laboratoryDrafts(), subject, ...drafts]));

describe('controls in the fold', () => {
  it('stand by the moment they were made, each with the baseline starts before it', async () => {
    const start = { baselineId: 'baseline-1', analyzerId: ids.analyzer, from: day(8), reason };
    const { controls, problems } = await folded([
      recorded('control-later', { madeAt: day(9) }),
      recorded('control-sooner', { madeAt: day(7) }),
      draft('baseline-started', start),
    ]);
    expect(problems).toEqual([]);
    expect(controls.map(({ id, epoch, excluded }) => [id, epoch, excluded])).toEqual([
      ['control-sooner', 0, false],
      ['control-later', 1, false],
    ]);
  });

  it('say what the newest amendment says, and keep what stood before', async () => {
    const amended = { ...biological, reading: { ...biological.reading, dlco: 24.7 } };
    const { controls } = await folded([
      recorded('control-one'),
      draft('control-amended', {
        amendmentId: 'amendment-1',
        controlId: 'control-one',
        control: amended,
        judged,
        reason,
      }),
    ]);
    expect(controls[0]).toMatchObject({ control: amended, entry: { body: { control: biological } } });
  });

  it('never become one of the other kind', async () => {
    const { controls, problems } = await folded([
      recorded('control-one'),
      draft('control-amended', {
        amendmentId: 'amendment-1',
        controlId: 'control-one',
        control: simulator,
        judged,
        reason,
      }),
    ]);
    expect(controls[0]?.control).toEqual(biological);
    expect(problems.map(({ sentence }) => sentence)).toEqual([
      expect.stringContaining('into one of another kind'),
    ]);
  });

  it('take part in nothing once voided or set aside, and again when taken back in', async () => {
    const aside = (isSetAside: boolean) =>
      draft('control-set-aside', { controlId: 'control-one', isSetAside, reason });
    const standing = async (...drafts: EntryDraft[]) =>
      (await folded([recorded('control-one'), ...drafts])).controls[0];
    expect(await standing(aside(true))).toMatchObject({ excluded: true, setAside: { reason } });
    expect(await standing(aside(true), aside(false))).toMatchObject({ excluded: false, setAside: null });
    expect(
      await standing(draft('control-voided', { controlId: 'control-one', reason: 'Wrong code.' })),
    ).toMatchObject({ excluded: true, voided: { reason: 'Wrong code.' } });
  });

  it('of an excluded person count in nothing, those from before and after do', async () => {
    const { controls } = await folded([
      ...[7, 8, 9].map((each) => recorded(`control-${each}`, { madeAt: day(each) })),
      state('setting-1', 'excluded', day(8)),
      state('setting-2', 'active', day(9)),
    ]);
    expect(controls.map(({ excluded }) => excluded)).toEqual([false, true, false]);
  });

  it('name what they refer to', async () => {
    const { problems } = await folded([
      recorded('control-one', { subjectId: 'subject-unknown', analyzerId: 'analyzer-unknown' }),
    ]);
    expect(problems.map(({ sentence }) => sentence)).toEqual([
      'Refers to analyzer analyzer-unknown, which is not in the logbook.',
      'Refers to subject subject-unknown, which is not in the logbook.',
    ]);
  });
});

describe('what only a supervisor does with controls', () => {
  it('is everything but a pause, and is complained of', async () => {
    const person = { ...technologistAdded, technologistId: ids.technologist, role: 'technologist' } as const;
    const acts = [
      state('setting-1', 'paused', day(3)),
      state('setting-2', 'active', day(4)),
      state('setting-3', 'excluded', day(5)),
      draft('control-set-aside', { controlId: 'control-one', isSetAside: true, reason }),
      draft('control-closed', {
        closureId: 'closure-1',
        analyzerId: ids.analyzer,
        failures: [
          { series: { kind: 'biological', subjectId, quantity: 'dlco' }, openedByControlId: 'control-one' },
        ],
        closedAt: day(20),
        cause: reason,
        correctiveAction: '',
        lookBack: '',
        signature: null,
      }),
    ].map((one) => ({ ...one, by: ids.technologist }));
    const { problems } = await folded([
      draft('technologist-added', person),
      recorded('control-one'),
      ...acts,
    ]);
    expect(problems.map(({ entryId }) => entryId)).toEqual(acts.slice(1).map(({ id }) => id));
    expect(problems.every(({ sentence }) => sentence.includes('only a supervisor may'))).toBe(true);
  });
});

describe('subjectStateAt', () => {
  it('is active until something else was said', async () => {
    const logbook = await folded([
      state('setting-1', 'paused', day(3)),
      state('setting-2', 'active', day(6)),
    ]);
    expect([2, 3, 5, 6].map((each) => subjectStateAt(logbook, subjectId, day(each)))).toEqual([
      'active',
      'paused',
      'paused',
      'active',
    ]);
    expect(subjectStateAt(logbook, 'somebody-else', day(4))).toBe('active');
  });
});

describe('adoptedCheckLimitsAt', () => {
  const limits = (edition: string) => {
    const limit = { fraction: 0.02, source: 'Invented for this test.' };
    return {
      edition,
      biological: { ...limit, dlcoMlMinMmHg: 3, cv: 0.06 },
      simulator: { dlcoMlMinMmHg: 2, source: limit.source },
      volumeCalibration: limit,
      linearity: limit,
      syringe: limit,
      barometer: limit,
    };
  };

  it('is the edition in force at an instant', async () => {
    const adopted = (adoptionId: string, from: string) =>
      draft('check-limits-adopted', { adoptionId, limits: limits(adoptionId), from, reason });
    const logbook = await folded([adopted('adoption-2', day(9)), adopted('adoption-1', day(4))]);
    expect([3, 4, 8, 9].map((each) => adoptedCheckLimitsAt(logbook, day(each))?.edition)).toEqual([
      undefined,
      'adoption-1',
      'adoption-1',
      'adoption-2',
    ]);
  });
});

describe('a logbook of controls', () => {
  let entries: Entry[] = [];
  beforeAll(async () => {
    const here = await sealChain([...laboratoryDrafts(), subject, recorded('control-one')]);
    const there = await sealChain(
      [
        recorded('control-two', { madeAt: day(12) }),
        state('setting-1', 'excluded', day(11)),
        draft('control-voided', { controlId: 'control-one', reason }),
      ],
      { workstation: 'workstation-b', from: '2026-03-12T08:00:00.000Z' },
    );
    entries = [...here, ...there];
  });

  it('is the same whatever order the entries come in', () => {
    const expected = foldJournal(entries).controls;
    expect(expected).toHaveLength(2);
    fc.assert(
      fc.property(fc.shuffledSubarray(entries, { minLength: entries.length }), (shuffled) => {
        expect(foldJournal(shuffled).controls).toEqual(expected);
      }),
      { numRuns: 50 },
    );
  });
});

describe('sealing', () => {
  it('refuses a session that names one level twice, and a gap that ends before it begins', async () => {
    const [level] = simulator.levels;
    const twice = { ...simulator, levels: level ? [level, level] : [] };
    const body = { controlId: 'control-one', control: twice, judged };
    await expect(sealChain([draft('control-recorded', body)])).rejects.toThrow('a level comes twice');
    const gap = { gapId: 'gap-number-1', analyzerId: ids.analyzer, check: 'simulation' as const, reason };
    const explained = (from: string, to: string) => sealChain([draft('gap-explained', { ...gap, from, to })]);
    await expect(explained('2026-03-09', '2026-03-08')).rejects.toThrow('to is before from');
    await expect(explained('2026-03-09', '2026-03-09')).resolves.toHaveLength(1);
  });
});
