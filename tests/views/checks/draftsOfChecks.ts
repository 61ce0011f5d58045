/** What the form of a check holds, for the tests of its reading. */
import { publishedCheckLimits } from '../../../src/core/index.ts';
import type { NotedCheck } from '../../../src/journal/entries.ts';
import type { CheckDraft, GasDraft } from '../../../src/views/checks/checkDraft.ts';
import { type CheckGround, readCheck } from '../../../src/views/checks/readCheck.ts';

const each = { slow: '', middle: '', fast: '' };

export const typed = (changes: Partial<CheckDraft> = {}): CheckDraft => ({
  doneAt: '2026-03-02T08:00',
  outcome: 'passed',
  volume: { expected: '3', readings: each, flows: each },
  linearity: [],
  syringe: { measured: '', certificate: '', issuedBy: '', writesRecord: null },
  barometer: { unit: 'mmHg', read: '', reference: '' },
  validUntil: '',
  note: 'Held for a minute at three volumes.',
  ...changes,
});

export const volume = (
  [slow, middle, fast]: readonly [string, string, string],
  {
    flows = ['', '', ''],
    expected = '3',
  }: { flows?: readonly [string, string, string]; expected?: string } = {},
): CheckDraft['volume'] => ({
  expected,
  readings: { slow, middle, fast },
  flows: { slow: flows[0], middle: flows[1], fast: flows[2] },
});

/** `points`: dilution and reading of each. */
export const gas = (
  points: readonly (readonly [expected: string, read: string])[],
  changes: Partial<GasDraft> = {},
): GasDraft => ({
  key: 'the-gas',
  gas: 'CO',
  unit: '%',
  fullScale: '0.3',
  points: points.map(([expected, read], index) => ({ key: `point-${index}`, expected, read })),
  ...changes,
});

export const read = (
  check: NotedCheck,
  changes: Partial<CheckDraft> = {},
  ground: Partial<CheckGround> = {},
) =>
  readCheck(typed(changes), {
    check,
    nominalL: 3,
    limitsAt: () => publishedCheckLimits,
    now: Date.parse('2026-03-02T10:00:00.000Z'),
    zone: 'UTC',
    ...ground,
  });
