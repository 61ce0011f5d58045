import { useMemo } from 'react';
import { Link, useParams } from 'wouter';
import type { Analyzer } from '../../journal/logbook.ts';
import BuiltInOnlyNotice from '../builtInOnlyNotice.tsx';
import { useLogbook } from '../logbookContext.tsx';
import { localZone } from '../parts/localTime.ts';
import { Spread } from '../parts/spread.tsx';
import { useChosenInSight } from '../parts/useChosenInSight.ts';
import { useNow } from '../parts/useNow.ts';
import { buildAnalyzerChoices } from './buildAnalyzerChoices.ts';
import { buildPairRows } from './buildPairRows.ts';
import { noPartnerSentence, offsetSentence } from './buildPairStory.ts';
import './compare.css';
import { TermLine } from '../parts/term.tsx';
import { type Comparison, compareRoutes, daysWithOneRoute, routeToRunToday } from './comparison.ts';
import { DifferenceChart } from './differenceChart.tsx';
import { differenceScale } from './differenceScale.ts';
import { NewestPair } from './newestPair.tsx';
import { PairTable } from './pairTable.tsx';
import { RunOtherRoute } from './runOtherRoute.tsx';

export default function CompareScreen() {
  const { logbook, assessments } = useLogbook();
  const { analyzerId = '' } = useParams();
  const zone = localZone();
  const rightPage = useChosenInSight(analyzerId);
  const analyzer = logbook.analyzers.get(analyzerId);
  const comparison = useMemo(
    () => compareRoutes(logbook, assessments, analyzerId, zone),
    [logbook, assessments, analyzerId, zone],
  );
  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <h1>Both routes side by side</h1>
          <Choices chosen={analyzerId} />
          {analyzer && comparison.pairs.length > 0 ? (
            <PairTable comparison={comparison} key={analyzerId} label={analyzer.description.label} />
          ) : null}
        </div>
      }
      right={
        <div ref={rightPage}>
          {analyzer ? (
            <Story analyzer={analyzer} comparison={comparison} zone={zone} />
          ) : (
            <p>This address names no analyzer of the logbook. Choose one from the list.</p>
          )}
        </div>
      }
    />
  );
}

function Choices({ chosen }: { chosen: string }) {
  const { logbook } = useLogbook();
  const choices = useMemo(() => buildAnalyzerChoices(logbook), [logbook]);
  return (
    <nav aria-label="Analyzers">
      <ul className="choose-list">
        {choices.map(({ analyzerId, label, href, routes }) => (
          <li key={analyzerId}>
            <Link aria-current={analyzerId === chosen ? 'true' : undefined} href={href}>
              {label} <span className="small quiet">{routes}</span>
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  );
}

function Story({
  analyzer: { id, description, retired },
  comparison,
  zone,
}: {
  analyzer: Analyzer;
  comparison: Comparison;
  zone: string;
}) {
  const { logbook } = useLogbook();
  const missing = routeToRunToday(comparison, useNow(logbook), zone);
  const newest = useMemo(() => buildPairRows(comparison)[0], [comparison]);
  const vaScale = differenceScale('va', comparison.dlcoUnit);
  const dlcoScale = useMemo(() => differenceScale('dlco', comparison.dlcoUnit), [comparison.dlcoUnit]);
  return (
    <div className="stack stack--loose">
      <h2 className="compare-title">{description.label}</h2>
      <TermLine ids={['route', 'z']} />
      <BuiltInOnlyNotice analyzerId={id} />
      {missing === null || retired !== null ? null : <RunOtherRoute analyzerId={id} route={missing} />}
      {newest === undefined ? (
        <NoPairs comparison={comparison} />
      ) : (
        <>
          <NewestPair comparison={comparison} row={newest} />
          <section className="stack group">
            <h2>Patient test less built-in routine</h2>
            <p>{offsetSentence(comparison.offset.va, vaScale)}</p>
            <p>{offsetSentence(comparison.offset.dlco, dlcoScale)}</p>
            <DifferenceChart pairs={comparison.pairs} scale={vaScale} />
            <DifferenceChart pairs={comparison.pairs} scale={dlcoScale} />
            <p className="small quiet">
              Pale band: the earlier pairs’ mean ± 2 SD. Open dot: before ten pairs. A line is broken where a
              new baseline began. Pairs with a run that was not accepted, or beyond 3 SD, make no mean.
            </p>
          </section>
        </>
      )}
      {newest === undefined ? null : <p>{noPartnerSentence(daysWithOneRoute(comparison))}</p>}
    </div>
  );
}

function NoPairs({ comparison }: { comparison: Comparison }) {
  return (
    <div className="stack">
      <p>
        Here will stand how far the two routes read apart. It takes a patient-test run and a built-in run on
        one day, of the same baseline.
      </p>
      {comparison.alone.length === 0 ? (
        <p>
          There is no run with the syringe yet. <Link href="/bench">Record the first at the bench</Link>
        </p>
      ) : (
        <p>{noPartnerSentence(daysWithOneRoute(comparison))}</p>
      )}
    </div>
  );
}
