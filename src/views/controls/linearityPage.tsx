import { useMemo } from 'react';
import { initialsIn } from '../amendments.ts';
import { gasWords } from '../gasNames.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime, signedPercent } from '../parts/figures.ts';
import { TableFrame } from '../parts/tableFrame.tsx';
import { TermLine } from '../parts/term.tsx';
import { VerdictMark } from '../parts/verdictMark.tsx';
import { buildResidualChart, buildWorstChart, type GasChecks, gasesOf } from './buildLinearityCharts.ts';
import { checksOf } from './chartedChecks.ts';
import { CheckOutcome } from './checkOutcome.tsx';
import { linearitySentences } from './describeChecks.ts';
import { MarkChart } from './markChart.tsx';
import { NothingMade } from './nothingMade.tsx';
import { WaysOn } from './waysOn.tsx';

/** The linearity of an analyzer's gas analyzers, gas by gas: the newest check, and all of them over time. */
export function LinearityPage({ analyzerId }: { analyzerId: string }) {
  const { logbook } = useLogbook();
  const label = logbook.analyzers.get(analyzerId)?.description.label ?? 'unknown';
  const heading = `Gas analyzer linearity, ${label}`;
  const checks = useMemo(() => checksOf(logbook, analyzerId, 'linearity'), [logbook, analyzerId]);
  const gases = useMemo(() => gasesOf(checks), [checks]);
  if (checks.length === 0) return <NothingMade analyzerId={analyzerId} heading={heading} kind="linearity" />;
  const withoutFigures = checks.filter(({ entry }) => entry.body.linearity === undefined);
  return (
    <div className="stack stack--loose">
      <div className="stack">
        <h1>{heading}</h1>
        <TermLine ids={['full-scale', 'published-limit']} />
        <WaysOn analyzerId={analyzerId} kind="linearity" />
      </div>
      {gases.map((ofGas) => (
        <OneGas key={ofGas.gas} ofGas={ofGas} />
      ))}
      {withoutFigures.length === 0 ? null : (
        <section className="stack group">
          <h2>Noted without figures</h2>
          <ul className="beside__days">
            {[...withoutFigures].reverse().map((check) => (
              <li key={check.id}>
                {dayAndTime(check.entry.body.doneAt, check.entry.zone)} <CheckOutcome check={check} />{' '}
                <span className="quiet">{check.entry.body.note}</span>
              </li>
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}

function OneGas({ ofGas }: { ofGas: GasChecks }) {
  const { logbook } = useLogbook();
  const { gas, checks } = ofGas;
  const [residuals, worst] = useMemo(() => [buildResidualChart(ofGas), buildWorstChart(ofGas)], [ofGas]);
  const name = gasWords[gas];
  return (
    <section aria-label={name} className="stack stack--loose group">
      <div className="stack">
        <h2>{name}</h2>
        {linearitySentences(ofGas).map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </div>
      {residuals === null ? null : <MarkChart heading="h3" model={residuals} />}
      {worst === null || checks.length < 2 ? null : <MarkChart heading="h3" model={worst} />}
      <TableFrame label={`${name}: every check`}>
        <table className="control-table">
          <caption>{name}: every check, newest first</caption>
          <thead>
            <tr>
              <th scope="col">Made</th>
              <th scope="col">This gas</th>
              <th data-number scope="col">
                Largest deviation <span className="unit">% of full scale</span>
              </th>
              <th data-number scope="col">
                From its line <span className="unit">% of full scale</span>
              </th>
              <th data-number scope="col">
                Points
              </th>
              <th scope="col">By</th>
            </tr>
          </thead>
          <tbody>
            {[...checks].reverse().map(({ check, judged }) => (
              <tr key={check.id}>
                <td data-nowrap>{dayAndTime(check.entry.body.doneAt, check.entry.zone)}</td>
                <td>
                  <Within isWithin={judged.within} />
                </td>
                <td data-number>{signedPercent(judged.worstFraction, 2)}</td>
                <td data-number>
                  {judged.worstFromLineFraction === null
                    ? '–'
                    : signedPercent(judged.worstFromLineFraction, 2)}
                </td>
                <td data-number>{judged.points.length}</td>
                <td>{initialsIn(logbook.technologists, check.entry.body.technologistId)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
    </section>
  );
}

/** Of one gas alone: the whole check fails with any of its gases. */
function Within({ isWithin }: { isWithin: boolean }) {
  const mark = isWithin ? 'pass' : 'fail';
  return (
    <span className="badge__word" data-shape={mark}>
      <VerdictMark shape={mark} size={14} />
      {isWithin ? 'Within' : 'Outside'}
    </span>
  );
}
