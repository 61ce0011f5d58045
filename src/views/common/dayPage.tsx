import { useMemo } from 'react';
import { Link } from 'wouter';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { RunVerdict } from '../parts/runInTable.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { quantityWords } from '../parts/words.ts';
import { rowCells, sentenceOf, syringeOf, whatTheyShare } from './describeDay.ts';
import type { SharedDay } from './sharedDays.ts';
import { type SplitQuantity, splitDay } from './splitDay.ts';

/** One syringe's day: what it says, the shift of each quantity split by analyzer, and what else they shared. */
export function DayPage({ day }: { day: SharedDay }) {
  const { logbook, assessments } = useLogbook();
  const split = useMemo(() => splitDay(day, logbook, assessments), [day, logbook, assessments]);
  return (
    <section className="stack">
      <h3>
        <bdi>{syringeOf(logbook, day.syringeId)}</bdi>
      </h3>
      {split.map((each) => (
        <p data-kind={each.kind} key={each.quantity}>
          {sentenceOf(each, logbook)}
        </p>
      ))}
      {split.map((each) => (
        <SplitTable day={day} key={each.quantity} split={each} />
      ))}
      <h4 className="common-shared">What they shared besides the syringe</h4>
      <FigureList rows={whatTheyShare(day, logbook)} />
      <p className="small quiet">
        Of each analyzer the first run of the day counts, against its own mean as it was known then. The
        common part is what a median polish of the analyzers over this day and their five accepted runs before
        it finds in this day; the analyzer’s own is the rest, with where it stood before. Beyond 2 SD a part
        counts as a movement. Two analyzers have no median to go by: where only one moved it is that one,
        where both moved alike it is what they share.
      </p>
    </section>
  );
}

function SplitTable({ split, day }: { split: SplitQuantity; day: SharedDay }) {
  const { logbook, assessments } = useLogbook();
  const cells = useMemo(() => rowCells(split, day, logbook), [split, day, logbook]);
  const name = quantityWords[split.quantity];
  return (
    <TableFrame label={`Shift of ${name}`}>
      <table className="common-table">
        <caption>
          Shift of {name}, in SD of each analyzer and in {split.unit}
        </caption>
        <thead>
          <tr>
            <th scope="col">Analyzer</th>
            <th scope="col">What it says</th>
            <th data-number scope="col">
              Off its mean <span className="unit">{split.unit}</span>
            </th>
            <th data-number scope="col">
              z
            </th>
            <th data-number scope="col">
              In common
            </th>
            <th data-number scope="col">
              Its own
            </th>
            <th scope="col">Run</th>
          </tr>
        </thead>
        <tbody>
          {split.rows.map(({ run }, index) => {
            const row = cells[index];
            return row === undefined ? null : (
              <tr key={row.analyzerId}>
                <th scope="row">
                  <bdi>{row.analyzer}</bdi>
                </th>
                <td>{row.says}</td>
                <td data-number>{row.off}</td>
                <td data-number>{row.z}</td>
                <td data-number>{row.common}</td>
                <td data-number>{row.own}</td>
                <td>
                  <Link href={row.href}>{row.route}</Link> <RunVerdict assessments={assessments} run={run} />{' '}
                  <span className="quiet">{row.more}</span>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </TableFrame>
  );
}
