import { TableFrame } from '../parts/tableFrame.tsx';
import type { FalseAlarmRow } from './buildFalseAlarms.ts';
import type { Counting } from './questions.ts';

const alarmWords: Record<Counting, string> = {
  signal: 'Good runs that get a warning or fail.',
  failure: 'Good runs that fail, and open a failure.',
};

/** What the rules say while nothing is wrong. */
export function FalseAlarms({ rows, counting }: { rows: readonly FalseAlarmRow[]; counting: Counting }) {
  const hasWhatIf = rows.some(({ whatIf }) => whatIf !== null);
  return (
    <section className="stack group">
      <h3>False alarms, while nothing is wrong</h3>
      <p>{alarmWords[counting]}</p>
      <TableFrame label="False alarms">
        <table className="notice-table">
          <thead>
            <tr>
              <th scope="col">Of</th>
              <th scope="col">In force</th>
              {hasWhatIf ? <th scope="col">What if</th> : null}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ of, inForce, whatIf }) => (
              <tr key={of}>
                <th scope="row">{of}</th>
                <td>{inForce}</td>
                {whatIf === null ? null : (
                  <td data-changed={whatIf === inForce ? undefined : true}>{whatIf}</td>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
      <p className="small quiet">
        The fleet in force: each analyzer by its own policy.
        {hasWhatIf ? ' What if: the rules tried here on every analyzer.' : ''}
      </p>
    </section>
  );
}
