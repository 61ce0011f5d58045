/** Puts a run on the bench from wherever it is asked for: what is due, a failure that is looked into, an analyzer's page. */
import { useLocation } from 'wouter';
import type { RunContent } from '../journal/entries.ts';
import type { LoggedRun } from '../journal/logbook.ts';
import { laboratoryOf } from '../journal/standing.ts';
import { useLogbook } from './logbookContext.tsx';
import { type BenchDraft, isHalfTyped } from './runForm/benchDraft.ts';
import { draftForAnalyzer } from './runForm/draftMoves.ts';
import { draftForNewRun, draftOfRepeat } from './runForm/draftsToBegin.ts';
import { lastRunOf } from './runForm/lastRunOf.ts';
import { useScreenState } from './screenState.ts';
import { shownJudgement } from './verdictOfTheDay.ts';

export interface RunStart {
  analyzerId: string;
  /** Each as the analyzer's last run had it where it is left out. */
  route?: RunContent['route'];
  syringeId?: string;
  reason?: RunContent['reason'];
  investigates?: RunContent['investigates'];
}

export function useStartRun(): (start: RunStart) => void {
  const { logbook } = useLogbook();
  const begin = useBegin();
  return (start) => {
    const { analyzerId, route, syringeId, reason = 'weekly', investigates = null } = start;
    const analyzer = logbook.analyzers.get(analyzerId);
    if (analyzer === undefined) return;
    const { benchDraft } = useScreenState.getState();
    if (isHalfTyped(benchDraft) && isTheSame(benchDraft, start)) {
      begin(benchDraft);
      return;
    }
    const { temperatureUnit } = laboratoryOf(logbook);
    const draft = draftForAnalyzer(
      draftForNewRun(benchDraft),
      analyzer,
      lastRunOf(logbook, analyzerId),
      temperatureUnit,
    );
    // Another syringe than the one in hand is not carried over, and nothing is on it yet.
    const { syringeId: _, attached: __, ...origins } = draft.origins;
    const withSyringe =
      syringeId && syringeId !== draft.syringeId ? { syringeId, attached: [], origins } : {};
    begin({ ...draft, reason, investigates, ...(route && { route }), ...withSyringe });
  };
}

/** The run in hand is the one that is asked for: it goes on as it stands. */
const isTheSame = (
  draft: BenchDraft,
  { analyzerId, route = draft.route, syringeId, reason = 'weekly', investigates }: RunStart,
) =>
  draft.analyzerId === analyzerId &&
  draft.route === route &&
  draft.reason === reason &&
  (syringeId === undefined || draft.syringeId === syringeId) &&
  draft.investigates?.runId === investigates?.runId &&
  draft.investigates?.check === investigates?.check;

/** Puts a run on the bench once more. The repeat of a failed run looks into the failure. */
export function useRepeatRun(): (run: LoggedRun) => void {
  const { assessments } = useLogbook();
  const begin = useBegin();
  return (run) => {
    const hasFailed = shownJudgement(run, assessments)?.word === 'fail';
    const { technologistId } = useScreenState.getState().benchDraft;
    begin({
      ...draftOfRepeat(run, technologistId, Date.now()),
      investigates: hasFailed ? { runId: run.body.investigates?.runId ?? run.id, check: 'repeat' } : null,
    });
  };
}

/** What was half typed for another run is laid aside, where the bench shows it: nothing is labelled anew, nothing is lost. */
function useBegin(): (draft: BenchDraft) => void {
  const [, navigate] = useLocation();
  return (draft) => {
    const { benchDraft, benchAside, setBenchDraft, setBenchAside, setRecordedRunId, setBegun } =
      useScreenState.getState();
    if (benchDraft !== draft && isHalfTyped(benchDraft)) setBenchAside([...benchAside, benchDraft]);
    setRecordedRunId(null);
    setBenchDraft(draft);
    setBegun(true);
    navigate('/bench');
  };
}

/** Takes a run up again that was laid aside; what is half typed now is laid there in its place. */
export function goBackTo(aside: BenchDraft): void {
  const { benchDraft, benchAside, setBenchDraft, setBenchAside, setRecordedRunId, setBegun } =
    useScreenState.getState();
  const others = benchAside.filter((one) => one !== aside);
  setBenchAside(isHalfTyped(benchDraft) ? [...others, benchDraft] : others);
  setRecordedRunId(null);
  setBenchDraft(inHandsOf(benchDraft, aside));
  setBegun(true);
}

/** Who stands at the bench now, not who did when the run was laid aside: theirs are the initials beside what comes next. */
function inHandsOf({ technologistId, origins }: BenchDraft, aside: BenchDraft): BenchDraft {
  if (technologistId === '' || technologistId === aside.technologistId) return aside;
  const { technologistId: _, ...others } = aside.origins;
  const carried = origins.technologistId;
  return {
    ...aside,
    technologistId,
    origins: { ...others, ...(carried && { technologistId: carried }) },
  };
}

export function throwAway(aside: BenchDraft): void {
  const { benchAside, setBenchAside, setBegun } = useScreenState.getState();
  setBenchAside(benchAside.filter((one) => one !== aside));
  setBegun(true);
}
