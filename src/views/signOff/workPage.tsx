import { Link } from 'wouter';
import { signOffHref } from '../deskRoutes.ts';
import { TextAreaField, TickField } from '../parts/field.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { quantityWords, routeWords } from '../parts/words.ts';
import { seriesPath } from '../routes.ts';
import type { WorkPage } from './buildWorklist.ts';
import { Gaps } from './gaps.tsx';
import { NewRuns } from './newRuns.tsx';
import type { SeriesFigures } from './periodFigures.ts';
import type { SignOffInHand } from './useSignOff.ts';

/** The right page: all that is new about one analyzer, or about the laboratory as a whole. */
export function WorkPageView({ page, inHand }: { page: WorkPage; inHand: SignOffInHand }) {
  const { id, label, analyzer, stamp, runs, passed, controls, series, gaps, groups, count } = page;
  const { draft, change, tick, worklist } = inHand;
  const next = nextToLookThrough(worklist?.pages ?? [], page, draft.seen);
  return (
    <article className="stack stack--loose">
      <header className="stack">
        <h1>{label}</h1>
        {count === 0 ? <p className="quiet">Nothing new was written about it.</p> : null}
        {analyzer === null ? null : <p>{passed}</p>}
        {controls === '' ? null : <p>{controls}</p>}
      </header>
      {analyzer !== null && series.length > 0 ? (
        <Figures analyzerId={analyzer.id} label={label} series={series} />
      ) : null}
      {gaps.length > 0 ? <Gaps analyzerId={id} gaps={gaps} /> : null}
      {runs.length > 0 ? <NewRuns label={label} runs={runs} /> : null}
      {groups.map(({ id: group, title, lines }) => (
        <section className="stack group" key={group}>
          <h2>{title}</h2>
          <ul className="work-lines">
            {lines.map(({ key, sentence, written }) => (
              <li key={key}>
                {sentence} <span className="quiet small">{written}</span>
              </li>
            ))}
          </ul>
        </section>
      ))}
      <section className="stack group">
        {analyzer === null ? null : (
          <TextAreaField
            label={`On ${label}`}
            onText={(text) => change({ comments: { ...draft.comments, [id]: text } })}
            value={draft.comments[id] ?? ''}
          />
        )}
        <TickField
          checked={draft.seen.includes(stamp)}
          label={`${label}: looked through`}
          onTick={(ticked) => tick(stamp, ticked)}
        />
        {next === null ? null : (
          <p>
            Next: <Link href={signOffHref(next.id)}>{next.label}</Link>
          </p>
        )}
      </section>
    </article>
  );
}

/** The next page down the list that was not looked through, and from its end again from the top. */
function nextToLookThrough(pages: readonly WorkPage[], now: WorkPage, seen: readonly string[]) {
  const at = pages.findIndex(({ id }) => id === now.id);
  const inTurn = [...pages.slice(at + 1), ...pages.slice(0, Math.max(0, at))];
  return inTurn.find(({ stamp }) => !seen.includes(stamp)) ?? null;
}

function Figures({
  analyzerId,
  label,
  series,
}: {
  analyzerId: string;
  label: string;
  series: readonly SeriesFigures[];
}) {
  return (
    <section className="stack group">
      <h2>Against the baseline</h2>
      <TableFrame label={`${label}: new runs against the baseline`}>
        <table>
          <thead>
            <tr>
              <th scope="col">Series</th>
              <th data-number scope="col">
                Runs
              </th>
              <th data-number scope="col">
                Mean
              </th>
              <th data-number scope="col">
                SD
              </th>
              <th data-number scope="col">
                CV
              </th>
              <th scope="col">Limits in force</th>
              <th scope="col">Mean off by</th>
            </tr>
          </thead>
          <tbody>
            {series.map((one) => (
              <tr key={one.key}>
                <th scope="row">
                  <Link href={seriesPath({ analyzerId, ...one.series })}>
                    {quantityWords[one.series.quantity]}
                  </Link>{' '}
                  <span className="unit">{one.unit}</span> <br />
                  <span className="quiet small">
                    {routeWords[one.series.route]}
                    {one.stretch === '' ? '' : `, ${one.stretch}`}
                  </span>
                </th>
                <td data-number>{one.count}</td>
                <td data-number>{one.mean}</td>
                <td data-number>{one.sd}</td>
                <td data-number data-nowrap>
                  {one.cv}
                </td>
                <td>{one.baseline}</td>
                <td>{one.off}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
      <p className="quiet small">
        Of the new runs that count: none that was voided or set aside. Failing runs are among them.
      </p>
    </section>
  );
}
