import { describe, expect, it, vi } from 'vitest';
import { defaultControlPolicy } from '../../../src/core/index.ts';
import {
  type Counting,
  questionKey,
  questionOf,
  type RunLengthQuestion,
} from '../../../src/views/notice/questions.ts';
import { RunLengthDesk } from '../../../src/views/notice/runLengthDesk.ts';
import { onlyRules } from './spreads.ts';

function asked(rules: Parameters<typeof onlyRules>[0], shiftSd: number, changes = {}): RunLengthQuestion {
  const question = questionOf(onlyRules(rules, changes), 'signal', shiftSd);
  if (question === null) throw new Error('no rule is on');
  return question;
}

describe('a question', () => {
  it('has the rules that count, warnings among them or not', () => {
    const rules = (counting: Counting) => questionOf(defaultControlPolicy, counting, 1)?.rules;
    expect(rules('signal')).toEqual(['1-2s', '1-3s', '2-2s', 'R-4s', '4-1s', '10x', '7T', 'EWMA', 'CUSUM']);
    expect(rules('failure')).toEqual(['1-3s', '2-2s', 'R-4s', '4-1s', '10x']);
    expect(questionOf(onlyRules([]), 'signal', 1)).toBeNull();
  });

  it('has one key for what has one answer, and another for what has not', () => {
    const other = { ewma: { lambda: 0.3, limit: 3 } };
    expect(questionKey(asked(['1-3s'], -1))).toBe(questionKey(asked(['1-3s'], 1, other)));
    expect(questionKey(asked(['EWMA'], 1))).not.toBe(questionKey(asked(['EWMA'], 1, other)));
    expect(questionKey(asked(['CUSUM'], 1))).not.toBe(
      questionKey(asked(['CUSUM'], 1, { cusum: { slack: 1, decision: 4 } })),
    );
    expect(questionKey(asked(['1-3s'], 1))).not.toBe(questionKey(asked(['1-3s'], 2)));
  });
});

describe('RunLengthDesk', () => {
  const [first, second, third] = [asked(['1-3s'], 1), asked(['1-3s'], 2), asked(['1-3s'], 3)];

  it('has each question worked out once in a session, and says when an answer is there', async () => {
    const answer = vi.fn(async ({ shiftSd }: RunLengthQuestion) => shiftSd);
    const desk = new RunLengthDesk(answer);
    const heard = vi.fn();
    const leave = desk.subscribe(heard);
    desk.ask([first, second, first]);
    await vi.waitFor(() => expect(desk.getState().known.size).toBe(2));
    expect(desk.getState().known.get(questionKey(second))).toBe(2);
    expect(heard).toHaveBeenCalledTimes(2);
    leave();
    desk.ask([second, third]);
    await vi.waitFor(() => expect(desk.getState().known.size).toBe(3));
    expect(answer).toHaveBeenCalledTimes(3);
    expect(heard).toHaveBeenCalledTimes(2);
  });

  it('does not work out what nobody waits for any more, and keeps what was under way', async () => {
    const letGo: (() => void)[] = [];
    const answer = vi.fn(
      ({ shiftSd }: RunLengthQuestion) =>
        new Promise<number>((resolve) => letGo.push(() => resolve(shiftSd))),
    );
    const desk = new RunLengthDesk(answer);
    desk.ask([first, second]);
    desk.ask([third]);
    letGo.shift()?.();
    await vi.waitFor(() => expect(letGo).toHaveLength(1));
    letGo.shift()?.();
    await vi.waitFor(() => expect(desk.getState().known.size).toBe(2));
    expect(answer.mock.calls.map(([{ shiftSd }]) => shiftSd)).toEqual([1, 3]);
  });

  it('works out nothing more once nobody waits', async () => {
    const letGo: (() => void)[] = [];
    const answer = vi.fn(() => new Promise<number>((resolve) => letGo.push(() => resolve(44))));
    const desk = new RunLengthDesk(answer);
    desk.ask([first, second]);
    desk.ask([]);
    letGo.shift()?.();
    await vi.waitFor(() => expect(desk.getState().known.size).toBe(1));
    expect(answer).toHaveBeenCalledTimes(1);
  });

  it('says why nothing is worked out any more, and tries again when it is asked again', async () => {
    let isBroken = true;
    const desk = new RunLengthDesk(async () => {
      if (isBroken) throw new Error('The thread is gone.');
      return 44;
    });
    desk.ask([first, second]);
    await vi.waitFor(() => expect(desk.getState().problem).toBe('The thread is gone.'));
    expect(desk.getState().known.size).toBe(0);
    isBroken = false;
    desk.ask([first]);
    expect(desk.getState().problem).toBeNull();
    await vi.waitFor(() => expect(desk.getState().known.size).toBe(1));
  });
});
