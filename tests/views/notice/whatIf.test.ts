import { describe, expect, it } from 'vitest';
import { defaultControlPolicy, severityOf } from '../../../src/core/index.ts';
import { readWhatIf, whatIfOf } from '../../../src/views/notice/whatIf.ts';

describe('rules that are tried', () => {
  const draft = whatIfOf(defaultControlPolicy);

  it('begin as those in force, and are then none of their own', () => {
    expect(readWhatIf(draft, defaultControlPolicy)).toEqual({ errors: {}, policy: null });
    // Typed in another way, and the same.
    expect(readWhatIf({ ...draft, ewmaLambda: '0,20' }, defaultControlPolicy).policy).toBeNull();
  });

  it('are a policy with the limits of the one in force', () => {
    const inForce = { ...defaultControlPolicy, baselineSize: 30, smallSample: true };
    const severity = { ...draft.severity, '1-2s': 'off' as const };
    const { policy } = readWhatIf({ ...draft, severity, cusumDecision: '5' }, inForce);
    expect(policy).toMatchObject({ baselineSize: 30, smallSample: true, cusum: { slack: 0.5, decision: 5 } });
    expect(policy && severityOf('1-2s', policy)).toBe('off');
    expect(policy && severityOf('1-3s', policy)).toBe('action');
  });

  it('are said to be wrong where a number is, and compute nothing then', () => {
    const read = readWhatIf({ ...draft, ewmaLambda: '2', cusumSlack: '' }, defaultControlPolicy);
    expect(read.policy).toBeNull();
    expect(read.errors).toEqual({
      ewmaLambda: '2 cannot be. Was 0.2 meant? Expected: weight λ from 0.01 to 1.',
      cusumSlack: 'Type the slack k.',
    });
  });
});
