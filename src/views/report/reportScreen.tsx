import { useMemo } from 'react';
import { Link, useLocation, useParams } from 'wouter';
import { laboratoryOf } from '../../journal/standing.ts';
import { packageHref } from '../deskRoutes.ts';
import { localDay } from '../parts/localTime.ts';
import { PersonField } from '../parts/personField.tsx';
import { Spread } from '../parts/spread.tsx';
import { usePersonInHand } from '../screenState.ts';
import '../charting/charting.css';
import './report.css';
import { runningHead } from './coverChapter.ts';
import { addressOfChoice, choiceErrors, type ReportChoice, readChoice, usualChoice } from './reportChoice.ts';
import { ReportForm } from './reportForm.tsx';
import { ReportPaper } from './reportPaper.tsx';
import { analyzersOf, type ReportSources } from './reportSources.ts';
import { useReport, useReportSources } from './useReport.ts';

const noneThen = 'None was in use or run in this period. Choose other days, or an analyzer all the same.';

/** The printed report: on the left what is in it, on the right its pages. */
export default function ReportScreen() {
  const sources = useReportSources();
  const { logbook, now } = sources;
  const { '*': address = '' } = useParams();
  const [, goTo] = useLocation();
  const [personId, choosePerson] = usePersonInHand();
  const today = localDay(now);
  const { dateForm } = laboratoryOf(logbook);
  const choice = useMemo(() => readChoice(address, usualChoice(today, dateForm)), [address, today, dateForm]);
  const slips = choiceErrors(choice, today);
  const isPeriod = slips.from === undefined && slips.to === undefined;
  const offered = useMemo(
    () =>
      isPeriod
        ? analyzersOf({ ...choice, analyzerIds: null }, logbook).map(({ id }) => id)
        : [...logbook.analyzers.keys()],
    [isPeriod, choice, logbook],
  );
  const errors =
    choice.analyzerIds === null && offered.length === 0 ? { ...slips, analyzers: noneThen } : slips;
  const isChosen = Object.keys(errors).length === 0;
  const change = (changed: Partial<ReportChoice>) =>
    goTo(addressOfChoice({ ...choice, ...changed }), { replace: true });
  return (
    <Spread
      left={
        <div className="stack stack--loose screen-only">
          <header className="stack">
            <h1>Printed report</h1>
            <p className="quiet">
              <Link href="/records">Back to Records</Link>
            </p>
          </header>
          <ReportForm
            analyzers={logbook.analyzers}
            choice={choice}
            errors={errors}
            offered={offered}
            onChange={change}
          />
          <PersonField label="Made by" onChoice={choosePerson} value={personId} />
          <p className="quiet small">
            Every single value stands in <Link href={packageHref}>the assessor’s package</Link>.
          </p>
        </div>
      }
      right={
        isChosen ? (
          <Report choice={choice} sources={sources} />
        ) : (
          <p className="quiet screen-only">
            The report stands here once the period and the analyzers are chosen.
          </p>
        )
      }
      wide="right"
    />
  );
}

function Report({ choice, sources }: { choice: ReportChoice; sources: ReportSources }) {
  const report = useReport(choice, sources);
  const isVerifying = sources.signatures === null;
  return (
    <div className="stack stack--loose">
      <div className="line screen-only">
        <button
          data-weight="main"
          disabled={!report.isWhole || isVerifying}
          onClick={() => window.print()}
          type="button"
        >
          Print…
        </button>
        <span className="quiet" role="status">
          {!report.isWhole
            ? 'The report is still being made.'
            : isVerifying
              ? 'Signatures are being verified.'
              : 'The browser’s print dialog can also save it as a PDF.'}
        </span>
      </div>
      <ReportPaper head={runningHead(choice, sources)} paper={choice.paper} report={report} />
    </div>
  );
}
