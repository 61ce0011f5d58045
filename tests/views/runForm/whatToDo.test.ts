// @vitest-environment node
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Finding, type RuleId, ruleIds } from '../../../src/core/index.ts';
import { type Situation, whatToDo } from '../../../src/views/runForm/whatToDo.ts';

const vaLimit: Finding = {
  kind: 'published-limit',
  quantity: 'va',
  value: 0.37,
  target: 3,
  limit: 0.3,
  unit: 'L',
};
const signal = (rule: RuleId, severity: 'action' | 'warning', quantity: 'va' | 'dlco' = 'va'): Finding => ({
  kind: 'signal',
  quantity,
  rule,
  severity,
  ids: ['run-number-1'],
});
const volumeCheck: Finding = { kind: 'volume-check', fraction: 0.05, limit: 0.03 };
const breathHold: Finding = { kind: 'breath-hold', breathHoldS: 14, targetS: 10, toleranceS: 2 };

/** A run as nobody has anything to say against it, but for these. */
function situation(
  word: 'pass' | 'warn' | 'fail',
  findings: readonly Finding[] = [],
  changes: Partial<Situation> = {},
): Situation {
  return {
    verdict: { word, findings },
    ownLimits: 'judge',
    failedBefore: [],
    failsByThePast: false,
    openFailure: null,
    isOver: false,
    otherRoute: null,
    inService: true,
    isImported: false,
    ofAnotherWeek: null,
    newerRunAt: null,
    ...changes,
  };
}

const pass = (changes: Partial<Situation> = {}) => situation('pass', [], changes);

/** The first case of each row of the table, in the table's order. What is right to do is common practice, no source. */
const cases: readonly [id: string, Situation, action: string, sentence: RegExp][] = [
  [
    'failure-over',
    situation('fail', [vaLimit], { isOver: true, newerRunAt: '2026-03-02T08:00:00.000Z' }),
    'newest-run',
    /^This failure has ended\. Go by the newest run, of 2 Mar 2026\.$/,
  ],
  [
    'fails-by-the-past',
    situation('fail', [signal('10x', 'action')], {
      failedBefore: ['va'],
      failsByThePast: true,
      openFailure: 'this-route',
      otherRoute: 'built-in',
    }),
    'stop',
    /^No patients yet: only runs from before the repair fail it\./,
  ],
  [
    'fails-again-other-route',
    situation('fail', [vaLimit], {
      failedBefore: ['va'],
      openFailure: 'this-route',
      otherRoute: 'built-in',
    }),
    'other-route',
    /^Stop: no patients\..*supervisor.*built-in routine/,
  ],
  [
    'fails-again',
    situation('fail', [vaLimit], { failedBefore: ['va'], openFailure: 'this-route' }),
    'stop',
    /^Stop: no patients\..*tell the supervisor/,
  ],
  [
    'fails-by-a-pattern',
    situation('fail', [signal('10x', 'action')]),
    'stop',
    /^Stop: no patients\. Several runs agree/,
  ],
  ['fails-with-volume-check-off', situation('fail', [vaLimit, volumeCheck]), 'stop', /^Stop: .*coupling/],
  ['fails-with-breath-hold-off', situation('fail', [vaLimit, breathHold]), 'stop', /breath-hold of 10 s\.$/],
  ['fails', situation('fail', [vaLimit]), 'stop', /^Stop: no patients\. Repeat once/],
  [
    'open-and-not-clear',
    situation('warn', [signal('1-2s', 'warning')], { openFailure: 'this-route' }),
    'stop',
    /^No patients: a failure is open/,
  ],
  ['open-on-this-route', pass({ openFailure: 'this-route' }), 'stop', /only a supervisor closes/],
  ['open-on-the-other-route', pass({ openFailure: 'other-route' }), 'stop', /the other one failed/],
  [
    'out-of-service-and-not-clear',
    situation('warn', [signal('1-2s', 'warning')], { inService: false }),
    'stop',
    /^No patients: out of service/,
  ],
  ['out-of-service', pass({ inService: false }), 'stop', /until a supervisor puts it back\.$/],
  [
    'not-the-newest',
    pass({ newerRunAt: '2026-03-02T08:00:00.000Z' }),
    'newest-run',
    /^Go by the newest run of this analyzer, of 2 Mar 2026\.$/,
  ],
  ['imported', pass({ isImported: true }), 'run-again', /^Run again here: this run was imported/],
  [
    'of-another-week',
    pass({ ofAnotherWeek: '2026-03-02T08:00:00.000Z', ownLimits: 'too-few-runs' }),
    'run-again',
    /^Run again before the next patient: this run is of 2 Mar 2026\.$/,
  ],
  ['volume-check-off', situation('warn', [volumeCheck]), 'run-again', /^No patients yet: check coupling/],
  ['breath-hold-off', situation('warn', [breathHold]), 'run-again', /^Run again: .*no fair test\.$/],
  [
    'beyond-3-sd',
    situation('warn', [signal('1-3s', 'warning')]),
    'run-again',
    /^No patients yet: run again now\.$/,
  ],
  ['trend', situation('warn', [signal('EWMA', 'warning')]), 'patients', /Tell the supervisor/],
  ['beyond-2-sd', situation('warn', [signal('1-2s', 'warning')]), 'patients', /Run once more today/],
  ['no-spread', pass({ ownLimits: 'no-spread' }), 'patients', /never differ cannot judge/],
  ['establishing', pass({ ownLimits: 'too-few-runs' }), 'patients', /until your own limits can judge/],
  ['pass', pass(), 'patients', /^Patients may be tested\.$/],
];

