import { type ComponentType, lazy, type ReactNode, Suspense } from 'react';
import { Link, Redirect, Route, Router, Switch, useLocation } from 'wouter';
import { useHashLocation } from 'wouter/use-hash-location';
import type { LogbookHandle } from '../store/openLogbook.ts';
import { BenchScreen } from './bench/benchScreen.tsx';
import { useCheckOnStartUp } from './chainCheck.tsx';
import { ChainNotice } from './chainNotice.tsx';
import { useKeptDraft } from './keptDraft.ts';
import { LaboratoryName } from './laboratoryName.tsx';
import { LogbookProvider, useLogbook } from './logbookContext.tsx';
import { ErrorBoundary } from './parts/errorBoundary.tsx';
import { counted } from './parts/figures.ts';
import { Loading } from './parts/loading.tsx';
import { Notice } from './parts/notice.tsx';
import { PrintFoot } from './printFoot.tsx';
import { laboratoryHref, screens } from './routes.ts';
import { useScreenState } from './screenState.ts';
import { SecondCopyLine } from './secondCopyLine.tsx';
import { StorageTrouble } from './storageTrouble.tsx';

/** The bench opens at once; every other screen is fetched when it is first looked at. The charts are half of the bundle. */
const ChartsScreen = lazy(() => import('./charts/chartsScreen.tsx'));
const CheckScreen = lazy(() => import('./checks/checkScreen.tsx'));
const CommonScreen = lazy(() => import('./common/commonScreen.tsx'));
const BaselineScreen = lazy(() => import('./baseline/baselineScreen.tsx'));
const CompletenessScreen = lazy(() => import('./completeness/completenessScreen.tsx'));
const ControlScreen = lazy(() => import('./control/controlScreen.tsx'));
const ControlsScreen = lazy(() => import('./controls/controlsScreen.tsx'));
const CompareScreen = lazy(() => import('./compare/compareScreen.tsx'));
const FleetScreen = lazy(() => import('./fleet/fleetScreen.tsx'));
const GuidedScreen = lazy(() => import('./guided/guidedScreen.tsx'));
const InvestigationScreen = lazy(() => import('./investigation/investigationScreen.tsx'));
const LaboratoryScreen = lazy(() => import('./laboratory/laboratoryScreen.tsx'));
const NoticeScreen = lazy(() => import('./notice/noticeScreen.tsx'));
const TodayScreen = lazy(() => import('./today/todayScreen.tsx'));
const EquipmentScreen = lazy(() => import('./equipment/equipmentScreen.tsx'));
const ImportScreen = lazy(() => import('./import/importScreen.tsx'));
const FirstPage = lazy(() => import('./equipment/firstPage.tsx'));
const RecoveryScreen = lazy(() => import('./recovery/recoveryScreen.tsx'));
const RecordsScreen = lazy(() => import('./records/recordsScreen.tsx'));
const MethodScreen = lazy(() => import('./method/methodScreen.tsx'));
const PackageScreen = lazy(() => import('./package/packageScreen.tsx'));
const ReportScreen = lazy(() => import('./report/reportScreen.tsx'));
const ReviewScreen = lazy(() => import('./review/reviewScreen.tsx'));
const RunScreen = lazy(() => import('./run/runScreen.tsx'));
const SignOffScreen = lazy(() => import('./signOff/signOffScreen.tsx'));
const DemonstrationSetUp = lazy(() => import('./records/demonstrationSetUp.tsx'));
/** Where it cannot be fetched, the page it would name still stands. */
const ScreenName = lazy<ComponentType>(() =>
  import('./screenName.tsx').catch(() => ({ default: () => null })),
);

export function App({ handle, demonstration }: { handle: LogbookHandle; demonstration: boolean }) {
  return (
    <ErrorBoundary>
      <Router hook={useHashLocation}>
        <LogbookProvider
          demonstration={demonstration}
          failed={(problem) => <StorageTrouble problem={problem} />}
          handle={handle}
          loading={<Loading what="the logbook" />}
        >
          <button className="skip-link" onClick={skipToPage} type="button">
            To the page
          </button>
          {demonstration ? <DemonstrationRibbon /> : null}
          <Pages />
          <Suspense fallback={null}>
            <ScreenName />
          </Suspense>
          <PrintFoot />
        </LogbookProvider>
      </Router>
    </ErrorBoundary>
  );
}

/** A button, not a link: the address's hash holds the route. */
function skipToPage() {
  document.getElementById('page')?.focus();
}

