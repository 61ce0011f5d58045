/**
 * What patterns of a failed simulation say about its cause, as data. Derived from the syringe's mass balance and the
 * single-breath equation (syringe.ts, singleBreath.ts) except where marked "common practice".
 */

export type CauseId =
  | 'volume-measurement'
  | 'sample-diluted'
  | 'dead-space-left-out'
  | 'dead-space-twice'
  | 'sample-not-purged'
  | 'conditions-or-conversion'
  | 'gas-analyzers-disagree'
  | 'route-setting'
  | 'shared'
  | 'logged-event'
  | 'conditions-not-read'
  | 'not-exercised';

export const causeText: Readonly<Record<CauseId, string>> = {
  'volume-measurement': 'Volume or flow is measured wrongly, or the syringe leaks at its coupling.',
  'sample-diluted': 'The exhaled sample is diluted with room air: a leak in a sample bag, line or valve.',
  'dead-space-left-out': 'A dead space is not accounted for.',
  'dead-space-twice': 'A dead space is subtracted twice.',
  'sample-not-purged': 'The sample still holds unpurged test gas.',
  'conditions-or-conversion': 'Temperature, pressure or conversion was entered wrong.',
  'gas-analyzers-disagree':
    'The CO and the tracer analyzer disagree: zero, linearity, interference or a wrong cylinder concentration.',
  'route-setting': 'A setting or part that only one route uses.',
  shared: 'The syringe, the operator, the room or the shared gas, not an analyzer.',
  'logged-event': 'What was done to the analyzer just before.',
  'conditions-not-read': 'The conditions are written down without being read.',
  'not-exercised':
    'Something the syringe does not exercise (warm moist gas, the patient circuit), or the subject.',
};

/** What can be seen. Each is either the case, or not the case, or not known. */
export type EvidenceId =
  | 'volume-check-off-with-va'
  | 'volume-check-off-alone'
  | 'volume-check-good'
  | 'va-high'
  | 'va-low'
  | 'va-good'
  | 'dlco-off'
  | 'dlco-good'
  | 'other-route-good'
  | 'other-route-off-alike'
  | 'all-analyzers-moved'
  | 'only-this-analyzer-moved'
  | 'begins-at-event'
  | 'no-event-near'
  | 'same-conditions-typed'
  | 'biological-control-off'
  | 'simulation-good'
  | 'good-after-conditions'
  | 'off-after-conditions'
  | 'good-after-gas-check'
  | 'off-after-gas-check';

export type CheckId =
  | 'volume-check'
  | 'other-route'
  | 'other-analyzer'
  | 'read-conditions'
  | 'other-gas'
  | 'biological-control';

export const checkText: Readonly<Record<CheckId, string>> = {
  'volume-check': 'Read the whole stroke of the syringe as a vital capacity.',
  'other-route': 'Run the other route through the analyzer with the same syringe.',
  'other-analyzer': 'Run another analyzer with the same syringe on the same day.',
  'read-conditions': 'Read thermometer and barometer anew and compare with what was entered.',
  'other-gas': 'Zero the gas analyzers, check the cylinder concentrations entered, and repeat.',
  'biological-control': 'Test the biological control.',
};

export interface CauseRule {
  /** All of them must be the case. */
  when: readonly EvidenceId[];
  /** Weights: 3 decides nearly alone, 2 speaks clearly, 1 leans; negative speaks against. */
  says: Readonly<Partial<Record<CauseId, number>>>;
}

