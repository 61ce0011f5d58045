import { useMemo, useState } from 'react';
import { Link } from 'wouter';
import { civilDateOf } from '../../core/index.ts';
import { schedulePath } from '../routes.ts';
import { intervalWords } from '../scheduleWords.ts';
import { type AnalyzerLine, onTimeSentence, otherChecks, type Sources } from './buildCompleteness.ts';
import { lapsesOf } from './buildWeeks.ts';
import { LapseList } from './lapseList.tsx';
import { OtherChecks, QuartersOfOne } from './onTimeTables.tsx';
import type { PeriodChoice } from './periods.ts';
import { WeekDetails, WeekTable } from './weekDetails.tsx';
import { WeekLegend } from './weekMark.tsx';
import { YearOfWeeks } from './yearOfWeeks.tsx';

/** One analyzer: its weeks to be pointed at one by one, what was missed and why, and its other checks. */
export function AnalyzerWeeks({
  line,
  period,
  sources,
}: {
  line: AnalyzerLine;
  period: PeriodChoice;
  sources: Sources;
}) {
  const { analyzer, label, answer, weeks } = line;
  const today = civilDateOf(sources.now, sources.zone);
  const [chosenMonday, setChosenMonday] = useState<string | null>(null);
  const checks = useMemo(() => otherChecks(analyzer, period, sources), [analyzer, period, sources]);
  const chosen = weeks.find(({ monday }) => monday === chosenMonday);
  return (
    <article className="stack stack--loose">
      <section className="stack">
        <h2>{label}, week by week</h2>
        {answer === null ? (
          <p>
            Simulations are not scheduled in this laboratory by an interval:{' '}
            <Link href={schedulePath('simulation')}>set how often</Link>.
          </p>
        ) : (
          <>
            <p>
              {onTimeSentence(answer.whole)}{' '}
              <span className="quiet">Simulations are due {intervalWords(answer.every)}.</span>
            </p>
            <YearOfWeeks
              chosen={chosen}
              label={`Weeks of ${label}`}
              onChoose={setChosenMonday}
              weeks={weeks}
            />
            {chosen ? (
              <WeekDetails week={chosen} />
            ) : (
              <p className="quiet">Choose a week to see its runs, or why it has none.</p>
            )}
            <WeekLegend />
            <WeekTable label={label} weeks={weeks} />
          </>
        )}
      </section>
      <LapseList analyzer={analyzer} lapses={lapsesOf(weeks, sources.logbook, today)} />
      <QuartersOfOne line={line} />
      <OtherChecks checks={checks} label={label} />
    </article>
  );
}
