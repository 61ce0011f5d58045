import { useMemo } from 'react';
import { Link, useLocation } from 'wouter';
import '../charting/charting.css';
import type { Logbook } from '../../journal/logbook.ts';
import { addressOf, readAddress, type Span } from '../charting/chartWindow.ts';
import { subjectsHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { localZone } from '../parts/localTime.ts';
import { Spread } from '../parts/spread.tsx';
import { useChosenInSight } from '../parts/useChosenInSight.ts';
import { useNow } from '../parts/useNow.ts';
import { useScreenState } from '../screenState.ts';
import { useControlAssessments, useControlFailures } from '../useControlAssessments.ts';
import { BiologicalPage } from './biologicalPage.tsx';
import { type AnalyzerControls, beginning, buildControlList, firstToLookAt } from './buildControlList.ts';
import { ControlList } from './controlList.tsx';
import { type Asked, hrefOf, readControlsAddress } from './controlsAddress.ts';
import './controls.css';
import { LinearityPage } from './linearityPage.tsx';
import { SimulatorPage } from './simulatorPage.tsx';
import { VolumePage } from './volumePage.tsx';

/** The controls besides the syringe: each analyzer's on the left page, the charts of one on the right. */
export default function ControlsScreen() {
  const [location, navigate] = useLocation();
  const { logbook } = useLogbook();
  const assessments = useControlAssessments();
  const failures = useControlFailures();
  const now = useNow(logbook);
  const zone = localZone();
  const groups = useMemo(
    () => buildControlList({ logbook, assessments, failures, now, zone }),
    [logbook, assessments, failures, now, zone],
  );
  const inHand = useScreenState(({ benchDraft }) => benchDraft.analyzerId);
  const { path, days } = useMemo(() => readAddress(location), [location]);
  const isBare = /^\/controls\/?$/.test(path);
  const first = firstToLookAt(groups, inHand)?.asked ?? null;
  const named = useMemo(() => readControlsAddress(path), [path]);
  const isKnown = named !== null && isOfLogbook(named, logbook);
  const asked = isBare ? first : isKnown ? named : null;
  const rightPage = useChosenInSight(isBare ? '' : path);
  return (
    <Spread
      left={<ControlList asked={asked} groups={groups} />}
      right={
        <div ref={rightPage}>
          {asked === null ? (
            <NothingAsked groups={groups} isBare={isBare} />
          ) : (
            <AskedPage
              asked={asked}
              days={days}
              key={hrefOf(asked)}
              onShow={(part) => navigate(addressOf(hrefOf(asked), part), { replace: true })}
            />
          )}
        </div>
      }
      wide="right"
    />
  );
}

function isOfLogbook(asked: Asked, { analyzers, subjects }: Logbook): boolean {
  if (!analyzers.has(asked.analyzerId)) return false;
  if (asked.kind !== 'series' || asked.series.kind !== 'biological') return true;
  return subjects.has(asked.series.subjectId);
}

function AskedPage({
  asked,
  days,
  onShow,
}: {
  asked: Asked;
  days: Span | null;
  onShow: (shown: Span | null) => void;
}) {
  const { analyzerId } = asked;
  if (asked.kind === 'volume-check') return <VolumePage analyzerId={analyzerId} />;
  if (asked.kind === 'linearity') return <LinearityPage analyzerId={analyzerId} />;
  const { series } = asked;
  return series.kind === 'simulator' ? (
    <SimulatorPage analyzerId={analyzerId} days={days} level={series.level} onShow={onShow} />
  ) : (
    <BiologicalOf analyzerId={analyzerId} days={days} onShow={onShow} series={series} />
  );
}

/** Keeps what it names the same from one drawing to the next, since all of its page is made of it. */
function BiologicalOf({
  analyzerId,
  series: { subjectId, quantity },
  days,
  onShow,
}: {
  analyzerId: string;
  series: { subjectId: string; quantity: 'dlco' | 'va' };
  days: Span | null;
  onShow: (shown: Span | null) => void;
}) {
  const named = useMemo(
    () => ({ analyzerId, series: { kind: 'biological' as const, subjectId, quantity } }),
    [analyzerId, subjectId, quantity],
  );
  return <BiologicalPage days={days} named={named} onShow={onShow} />;
}

function NothingAsked({ groups, isBare }: { groups: readonly AnalyzerControls[]; isBare: boolean }) {
  const { logbook } = useLogbook();
  const inUse = groups.find(({ retired }) => !retired);
  if (!isBare) {
    return (
      <div className="stack">
        <h1>No such control</h1>
        <p>The address names an analyzer, a person or a check that is not here. Choose from the list.</p>
      </div>
    );
  }
  return (
    <div className="stack">
      <h1>No controls yet</h1>
      <p>
        A syringe takes up nothing and holds no warm moist gas. Here will stand what sees the rest: people
        known by a code who are tested like patients, a precision-gas simulator, and the checks of volume and
        of the gas analyzers, each with its chart and its limits.
      </p>
      <p>
        {logbook.subjects.size === 0 || inUse === undefined ? (
          <Link href={subjectsHref}>Add a person as a biological control, by a code</Link>
        ) : (
          <Link href={beginning['biological-control'](inUse.analyzerId).href}>
            Enter the first biological control
          </Link>
        )}
      </p>
    </div>
  );
}
