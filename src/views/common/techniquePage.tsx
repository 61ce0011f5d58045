import { useMemo } from 'react';
import type { Route } from '../../core/index.ts';
import { useLogbook } from '../logbookContext.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { quantityWords, routeWords } from '../parts/words.ts';
import { labelOf } from './describeDay.ts';
import { intervalSentence, leftOutSentence, pairCells, whoSentence } from './describeTechnique.ts';
import { compareTechnologists, practisedSeries, type Technique } from './technologists.ts';

export function TechniquePage({ analyzerId, route }: { analyzerId: string; route: Route }) {
  const { logbook, assessments } = useLogbook();
  const technique = useMemo(() => {
    const series = practisedSeries(logbook, assessments).find(
      (each) => each.analyzerId === analyzerId && each.route === route,
    );
    return series === undefined ? null : compareTechnologists(series, logbook, assessments);
  }, [logbook, assessments, analyzerId, route]);
  const heading = (
    <h2 className="common-title">
      Technologists: <bdi>{labelOf(logbook, analyzerId)}</bdi>, {routeWords[route].toLowerCase()}
    </h2>
  );
  if (technique === null || technique.compared.length < 2) {
    return (
      <div className="stack">
        {heading}
        <p>
          Here will stand how far the technologists read apart. It takes two of them with five accepted runs
          each since the newest baseline began.
        </p>
        {technique === null ? null : <p className="quiet">{leftOutSentence(technique)}</p>}
      </div>
    );
  }
  const pairs = technique.quantities[0]?.pairs.length ?? 0;
  return (
    <div className="stack stack--loose">
      <div className="stack">
        {heading}
        <p>
          <strong>For teaching, not for ranking.</strong> A difference says that two people do something
          differently, not which of them does it well. Look on while both make a run.
        </p>
        <p>{whoSentence(technique)}</p>
        {technique.leftOut.length > 0 ? <p className="quiet">{leftOutSentence(technique)}</p> : null}
      </div>
      {technique.quantities.map((each) => (
        <PairTable key={each.quantity} of={each} />
      ))}
      <p className="small quiet">
        {intervalSentence(pairs)} If one made the earlier runs and another the later ones, a drift of the
        analyzer looks like a difference between them.
      </p>
    </div>
  );
}

function PairTable({ of: { quantity, unit, pairs } }: { of: Technique['quantities'][number] }) {
  const cells = useMemo(() => pairCells(pairs, unit), [pairs, unit]);
  const hasMany = pairs.length > 1;
  const name = quantityWords[quantity];
  return (
    <TableFrame label={`Differences in ${name}`}>
      <table className="common-table">
        <caption>
          Mean difference in {name} <span className="unit">{unit}</span>
        </caption>
        <thead>
          <tr>
            <th scope="col">Technologists</th>
            <th data-number scope="col">
              Difference
            </th>
            <th data-number scope="col">
              95 % interval
            </th>
            {hasMany ? (
              <th data-number scope="col">
                for all {pairs.length} pairs together
              </th>
            ) : null}
            <th scope="col">What it says</th>
          </tr>
        </thead>
        <tbody>
          {cells.map(({ key, names, difference, byItself, together, says }) => (
            <tr key={key}>
              <th data-nowrap scope="row">
                {names}
              </th>
              <td data-number>{difference}</td>
              <td data-number>{byItself}</td>
              {hasMany ? <td data-number>{together}</td> : null}
              <td>{says}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  );
}
