import { useMemo } from 'react';
import type { LoggedControl } from '../../journal/logbook.ts';
import { judgedAsWritten } from '../controlAsWritten.ts';
import { useLogbook } from '../logbookContext.tsx';
import { zInTable } from '../parts/figures.ts';
import { History } from '../parts/history.tsx';
import { Struck } from '../parts/struck.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { VerdictBadge } from '../parts/verdictMark.tsx';
import { useControlAssessments } from '../useControlAssessments.ts';
import { historyOfControl } from './controlHistory.ts';
import { ControlReasons } from './controlVerdict.tsx';
import { fieldsOfControl } from './describeControl.ts';
import { SameDayRuns } from './sameDayRuns.tsx';
import { type ControlVerdictLine, rulesOf, seriesValue, verdictLines } from './verdictLines.ts';
import { seriesWords } from './words.ts';

/** The right page: how the control was judged each time, the syringe's word that day, and every entry about it. */
export function ControlStory({ logged }: { logged: LoggedControl }) {
  const { logbook, snapshot } = useLogbook();
  const assessment = useControlAssessments().get(logged.id);
  const { control, entry } = logged;
  const history = useMemo(
    () => historyOfControl(logged, snapshot.entries, fieldsOfControl(control.kind, logbook, entry.zone)),
    [logged, snapshot.entries, logbook, control.kind, entry.zone],
  );
  return (
    <div className="stack stack--loose">
      <Verdicts logged={logged} />
      {control.kind === 'biological' && assessment !== undefined && !('levels' in assessment) ? (
        <SameDayRuns assessment={assessment} control={control} zone={entry.zone} />
      ) : null}
      <History lines={history} />
    </div>
  );
}

function Verdicts({ logged }: { logged: LoggedControl }) {
  const { logbook } = useLogbook();
  const assessment = useControlAssessments().get(logged.id);
  const judged = judgedAsWritten(logged);
  const lines = verdictLines(logged, assessment, logbook.technologists);
  return (
    <section aria-label="Verdicts" className="stack">
      <p className="verdict__word">
        <Struck isStruck={logged.voided !== null}>
          <VerdictBadge establishing={judged.establishing} size="page" word={judged.word} />
        </Struck>
      </p>
      {assessment === undefined ? (
        <p className="quiet">Its numbers cannot be: it is not judged today.</p>
      ) : null}
      <TableFrame label="Verdicts of the control">
        <table>
          <thead>
            <tr>
              <th scope="col">Judged</th>
              <th scope="col">Verdict</th>
              <th scope="col">Series</th>
              <th data-number scope="col">
                Value
              </th>
              <th data-number scope="col">
                z
              </th>
              <th scope="col">Published</th>
              <th scope="col">Rules</th>
            </tr>
          </thead>
          {lines.map((line) => (
            <OneVerdict key={line.key} line={line} />
          ))}
        </table>
      </TableFrame>
      {assessment === undefined ? null : (
        <details className="why">
          <summary>Why, as it comes out today</summary>
          <div className="stack">
            <ControlReasons assessment={assessment} control={logged.control} logged={logged} />
          </div>
        </details>
      )}
      <p className="quiet small">
        DLCO is in mL/min/mmHg, of a level its distance from target; VA in L. A verdict is written down when
        it is given and never rewritten. Today’s stands here where the journal now says something else.
      </p>
    </section>
  );
}

function OneVerdict({ line: { occasion, when, judged, isStruck } }: { line: ControlVerdictLine }) {
  const { word, establishing, series } = judged;
  return (
    <tbody>
      {series.map((one, index) => (
        <tr key={one.name}>
          {index === 0 ? (
            <>
              <td data-nowrap rowSpan={series.length}>
                {occasion} <br />
                <span className="quiet">{when}</span>
              </td>
              <td data-nowrap rowSpan={series.length}>
                <Struck isStruck={isStruck}>
                  <VerdictBadge establishing={establishing} word={word} />
                </Struck>
              </td>
            </>
          ) : null}
          <td data-nowrap>{seriesWords[one.name]}</td>
          <td data-number>{seriesValue(one)}</td>
          <td data-number>{one.z === null ? '–' : zInTable(one.z)}</td>
          <td>{publishedWord(one.withinPublished)}</td>
          <td>{rulesOf(one) || '–'}</td>
        </tr>
      ))}
    </tbody>
  );
}

const publishedWord = (within: boolean | null) => (within === null ? '–' : within ? 'inside' : 'outside');
