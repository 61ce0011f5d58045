import { useMemo } from 'react';
import type { ControlPolicy } from '../../core/index.ts';
import { useLogbook } from '../logbookContext.tsx';
import { type BudgetTable, buildBudget } from './buildBudget.ts';
import {
  buildFalseAlarms,
  type FalseAlarmRow,
  falseAlarmQuestions,
  fleetOf,
  judgedAnalyzer,
} from './buildFalseAlarms.ts';
import { type Asked, buildNotice, type NoticeTable, noticeQuestions } from './buildNotice.ts';
import { ownSpreads } from './ownSpreads.ts';
import { policyNotes } from './policyNotes.ts';
import type { Counting } from './questions.ts';
import { howOften } from './runsPerWeek.ts';
import { useRunLengths } from './useRunLengths.ts';

export interface NoticeAnswers {
  /** Empty where the analyzer has no run. */
  tables: readonly NoticeTable[];
  falseAlarms: readonly FalseAlarmRow[];
  /** Null where the newest run allows none. */
  budget: BudgetTable | null;
  notes: readonly string[];
  howOften: string;
  /** Why weeks are missing; null while all is well. */
  problem: string | null;
  askAgain: () => void;
}

/** All that the page says of one analyzer, with the weeks that are known so far. `now`: in ms. */
export function useNotice(
  analyzerId: string,
  {
    inForce,
    whatIf,
    counting,
    now,
  }: { inForce: ControlPolicy; whatIf: ControlPolicy | null; counting: Counting; now: number },
): NoticeAnswers {
  const { logbook, assessments } = useLogbook();
  const madeAt = new Date(now).toISOString();
  const spreads = useMemo(
    () => ownSpreads(logbook, assessments, analyzerId, now),
    [logbook, assessments, analyzerId, now],
  );
  const series = useMemo(() => spreads.flatMap(({ va, dlco }) => [va, dlco]), [spreads]);
  const analyzer = useMemo(() => judgedAnalyzer(logbook, analyzerId, madeAt), [logbook, analyzerId, madeAt]);
  const fleet = useMemo(() => fleetOf(logbook, madeAt), [logbook, madeAt]);
  const often = useMemo(() => howOften(logbook), [logbook]);
  const asked = useMemo<Asked>(
    () => ({ inForce, whatIf, counting, runsPerWeek: often.runsPerWeek }),
    [inForce, whatIf, counting, often],
  );
  const questions = useMemo(
    () => [...noticeQuestions(series, asked), ...falseAlarmQuestions(fleet, asked)],
    [series, fleet, asked],
  );
  const { known, problem, askAgain } = useRunLengths(questions);
  const budget = useMemo(() => buildBudget(spreads), [spreads]);
  return {
    tables: series.map((spread) => buildNotice(spread, asked, known)),
    falseAlarms: buildFalseAlarms(analyzer, fleet, asked, known),
    budget,
    notes: policyNotes(inForce, spreads),
    howOften: often.words,
    problem,
    askAgain,
  };
}
