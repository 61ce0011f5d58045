import { useMemo, useState } from 'react';
import { Link, useParams } from 'wouter';
import { civilDateOf } from '../../core/index.ts';
import { completenessHref, decodedPart } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField } from '../parts/field.tsx';
import { counted } from '../parts/figures.ts';
import { localZone } from '../parts/localTime.ts';
import { Notice } from '../parts/notice.tsx';
import { Spread } from '../parts/spread.tsx';
import { useChosenInSight } from '../parts/useChosenInSight.ts';
import { useNow } from '../parts/useNow.ts';
import { AllAnalyzers } from './allAnalyzers.tsx';
import { AnalyzerWeeks } from './analyzerWeeks.tsx';
import { type AnalyzerLine, buildLines } from './buildCompleteness.ts';
import './completeness.css';
import { periodChoices } from './periods.ts';

/** Which weeks have a run, which have none and why, and how many runs came in time. */
export default function CompletenessScreen() {
  const { logbook, assessments } = useLogbook();
  const { analyzerId: address = '' } = useParams();
  const now = useNow(logbook);
  const zone = localZone();
  const today = civilDateOf(now, zone);
  const choices = useMemo(() => periodChoices(logbook, today), [logbook, today]);
  const [chosenPeriod, setChosenPeriod] = useState('');
  const rightPage = useChosenInSight(address);
  const period = choices.find(({ id }) => id === chosenPeriod) ?? choices[0];
  // By the day and not by the minute: nothing here changes before midnight.
  // biome-ignore lint/correctness/useExhaustiveDependencies: `now` is the moment of `today`.
  const sources = useMemo(() => ({ logbook, assessments, now, zone }), [logbook, assessments, today, zone]);
  const lines = useMemo(() => (period ? buildLines(period, sources) : []), [period, sources]);
  const asked = decodedPart(address);
  const line = lines.find(({ analyzer }) => analyzer.id === asked);
  if (period === undefined) return null;
  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <header className="stack">
            <h1>Completeness</h1>
            <p className="quiet">
              <Link href="/review">Back to Review</Link>
            </p>
          </header>
          <div className="completeness-period">
            <ChoiceField
              choices={choices.map(({ id, label }) => ({ value: id, label }))}
              label="Period"
              onChoice={setChosenPeriod}
              value={period.id}
            />
          </div>
          <AnalyzerList chosen={line} lines={lines} />
        </div>
      }
      right={
        <div ref={rightPage}>
          {line ? (
            <AnalyzerWeeks key={`${asked} ${period.id}`} line={line} period={period} sources={sources} />
          ) : (
            <div className="stack stack--loose">
              {asked === '' ? null : (
                <Notice title="This address names no analyzer that was in use then." tone="quiet" />
              )}
              <AllAnalyzers lines={lines} />
            </div>
          )}
        </div>
      }
      wide="right"
    />
  );
}

function AnalyzerList({
  lines,
  chosen,
}: {
  lines: readonly AnalyzerLine[];
  chosen: AnalyzerLine | undefined;
}) {
  return (
    <ul className="choose-list">
      <li>
        <Link aria-current={chosen === undefined ? 'true' : undefined} href={completenessHref()}>
          All analyzers
        </Link>
      </li>
      {lines.map((line) => (
        <li key={line.analyzer.id}>
          <Link aria-current={line === chosen ? 'true' : undefined} href={completenessHref(line.analyzer.id)}>
            <span>{line.label}</span>{' '}
            <span className="quiet small">
              {line.isRetired ? 'retired, ' : ''}
              {line.inShort}
              {line.unexplained > 0 ? `, ${counted(line.unexplained, 'week')} unexplained` : ''}
            </span>
          </Link>
        </li>
      ))}
    </ul>
  );
}