function Pages() {
  const { logbook, demonstration, snapshot, isReading } = useLogbook();
  const [location] = useLocation();
  useCheckOnStartUp();
  const isWhole = snapshot.damaged.length === 0 && snapshot.newer === null;
  const { technologists, syringes, analyzers, entryCount } = logbook;
  if (snapshot.missing !== null) {
    return (
      <Waiting>
        <RecoveryScreen missing={snapshot.missing} />
      </Waiting>
    );
  }
  if (isWhole && demonstration && entryCount === 0) {
    return (
      <Waiting>
        <DemonstrationSetUp />
      </Waiting>
    );
  }
  if (isWhole && (technologists.size === 0 || syringes.size === 0 || analyzers.size === 0)) {
    return (
      <>
        <ChainNotice />
        <Waiting>
          <FirstPage />
        </Waiting>
      </>
    );
  }
  return (
    <>
      <TopLine />
      <StorageNotice />
      <ChainNotice />
      <ErrorBoundary address={location}>
        <Waiting>
          <Switch>
            <Route component={BenchScreen} path="/bench" />
            {isReading ? (
              <Route>
                <Loading what="the logbook" />
              </Route>
            ) : null}
            <Route component={TodayScreen} path="/today/*?" />
            <Route component={GuidedScreen} path="/guided" />
            <Route component={CommonScreen} path="/common/*?" />
            <Route component={BaselineScreen} path="/baseline/:analyzerId/:route/:quantity" />
            <Route component={CompareScreen} path="/compare/:analyzerId" />
            <Route component={FleetScreen} path="/fleet" />
            <Route component={NoticeScreen} path="/notice/:analyzerId" />
            <Route component={InvestigationScreen} path="/investigation/:runId" />
            <Route component={CheckScreen} path="/check/:check/:about/:runId?/:as?" />
            <Route component={ControlScreen} path="/control/*" />
            <Route component={ControlsScreen} path="/controls/*?" />
            <Route component={CompletenessScreen} path="/completeness/:analyzerId?" />
            <Route component={MethodScreen} path="/method/*?" />
            <Route component={PackageScreen} path="/package" />
            <Route component={ReportScreen} path="/report/*?" />
            <Route component={LaboratoryScreen} path="/laboratory/*?" />
            <Route component={ChartsScreen} path="/charts/*?" />
            <Route component={ReviewScreen} path="/review/*?" />
            <Route component={SignOffScreen} path="/sign-off/*?" />
            <Route component={EquipmentScreen} path="/equipment/*?" />
            <Route component={RecordsScreen} path="/records" />
            <Route component={ImportScreen} path="/import" />
            <Route component={RunScreen} path="/run/:runId" />
            <Route>
              <Redirect to="/today" />
            </Route>
          </Switch>
        </Waiting>
      </ErrorBoundary>
    </>
  );
}

function Waiting({ children }: { children: ReactNode }) {
  return <Suspense fallback={<Loading what="the page" />}>{children}</Suspense>;
}

function DemonstrationRibbon() {
  return (
    <div className="ribbon" role="note">
      <strong>Demonstration data</strong>
      <span>An invented laboratory, kept apart from your own logbook. Nothing here is a measurement.</span>
      <a href={laboratoryHref}>Back to your own logbook</a>
    </div>
  );
}

function TopLine() {
  useKeptDraft();
  const [location] = useLocation();
  const { logbook } = useLogbook();
  const analyzerId = useScreenState((state) => state.benchDraft.analyzerId);
  const inHand = logbook.analyzers.get(analyzerId);
  return (
    <header className="top-line">
      <LaboratoryName />
      <nav aria-label="Screens">
        <ul>
          {screens.map(({ path, word }) => (
            <li key={path}>
              <Link aria-current={location.startsWith(path) ? 'page' : undefined} href={path}>
                {word}
              </Link>
            </li>
          ))}
        </ul>
      </nav>
      <SecondCopyLine />
      <span className="top-line__in-hand">
        {inHand ? (
          <>
            In hand: <strong>{inHand.description.label}</strong>
          </>
        ) : (
          'No analyzer in hand'
        )}
      </span>
    </header>
  );
}

/** What is missing from every page, and what keeps this one from writing. */
function StorageNotice() {
  const { snapshot } = useLogbook();
  if (snapshot.newer !== null) {
    return (
      <Notice
        title="This logbook was written by a newer version: it can be read here, not written."
        tone="warn"
      >
        <p>
          {counted(snapshot.newer.count, 'entry is', 'entries are')} unknown to this version and left out of
          what you see. Install the newer version on this workstation.
        </p>
      </Notice>
    );
  }
  if (snapshot.damaged.length > 0) {
    return (
      <Notice title="Some entries cannot be read." tone="fail">
        <p>
          {counted(snapshot.damaged.length, 'stored entry is', 'stored entries are')} damaged and left out of
          what you see: means and verdicts may rest on fewer runs than were made. Runs can still be recorded,
          and nothing has been deleted. The list stands under Records: show it to whoever looks after the
          program.
        </p>
      </Notice>
    );
  }
  return null;
}
