import { useMemo } from 'react';
import type { Judgement } from '../../journal/entries.ts';
import type { LoggedRun } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dlco, litres, zInTable } from '../parts/figures.ts';
import { History } from '../parts/history.tsx';
import { Struck } from '../parts/struck.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { VerdictBadge } from '../parts/verdictMark.tsx';
import { shownJudgement } from '../verdictOfTheDay.ts';
import { fieldsOf } from './describeRun.ts';
import { historyOfRun } from './runHistory.ts';
import { verdictLines } from './verdictLines.ts';

/** The right page: how the run was judged each time, and every entry about it. */
export function RunStory({ run }: { run: LoggedRun }) {
  const { logbook, snapshot } = useLogbook();
  const history = useMemo(
    () => historyOfRun(run, snapshot.entries, fieldsOf(logbook, run.entry.zone)),
    [run, snapshot.entries, logbook],
  );
  return (
    <div className="stack stack--loose">
      <Verdicts run={run} />
      <History lines={history} />
    </div>
  );
}

function Verdicts({ run }: { run: LoggedRun }) {
  const { logbook, assessments } = useLogbook();
  const judged = shownJudgement(run, assessments);
  const lines = verdictLines(run, assessments, logbook.technologists);
  return (
    <section aria-label="Verdicts" className="stack">
      {judged === null ? (
        <p className="quiet">Its numbers cannot be: see Records. It is not judged.</p>
      ) : (
        <p className="verdict__word">
          <Struck isStruck={run.voided !== null}>
            <VerdictBadge establishing={judged.establishing} size="page" word={judged.word} />
          </Struck>
        </p>
      )}
      <TableFrame label="Verdicts of the run">
        <table>
          <thead>
            <tr>
              <th scope="col">Judged</th>
              <th scope="col">Verdict</th>
              <th data-number scope="col">
                VA <span className="unit">L</span>
              </th>
              <th data-number scope="col">
                z
              </th>
              <th scope="col">Rules</th>
              <th data-number scope="col">
                DLCO <br />
                <span className="unit">mL/min/mmHg</span>
              </th>
              <th data-number scope="col">
                z
              </th>
              <th scope="col">Rules</th>
            </tr>
          </thead>
          <tbody>
            {lines.map(({ key, occasion, when, isStruck, judged: line }) => (
              <tr key={key}>
                <td data-nowrap>
                  {occasion} <br />
                  <span className="quiet">{when}</span>
                </td>
                {line === null ? (
                  <td colSpan={7}>not judged here</td>
                ) : (
                  <JudgementCells isStruck={isStruck} judged={line} />
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
      <p className="quiet small">
        A verdict is written down when it is given and never rewritten. Today’s stands here where the journal
        now says something else: earlier runs were amended, voided or brought in since.
      </p>
    </section>
  );
}

function JudgementCells({ judged, isStruck }: { judged: Judgement; isStruck: boolean }) {
  const { word, establishing } = judged;
  return (
    <>
      <td data-nowrap>
        <Struck isStruck={isStruck}>
          <VerdictBadge establishing={establishing} word={word} />
        </Struck>
      </td>
      <SeriesCells judged={judged.va} write={litres} />
      <SeriesCells judged={judged.dlco} write={(value) => dlco(value, 'mL/min/mmHg')} />
    </>
  );
}

function SeriesCells({
  judged: { value, z, signals },
  write,
}: {
  judged: Judgement['va'];
  write: (value: number) => string;
}) {
  return (
    <>
      <td data-number>{write(value)}</td>
      <td data-number>{z === null ? '–' : zInTable(z)}</td>
      <td>{signals.map(({ rule }) => rule).join(', ') || '–'}</td>
    </>
  );
}
