import { Link, Redirect, useParams } from 'wouter';
import { checkLimitsAt } from '../controlAssessments.ts';
import { checkSeriesHref, newControlHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { LooksInto } from '../parts/looksInto.tsx';
import { Notice } from '../parts/notice.tsx';
import { Spread } from '../parts/spread.tsx';
import { useNow } from '../parts/useNow.ts';
import { checkWords } from '../scheduleWords.ts';
import { type AskedCheck, readCheckAddress } from './checkAddress.ts';
import { CheckForm } from './checkForm.tsx';
import { checkText } from './checkTexts.ts';
import './checks.css';
import { EarlierChecks, notedBefore } from './earlierChecks.tsx';

/** A check other than a simulation is noted on the left page; what was noted of it before stands on the right. */
export default function CheckScreen() {
  const { logbook } = useLogbook();
  const params = useParams();
  const asked = readCheckAddress(params, logbook);
  if (asked === null) return <Spread left={<NoSuchCheck />} right={null} />;
  const { check, name, isRetired, about, investigates } = asked;
  const earlier = notedBefore(logbook, asked);
  const isControl = check === 'biological-control';
  const enterHref = newControlHref('biological', about.analyzerId ?? '', investigates?.runId);
  // What was noted before these were entered with their figures stays where it was.
  if (isControl && earlier.length === 0) return <Redirect replace to={enterHref} />;
  return (
    <Spread
      // Another check, or the same of another thing, is another form.
      key={`${params.check} ${params.about} ${params.runId} ${params.as}`}
      left={
        <div className="stack stack--loose">
          <div className="stack">
            <h1>
              {checkWords[check]}, {name}
            </h1>
            <Explanation asked={asked} />
          </div>
          <LooksInto investigates={investigates} isWritten="noted" lacksRun={asked.lacksRun} />
          {isRetired ? (
            <Notice title={`${name} is retired.`} tone="warn">
              <p>Nothing more can be noted of it. What was noted stands here.</p>
            </Notice>
          ) : isControl ? (
            <Notice title="A biological control is entered with its figures." tone="quiet">
              <p>
                <Link href={enterHref}>Enter a biological control</Link>, which is then judged and charted.
                What was noted by a word alone stands here.
              </p>
            </Notice>
          ) : (
            <CheckForm asked={asked} />
          )}
        </div>
      }
      right={
        <section className="stack">
          <h2>Noted before</h2>
          <ChartLink asked={asked} />
          <EarlierChecks asked={asked} />
        </section>
      }
    />
  );
}

function NoSuchCheck() {
  return (
    <Notice title="This address names no check of this logbook." tone="quiet">
      <p>
        <Link href="/today">Today</Link> lists every check with the way to note it.
      </p>
    </Notice>
  );
}

function Explanation({ asked: { check } }: { asked: AskedCheck }) {
  const { logbook } = useLogbook();
  const now = useNow(logbook);
  const { what, limit, caution } = checkText(check, checkLimitsAt(logbook, new Date(now).toISOString()));
  return (
    <>
      <p>{what}</p>
      {limit ? <p className="quiet">{limit}</p> : null}
      {caution ? <p className="quiet">{caution}</p> : null}
    </>
  );
}

/** Where its figures are drawn over time, once there are any. */
function ChartLink({ asked: { check, about } }: { asked: AskedCheck }) {
  const { logbook } = useLogbook();
  const { analyzerId } = about;
  if (analyzerId === null || (check !== 'volume-check' && check !== 'linearity')) return null;
  const hasFigures = logbook.checks.some(
    ({ voided, entry: { body } }) =>
      voided === null &&
      body.analyzerId === analyzerId &&
      body.check === check &&
      (body.volume !== null || body.linearity !== undefined),
  );
  return hasFigures ? (
    <p>
      <Link href={checkSeriesHref(analyzerId, check)}>Over time</Link>
    </p>
  ) : null;
}
