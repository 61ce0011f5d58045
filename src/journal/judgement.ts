import type { PointEvaluation, RunAssessment } from '../core/index.ts';
import type { Judgement } from './entries.ts';

function seriesJudgement(value: number, { n, mean, sd, z, signals }: PointEvaluation): Judgement['va'] {
  return { value, n, mean, sd, z, signals: signals.map(({ rule, severity }) => ({ rule, severity })) };
}

/** What of a run's assessment is written into its entry: the verdict of the day and the numbers it rests on. */
export function judgementOf({ numbers, va, dlco, verdict }: RunAssessment): Judgement {
  return {
    word: verdict.word,
    establishing: verdict.establishing,
    failureOpen: va.failureOpen || dlco.failureOpen,
    va: seriesJudgement(numbers.simulatedVaL, va),
    dlco: seriesJudgement(numbers.dlcoMlMinMmHg, dlco),
  };
}
