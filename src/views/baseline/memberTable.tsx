import type { LoggedRun } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { useLogbook } from '../logbookContext.tsx';
import { counted, dayAndTime, zInTable } from '../parts/figures.ts';
import { RunLink, RunVerdict, TechnologistOf } from '../parts/runInTable.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import type { Desk, DeskRun } from './baselineRuns.ts';
import type { BaselineScale } from './baselineScale.ts';
import type { BaselineWords } from './describeBaseline.ts';

/** The runs of the epoch: those that make the limits, those set aside, and how many count in nothing. */
export function MemberTable({
  desk: { inForce },
  scale,
  words,
  onSetAside,
}: {
  desk: Desk;
  scale: BaselineScale;
  words: BaselineWords;
  onSetAside: (run: LoggedRun) => void;
}) {
  const { members, runs } = inForce;
  const aside = runs.filter(({ run }) => run.setAside !== null);
  const notAccepted = runs.filter(({ run, evaluation }) => run.setAside === null && !evaluation.accepted);
  const later = runs.length - members.length - aside.length - notAccepted.length;
  return (
    <section className="stack">
      <h2>Its runs</h2>
      {members.length === 0 ? (
        <p className="quiet">None yet. The runs that make the limits stand here.</p>
      ) : (
        <TableFrame label="Runs of the baseline">
          <table>
            <thead>
              <tr>
                <th scope="col">Made at</th>
                <th data-number scope="col">
                  <span className="unit">{scale.unit}</span>
                </th>
                <th data-number data-nowrap scope="col">
                  SD off
                </th>
                <th scope="col">Verdict</th>
                <th scope="col">By</th>
                <th scope="col">
                  <span className="for-readers">To do</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {members.map((one) => (
                <Member key={one.run.id} member={one} onSetAside={onSetAside} scale={scale} words={words} />
              ))}
            </tbody>
          </table>
        </TableFrame>
      )}
      <p className="quiet small">
        {[
          ...(later > 0 ? [`${counted(later, 'accepted run')} of this epoch not in it`] : []),
          ...(notAccepted.length > 0
            ? [`${counted(notAccepted.length, 'run')} in no mean: failed, or made while a failure was open`]
            : []),
          ...(aside.length > 0 ? [`${aside.length} set aside`] : []),
        ].join('; ')}
      </p>
      {aside.length > 0 ? <SetAsideList aside={aside} onSetAside={onSetAside} scale={scale} /> : null}
    </section>
  );
}

function Member({
  member: { run, value },
  scale,
  words: { mean, sd, outlying },
  onSetAside,
}: {
  member: DeskRun;
  scale: BaselineScale;
  words: BaselineWords;
  onSetAside: (run: LoggedRun) => void;
}) {
  const { logbook, assessments } = useLogbook();
  const { technologists } = logbook;
  return (
    <tr>
      <td data-nowrap>
        <RunLink run={run} technologists={technologists} />
      </td>
      <td data-number>{scale.value(value)}</td>
      <td data-number data-nowrap>
        {mean === null || sd === null ? '–' : zInTable((value - mean) / sd)}
      </td>
      <td>
        <RunVerdict assessments={assessments} run={run} />
        {outlying.has(run.id) ? <strong className="small"> stands apart</strong> : null}
      </td>
      <td>
        <TechnologistOf run={run} technologists={technologists} />
      </td>
      <td data-nowrap>
        <button
          aria-label={`Set aside the run of ${dayAndTime(run.body.madeAt, run.entry.zone)}…`}
          data-weight="line"
          onClick={() => onSetAside(run)}
          type="button"
        >
          Set aside…
        </button>
      </td>
    </tr>
  );
}

function SetAsideList({
  aside,
  scale,
  onSetAside,
}: {
  aside: readonly DeskRun[];
  scale: BaselineScale;
  onSetAside: (run: LoggedRun) => void;
}) {
  const { logbook } = useLogbook();
  return (
    <>
      <h3>Set aside</h3>
      <ul className="aside-list">
        {aside.map(({ run, value }) => (
          <li className="line" key={run.id}>
            <span>
              <RunLink run={run} technologists={logbook.technologists} />, {scale.value(value)}{' '}
              <span className="unit">{scale.unit}</span>{' '}
              {run.setAside ? (
                <span className="quiet small">
                  {initialsIn(logbook.technologists, run.setAside.by)}: {run.setAside.reason}
                </span>
              ) : null}
            </span>
            <button
              aria-label={`Take back in the run of ${dayAndTime(run.body.madeAt, run.entry.zone)}…`}
              data-weight="line"
              onClick={() => onSetAside(run)}
              type="button"
            >
              Take back in…
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}
