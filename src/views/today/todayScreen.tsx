import { useMemo, useState } from 'react';
import { useParams } from 'wouter';
import { decodedPart } from '../deskRoutes.ts';
import { openFailures } from '../failures.ts';
import { wantsSomebody } from '../lineStates.ts';
import { useLogbook } from '../logbookContext.tsx';
import { TickField } from '../parts/field.tsx';
import { counted } from '../parts/figures.ts';
import { localZone } from '../parts/localTime.ts';
import { Notice } from '../parts/notice.tsx';
import { Spread } from '../parts/spread.tsx';
import { useChosenInSight } from '../parts/useChosenInSight.ts';
import { useNow } from '../parts/useNow.ts';
import { dayByName } from '../scheduleWords.ts';
import { useScreenState } from '../screenState.ts';
import { useStartRun } from '../startRun.ts';
import { useFailures } from '../useFailures.ts';
import { AllChecks } from './allChecks.tsx';
import { buildToday, type TodayPage } from './buildToday.ts';
import './today.css';
import { SharedLines } from './sharedLines.tsx';
import { AnalyzerLine } from './todayLine.tsx';
import { useDigitKeys } from './useDigitKeys.ts';
import { useFocusOnOpening } from './useFocusOnOpening.ts';
import { useKeysSetting } from './useKeysSetting.ts';

/** What is due, for whoever comes in on a Monday morning: an analyzer a line on the left page, every check on the right. */
export default function TodayScreen() {
  const { logbook } = useLogbook();
  const failures = useFailures();
  const now = useNow(logbook);
  // As the workstation's clock on the wall, which may move to another zone while the page stands open.
  const zone = localZone();
  const page = useMemo(
    () => buildToday(logbook, openFailures(failures), now, zone),
    [logbook, failures, now, zone],
  );
  const { '*': address = '' } = useParams();
  const inHand = useScreenState((state) => state.benchDraft.analyzerId);
  const rightPage = useChosenInSight(address);
  const [voiding, setVoiding] = useState<string | null>(null);
  const startRun = useStartRun();
  const [keysAreOn, setKeysOn] = useKeysSetting();
  // What is typed into a form of the right page must not be left by a slip beside its field.
  useDigitKeys(keysAreOn && voiding === null, (digit) => {
    const line = page.lines.find((one) => one.digit === digit);
    if (line?.start) startRun(line.start.run);
  });
  const about = decodedPart(address);
  const firstStart = useFocusOnOpening<HTMLButtonElement>(about === '');
  const firstDue = page.lines.find((line) => line.start !== null && wantsSomebody(line));
  const chosen = [about, inHand]
    .map((id) => page.lines.find(({ analyzerId }) => analyzerId === id))
    .find((line) => line !== undefined);
  const shown = chosen ?? page.lines[0];

  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <div className="stack">
            <div className="line line--baseline">
              <h1>Today</h1>
              <span className="quiet">{dayByName(page.today, page.today)}</span>
            </div>
            <p className="today__summary">{page.summary}</p>
            <SharedLines lines={page.ofTheLaboratory.filter(wantsSomebody)} />
          </div>
          <DatedAhead sentences={page.datedAhead} />
          <ol className="ledger">
            {page.lines.map((line) => (
              <AnalyzerLine
                isChosen={line === shown}
                key={line.analyzerId}
                keysAreOn={keysAreOn}
                line={line}
                onStart={startRun}
                startRef={line === firstDue ? firstStart : undefined}
              />
            ))}
          </ol>
          {page.lines.some(({ digit }) => digit !== null) ? (
            <TickField checked={keysAreOn} label={<KeysInWords lines={page.lines} />} onTick={setKeysOn} />
          ) : page.lines.length === 0 ? (
            <p className="quiet">No analyzer is in use.</p>
          ) : null}
        </div>
      }
      right={
        <div ref={rightPage}>
          <AllChecks about={about} onVoiding={setVoiding} page={page} shown={shown} voiding={voiding} />
        </div>
      }
    />
  );
}

function KeysInWords({ lines }: Pick<TodayPage, 'lines'>) {
  const count = lines.filter(({ digit }) => digit !== null).length;
  return count === 1
    ? 'Key 1 alone starts the run beside it'
    : `Keys 1 to ${count} alone start the run beside them`;
}

function DatedAhead({ sentences }: { sentences: readonly string[] }) {
  if (sentences.length === 0) return null;
  return (
    <Notice title={`${counted(sentences.length, 'check is', 'checks are')} dated after today`} tone="warn">
      {sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <p>
        {sentences.length === 1 ? 'It does' : 'They do'} not count as done yet. Is the date a slip? Then amend
        the run, or void the check. Is the clock of this workstation wrong? Then put it right.
      </p>
    </Notice>
  );
}
