/** Controls as drafts, for the views' tests: a person known by a code, and sessions of a simulator. */
import type { ControlJudgement, EntryBody, EntryDraft } from '../../src/journal/entries.ts';
import { draft, ids, week } from './laboratory.ts';

export const subject = 'subject-blue';

export const subjectAdded = (subjectId = subject, code = 'B1') =>
  draft('subject-added', { subjectId, code, note: '' });

/** A judgement of one series that nothing could judge yet, unless more is said. */
export const judgedAs = (
  word: ControlJudgement['word'],
  changes: Partial<ControlJudgement['series'][number]> = {},
): ControlJudgement => ({
  word,
  establishing: true,
  failureOpen: word === 'fail',
  series: [
    {
      name: 'dlco',
      value: 25,
      withinPublished: null,
      n: 0,
      mean: null,
      sd: null,
      z: null,
      signals: [],
      ...changes,
    },
  ],
});

export const controlId = (index: number) => `control-number-${index}`;

/** A person's test of week `index`, an hour after that week's run. */
export function biological(
  index: number,
  dlco: number,
  {
    judged = judgedAs('pass'),
    vaL = 6,
    ...changes
  }: Partial<Extract<EntryBody<'control-recorded'>['control'], { kind: 'biological' }>> & {
    judged?: ControlJudgement;
    vaL?: number;
  } = {},
): EntryDraft {
  return draft('control-recorded', {
    controlId: controlId(index),
    control: {
      kind: 'biological',
      madeAt: new Date(Date.parse(week(index)) + 3_600_000).toISOString(),
      analyzerId: ids.analyzer,
      technologistId: ids.supervisor,
      comment: '',
      subjectId: subject,
      reading: { dlco, dlcoUnit: 'mL/min/mmHg', vaL },
      // Hegewald et al., Respiration 2012 (abstract).
      limits: { edition: 'Test', source: 'Test', fraction: 0.12, dlcoMlMinMmHg: 3, cv: 0.06 },
      ...changes,
    },
    judged,
  });
}

/** A session of week `index` with its distances from the targets of 15 and 35 mL/min/mmHg. */
export function session(
  index: number,
  off: { low?: number; high?: number },
  { judged = judgedAs('pass', { name: 'low' }), madeAt = week(index) } = {},
): EntryDraft {
  const target = { low: 15, high: 35 };
  return draft('control-recorded', {
    controlId: controlId(index),
    control: {
      kind: 'simulator',
      madeAt,
      analyzerId: ids.analyzer,
      technologistId: ids.supervisor,
      comment: '',
      simulator: '',
      levels: (['low', 'high'] as const).flatMap((level) => {
        const by = off[level];
        if (by === undefined) return [];
        return [
          {
            level,
            targetMlMinMmHg: target[level],
            basis: { kind: 'certificate' as const, dlco: target[level], dlcoUnit: 'mL/min/mmHg' as const },
            reading: { dlco: target[level] + by, dlcoUnit: 'mL/min/mmHg' as const },
          },
        ];
      }),
      // Gallo, Crapo & Jensen, J Investig Med 2007;55(Suppl 1):S153.
      limits: { edition: 'Test', source: 'Test', dlcoMlMinMmHg: 2 },
    },
    judged,
  });
}
