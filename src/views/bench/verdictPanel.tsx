import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { VerdictMark } from '../parts/verdictMark.tsx';
import { VerdictSoFar } from '../parts/verdictSoFar.tsx';
import { benchFields } from '../runForm/benchDraft.ts';
import { Judged } from '../runForm/judged.tsx';
import type { Bench } from '../runForm/useRunOnBench.ts';
import { useScreenState } from '../screenState.ts';

/** The live verdict while a run is typed, and the recorded one after it is saved. */
export function VerdictPanel({ bench }: { bench: Bench }) {
  const { logbook, assessments } = useLogbook();
  const recordedRunId = useScreenState((state) => state.recordedRunId);
  // Voided since on its own page, it is no verdict to go by any more.
  // From the end, and not at all while a run is typed: at every key years of runs would be searched for none.
  const recorded =
    recordedRunId === null
      ? undefined
      : logbook.runs.findLast(({ id, voided }) => id === recordedRunId && voided === null);
  const recordedAssessment = recorded && assessments.get(recorded.id);
  if (recorded && recordedAssessment) {
    const writer = logbook.technologists.get(recorded.entry.by);
    return (
      <section aria-label="Recorded verdict" className="stack verdict" data-state="recorded">
        <p className="quiet" role="status">
          <span className="verdict__saved">Saved.</span>{' '}
          <bdi>{logbook.analyzers.get(recorded.body.analyzerId)?.description.label}</bdi>, run of{' '}
          {dayAndTime(recorded.body.madeAt)}, recorded by <bdi>{writer?.initials ?? 'an unknown person'}</bdi>
          .
        </p>
        <Judged assessment={recordedAssessment} run={recorded.body} runId={recorded.id} />
      </section>
    );
  }
  const { reading, assessment } = bench;
  return (
    <section
      aria-label="Verdict while typing"
      className="stack verdict"
      data-state={assessment ? 'live' : 'waiting'}
    >
      {assessment && reading.run ? (
        <>
          <p className="quiet">Not recorded yet</p>
          <Judged assessment={assessment} run={reading.run} />
        </>
      ) : (
        <Waiting bench={bench} />
      )}
      <VerdictSoFar word={assessment?.verdict.word} />
    </section>
  );
}

const waitingFor: Partial<Record<keyof Bench['draft'], string>> = {
  analyzerId: 'the analyzer',
  syringeId: 'the syringe',
  temperature: 'temperature',
  pressure: 'pressure',
  humidity: 'humidity',
  va: 'VA',
  dlco: 'DLCO',
};

function Waiting({ bench: { reading, showsTrouble } }: { bench: Bench }) {
  const wanted = reading.missing.flatMap((field) => waitingFor[field] ?? []);
  const wrong = benchFields.filter((field) => reading.errors[field] !== undefined);
  return (
    <>
      <p className="verdict__waiting quiet">
        <VerdictMark shape="establishing" size={28} /> No verdict yet
      </p>
      <p className="quiet">
        {wrong.some(showsTrouble)
          ? 'A value in the form cannot be right; the message stands beside it.'
          : wanted.length > 0
            ? `Still to come: ${wanted.join(', ')}. The verdict appears here while you type.`
            : 'The verdict appears here when the value is typed to its end.'}
      </p>
      <p className="quiet small">
        Test gas holds carbon monoxide and comes from a compressed-gas cylinder: ventilate the room, secure
        the cylinder, and follow your local rules.
      </p>
    </>
  );
}