describe('whatToDo', () => {
  it.each(cases)('%s', (id, given, action, sentence) => {
    expect(whatToDo(given)).toEqual({ id, action, sentence: expect.stringMatching(sentence) });
  });

  it('takes each of its rows as some case does', () => {
    expect(new Set(cases.map(([id]) => id)).size).toBe(24);
  });

  it('asks for one repeat after a single run beyond 3 SD, and for the supervisor after two that agree', () => {
    expect(whatToDo(situation('fail', [signal('1-3s', 'action')])).id).toBe('fails');
    expect(whatToDo(situation('fail', [signal('R-4s', 'action')])).id).toBe('fails');
    expect(whatToDo(situation('fail', [signal('2-2s', 'action')])).id).toBe('fails-by-a-pattern');
    expect(whatToDo(situation('fail', [signal('2-2s', 'action'), signal('1-3s', 'action')])).id).toBe(
      'fails',
    );
  });

  it('takes a failure of the other quantity for a first failure, not for a confirmed one', () => {
    const dlcoFirst = situation('fail', [signal('1-3s', 'action', 'dlco')], {
      failedBefore: ['va'],
      openFailure: 'this-route',
    });
    expect(whatToDo(dlcoFirst).id).toBe('fails');
  });

  it('tells of a trend also where a run lies beyond 2 SD as well', () => {
    const both = situation('warn', [signal('1-2s', 'warning'), signal('7T', 'warning')]);
    expect(whatToDo(both).id).toBe('trend');
  });
});

const finding = fc.oneof(
  fc.constant(vaLimit),
  fc.constant(volumeCheck),
  fc.constant(breathHold),
  fc
    .tuple(fc.constantFrom(...ruleIds), fc.constantFrom('action', 'warning'), fc.constantFrom('va', 'dlco'))
    .map(([rule, severity, quantity]) => signal(rule, severity, quantity)),
);
const anySituation: fc.Arbitrary<Situation> = fc.record({
  verdict: fc.record({
    word: fc.constantFrom('pass' as const, 'warn' as const, 'fail' as const),
    findings: fc.array(finding, { maxLength: 4 }),
  }),
  ownLimits: fc.constantFrom('judge', 'too-few-runs', 'no-spread'),
  failedBefore: fc.subarray(['va', 'dlco']),
  failsByThePast: fc.boolean(),
  openFailure: fc.constantFrom(null, 'this-route', 'other-route'),
  isOver: fc.boolean(),
  otherRoute: fc.constantFrom(null, 'built-in', 'patient-test'),
  inService: fc.boolean(),
  isImported: fc.boolean(),
  ofAnotherWeek: fc.constantFrom(null, '2026-03-02T08:00:00.000Z'),
  newerRunAt: fc.constantFrom(null, '2026-03-02T08:00:00.000Z'),
});

describe('in every situation', () => {
  it('there is one short advice', () => {
    fc.assert(
      fc.property(anySituation, (given) => {
        const { sentence } = whatToDo(given);
        expect(sentence.length).toBeGreaterThan(0);
        expect(sentence.length).toBeLessThanOrEqual(90);
      }),
    );
  });

  it('no patient is sent to an analyzer that failed, whose failure is open, that is out of service, or by a run of another week', () => {
    fc.assert(
      fc.property(anySituation, (given) => {
        const isBarred =
          given.verdict.word === 'fail' ||
          given.openFailure !== null ||
          !given.inService ||
          given.isImported ||
          given.ofAnotherWeek !== null;
        fc.pre(isBarred);
        expect(whatToDo(given).action).not.toBe('patients');
        expect(whatToDo(given).sentence).not.toMatch(/may be tested/);
      }),
    );
  });
});