/** The weights are this project's own judgement; the pairing of pattern and cause is what the model derives. */
export const causeRules: readonly CauseRule[] = [
  {
    when: ['volume-check-off-with-va'],
    says: { 'volume-measurement': 3, 'sample-diluted': -1, 'sample-not-purged': -1 },
  },
  { when: ['volume-check-off-alone'], says: { 'volume-measurement': 1 } },
  {
    when: ['volume-check-good', 'va-high', 'dlco-good'],
    // The leak of a bag, line or valve: common practice.
    says: {
      'sample-diluted': 2,
      'dead-space-left-out': 2,
      'conditions-or-conversion': 1,
      'volume-measurement': -3,
    },
  },
  {
    when: ['volume-check-good', 'va-low', 'dlco-good'],
    says: {
      'sample-not-purged': 2,
      'dead-space-twice': 2,
      'conditions-or-conversion': 1,
      'volume-measurement': -3,
    },
  },
  {
    when: ['va-high'],
    says: {
      'sample-diluted': 1,
      'dead-space-left-out': 1,
      'conditions-or-conversion': 1,
      'volume-measurement': 1,
      'sample-not-purged': -2,
      'dead-space-twice': -2,
    },
  },
  {
    when: ['va-low'],
    says: {
      'sample-not-purged': 1,
      'dead-space-twice': 1,
      'conditions-or-conversion': 1,
      'volume-measurement': 1,
      'sample-diluted': -2,
      'dead-space-left-out': -2,
    },
  },
  { when: ['dlco-off', 'va-good'], says: { 'gas-analyzers-disagree': 3, 'volume-measurement': -2 } },
  { when: ['dlco-off'], says: { 'gas-analyzers-disagree': 1 } },
  { when: ['dlco-good'], says: { 'gas-analyzers-disagree': -2 } },
  // Running the two routes side by side: common practice.
  // What both routes use would show in both: a cylinder, a cell, the room, most of all.
  {
    when: ['other-route-good'],
    says: {
      'route-setting': 3,
      shared: -2,
      'gas-analyzers-disagree': -2,
      'volume-measurement': -1,
      'sample-diluted': -1,
      'sample-not-purged': -1,
      'dead-space-left-out': -1,
      'dead-space-twice': -1,
      'conditions-or-conversion': -1,
    },
  },
  { when: ['other-route-off-alike'], says: { 'route-setting': -3 } },
  {
    when: ['all-analyzers-moved'],
    says: {
      shared: 3,
      'volume-measurement': -1,
      'gas-analyzers-disagree': -1,
      'route-setting': -1,
      'logged-event': -2,
    },
  },
  { when: ['only-this-analyzer-moved'], says: { shared: -3 } },
  { when: ['begins-at-event'], says: { 'logged-event': 2 } },
  { when: ['no-event-near'], says: { 'logged-event': -2 } },
  { when: ['same-conditions-typed'], says: { 'conditions-not-read': 3, 'conditions-or-conversion': 1 } },
  { when: ['biological-control-off', 'simulation-good'], says: { 'not-exercised': 3 } },
  // A check that is the repair: the run made after it tells. The conversion, and a cell's linearity, it leaves as they were.
  { when: ['good-after-conditions'], says: { 'conditions-or-conversion': 3, 'conditions-not-read': 1 } },
  { when: ['off-after-conditions'], says: { 'conditions-or-conversion': -1, 'conditions-not-read': -3 } },
  { when: ['good-after-gas-check'], says: { 'gas-analyzers-disagree': 3 } },
  { when: ['off-after-gas-check'], says: { 'gas-analyzers-disagree': -1 } },
];

/** What a check would show if the cause were the one: it tells two causes apart when they differ. */
export const checkOutcomes: Readonly<Record<CheckId, Readonly<Partial<Record<CauseId, EvidenceId>>>>> = {
  'volume-check': {
    'volume-measurement': 'volume-check-off-with-va',
    'sample-diluted': 'volume-check-good',
    'dead-space-left-out': 'volume-check-good',
    'dead-space-twice': 'volume-check-good',
    'sample-not-purged': 'volume-check-good',
    'gas-analyzers-disagree': 'volume-check-good',
  },
  'other-route': {
    'route-setting': 'other-route-good',
    'volume-measurement': 'other-route-off-alike',
    'gas-analyzers-disagree': 'other-route-off-alike',
    'conditions-or-conversion': 'other-route-off-alike',
    shared: 'other-route-off-alike',
  },
  'other-analyzer': {
    shared: 'all-analyzers-moved',
    'volume-measurement': 'only-this-analyzer-moved',
    'sample-diluted': 'only-this-analyzer-moved',
    'dead-space-left-out': 'only-this-analyzer-moved',
    'dead-space-twice': 'only-this-analyzer-moved',
    'sample-not-purged': 'only-this-analyzer-moved',
    'gas-analyzers-disagree': 'only-this-analyzer-moved',
    'route-setting': 'only-this-analyzer-moved',
    'logged-event': 'only-this-analyzer-moved',
  },
  // These are repaired by the check itself: the run after it is good if the cause was the one.
  'read-conditions': { 'conditions-or-conversion': 'va-good', 'conditions-not-read': 'va-good' },
  'other-gas': { 'gas-analyzers-disagree': 'dlco-good' },
  'biological-control': { 'not-exercised': 'biological-control-off' },
};
