import { useMemo, useState } from 'react';
import { Link, useParams } from 'wouter';
import type { Quantity, Route } from '../../core/index.ts';
import type { LoggedRun } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { BaselineLinks } from '../parts/baselineLinks.tsx';
import { Notice } from '../parts/notice.tsx';
import { SavedMessage } from '../parts/savedMessage.tsx';
import { Spread } from '../parts/spread.tsx';
import { useNow } from '../parts/useNow.ts';
import { quantityWords, routeWords } from '../parts/words.ts';
import { seriesPath } from '../routes.ts';
import { AcceptanceSection } from './acceptanceSection.tsx';
import './baseline.css';
import { TermLine } from '../parts/term.tsx';
import { buildDesk, type DeskSeries, epochBefore } from './baselineRuns.ts';
import { baselineScale } from './baselineScale.ts';
import { ComparedEpochs } from './comparedEpochs.tsx';
import { ComparedLimits } from './comparedLimits.tsx';
import { describeBaseline } from './describeBaseline.ts';
import { MemberTable } from './memberTable.tsx';
import { SetAsideForm } from './setAsideForm.tsx';
import { StartEpoch } from './startEpoch.tsx';
import { WhatItRestsOn } from './whatItRestsOn.tsx';

const isRoute = (text: string): text is Route => text === 'patient-test' || text === 'built-in';
const isQuantity = (text: string): text is Quantity => text === 'va' || text === 'dlco';

/** The runs that the limits of one series rest on: looked through, set aside, accepted, begun anew. */
export default function BaselineScreen() {
  const { logbook } = useLogbook();
  const { analyzerId = '', route = '', quantity = '' } = useParams();
  if (!logbook.analyzers.has(analyzerId) || !isRoute(route) || !isQuantity(quantity)) {
    return (
      <Spread
        left={
          <Notice title="This address names no series of the logbook." tone="quiet">
            <p>
              Each baseline is reached from its chart: <Link href="/charts">go to the charts</Link>.
            </p>
          </Notice>
        }
        right={null}
      />
    );
  }
  return (
    <OneBaseline
      key={`${analyzerId} ${route} ${quantity}`}
      series={{ analyzerId, method: 'syringe', route, quantity }}
    />
  );
}

function OneBaseline({ series }: { series: DeskSeries }) {
  const { logbook, assessments } = useLogbook();
  const at = new Date(useNow(logbook)).toISOString();
  const desk = useMemo(() => buildDesk(logbook, assessments, series, at), [logbook, assessments, series, at]);
  const [aside, setAside] = useState<LoggedRun | null>(null);
  const [saved, setSaved] = useState('');
  const { description } = logbook.analyzers.get(series.analyzerId) ?? {};
  const scale = baselineScale(series.quantity, description?.dlcoUnit ?? 'mL/min/mmHg');
  const { inForce, policy } = desk;
  const words = describeBaseline(inForce.members, policy, scale);
  const before = epochBefore(desk);
  // The form stands for the run as it is now: another save may have changed it.
  const chosen = aside && (logbook.runs.find(({ id }) => id === aside.id) ?? null);
  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <header className="stack">
            <h1>
              Baseline of {description?.label ?? 'an unknown analyzer'}, {quantityWords[series.quantity]},{' '}
              {routeWords[series.route].toLowerCase()}
            </h1>
            <p>
              <Link href={seriesPath(series)}>Its chart</Link>
            </p>
            <BaselineLinks analyzerId={series.analyzerId} except={series} />
            <TermLine ids={['baseline', 'epoch', 'accepted']} />
          </header>
          <SavedMessage text={saved} />
          <WhatItRestsOn inForce={inForce} words={words} />
          <AcceptanceSection desk={desk} onSaved={setSaved} words={words} />
          <StartEpoch desk={desk} onSaved={setSaved} />
        </div>
      }
      right={
        <div className="stack stack--loose">
          <MemberTable desk={desk} onSetAside={setAside} scale={scale} words={words} />
          {chosen ? (
            <SetAsideForm
              key={chosen.id}
              onClose={() => setAside(null)}
              onSaved={(sentence) => {
                setSaved(sentence);
                setAside(null);
              }}
              run={chosen}
            />
          ) : null}
          {before ? <ComparedEpochs before={before} inForce={inForce} scale={scale} /> : null}
          <ComparedLimits desk={desk} scale={scale} />
        </div>
      }
    />
  );
}
