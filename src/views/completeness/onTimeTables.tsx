import { Link } from 'wouter';
import type { OnTime } from '../../core/index.ts';
import { quarterWords } from '../completenessOf.ts';
import { completenessHref } from '../deskRoutes.ts';
import { percent } from '../parts/figures.ts';
import { TableFrame } from '../parts/tableFrame.tsx';
import { TermLine } from '../parts/term.tsx';
import { type AnalyzerLine, type OtherCheck, quartersOf } from './buildCompleteness.ts';

/** On-time runs per analyzer and quarter. */
export function QuarterTable({ lines }: { lines: readonly AnalyzerLine[] }) {
  const quarters = quartersOf(lines);
  return (
    <section className="stack group">
      <h2>On time, quarter by quarter</h2>
      <TableFrame label="Runs on time per analyzer and quarter">
        <table>
          <thead>
            <tr>
              <th scope="col">Analyzer</th>
              {quarters.map((quarter) => (
                <th data-number key={quarter} scope="col">
                  {quarterWords(quarter)}
                </th>
              ))}
              <th data-number scope="col">
                Whole
              </th>
            </tr>
          </thead>
          <tbody>
            {lines.map(({ analyzer, label, answer }) => (
              <tr key={analyzer.id}>
                <th scope="row">
                  <Link href={completenessHref(analyzer.id)}>{label}</Link>
                </th>
                {quarters.map((quarter) => (
                  <td data-number data-nowrap key={quarter}>
                    <Rate of={answer?.quarters.find((one) => one.quarter === quarter)} />
                  </td>
                ))}
                <td data-number data-nowrap>
                  <Rate of={answer?.whole} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
      <HowCounted />
    </section>
  );
}

/** One analyzer's quarters in full. */
export function QuartersOfOne({ line: { label, answer } }: { line: AnalyzerLine }) {
  if (answer === null) return null;
  return (
    <section className="stack group">
      <h2>On time, quarter by quarter</h2>
      <TableFrame label={`${label}: runs on time per quarter`}>
        <table>
          <OnTimeHead first="Quarter" />
          <tbody>
            {answer.quarters.map((quarter) => (
              <OnTimeRow key={quarter.quarter} name={quarterWords(quarter.quarter)} of={quarter} />
            ))}
            <OnTimeRow name="Whole" of={answer.whole} />
          </tbody>
        </table>
      </TableFrame>
      <HowCounted />
    </section>
  );
}

export function OtherChecks({ label, checks }: { label: string; checks: readonly OtherCheck[] }) {
  return (
    <section className="stack group">
      <h2>Its other checks</h2>
      {checks.length === 0 ? (
        <p className="quiet">
          None is made by an interval here. How often each is made is set under{' '}
          <Link href="/laboratory">Laboratory</Link>.
        </p>
      ) : (
        <TableFrame label={`${label}: other checks on time`}>
          <table>
            <OnTimeHead first="Check" />
            <tbody>
              {checks.map(({ check, name, interval, whole }) => (
                <OnTimeRow key={check} name={name} of={whole} quietly={interval} />
              ))}
            </tbody>
          </table>
        </TableFrame>
      )}
    </section>
  );
}

function OnTimeHead({ first }: { first: string }) {
  return (
    <thead>
      <tr>
        <th scope="col">{first}</th>
        {['Due', 'On time', 'Late', 'Missed', 'Reason given', 'On time of due'].map((name) => (
          <th data-number key={name} scope="col">
            {name}
          </th>
        ))}
      </tr>
    </thead>
  );
}

function OnTimeRow({ name, of, quietly }: { name: string; of: OnTime; quietly?: string }) {
  const { due, onTime, late, missed, explained, rate } = of;
  return (
    <tr>
      <th data-nowrap={quietly === undefined ? true : undefined} scope="row">
        {name} {quietly === undefined ? null : <span className="quiet small">{quietly}</span>}
      </th>
      {[due, onTime, late, missed].map((count, place) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the columns of a row never move.
        <td data-number key={place}>
          {count}
        </td>
      ))}
      <td data-number data-nowrap>
        {late + missed === 0 ? '–' : `${explained} of ${late + missed}`}
      </td>
      <td data-number data-nowrap>
        {rate === null ? '–' : `${percent(rate, 0)} %`}
      </td>
    </tr>
  );
}

function Rate({ of }: { of: OnTime | undefined }) {
  if (of === undefined || of.rate === null) return '–';
  return (
    <>
      {percent(of.rate, 0)} %{' '}
      <span className="quiet small">
        {of.onTime} of {of.due}
      </span>
    </>
  );
}

function HowCounted() {
  return (
    <>
      <p className="quiet small">
        A run is due one interval after the one before it, and after days out of service on the first day of
        use again. On time is made on that day or before it. A missed date counts in its own quarter, with a
        reason or without.
      </p>
      <TermLine ids={['on-time']} />
    </>
  );
}
