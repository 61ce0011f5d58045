import type { ReactNode } from 'react';
import { VerdictBadge } from '../parts/verdictMark.tsx';
import type { RunRow } from './buildRunRows.ts';

export interface Column {
  title: string;
  number?: true;
  /** Its buttons say what they do: the title is for screen readers only. */
  hidden?: true;
}

/** What is worked out from the reading: much for VA; nothing for DLCO, unless the analyzer's unit was changed. */
export type Worked = 'va' | 'dlco-in-other-unit' | 'nothing';

const workedColumns: Record<Worked, readonly Column[]> = {
  va: [
    { title: 'Factor', number: true },
    { title: 'Simulated VA', number: true },
    { title: 'Off target', number: true },
  ],
  'dlco-in-other-unit': [{ title: 'DLCO', number: true }],
  nothing: [],
};

/** The columns in the order of RunCells. */
export function columnsOf(worked: Worked): readonly Column[] {
  return [
    { title: 'Made' },
    { title: worked === 'nothing' ? 'DLCO' : 'Reading', number: true },
    { title: 'Room', number: true },
    ...workedColumns[worked],
    { title: 'n', number: true },
    { title: 'Mean', number: true },
    { title: 'SD', number: true },
    { title: 'z', number: true },
    { title: 'Signals' },
    { title: 'Verdict' },
    { title: 'By' },
    { title: 'Note' },
    { title: 'Void', hidden: true },
  ];
}

export function RunCells({
  row,
  worked,
  unit,
  onVoid,
}: {
  row: RunRow;
  worked: Worked;
  unit: string;
  onVoid: () => void;
}) {
  const written = (content: ReactNode) => (row.voided ? <s>{content}</s> : content);
  const figure = (value: string, unitWord = '') => (
    <td data-number>{written(<Figure unit={unitWord} value={value} />)}</td>
  );
  return (
    <tr data-voided={row.voided ? true : undefined}>
      <td data-nowrap>{written(row.when)}</td>
      {figure(row.reading.value, row.reading.unit)}
      <td data-number>
        {written(
          <>
            <Figure unit="°C" value={row.temperature} />,{' '}
            <Figure unit={row.pressure.unit} value={row.pressure.value} />
          </>,
        )}
      </td>
      {worked === 'va' ? figure(row.factor) : null}
      {worked === 'nothing' ? null : figure(row.value, unit)}
      {worked === 'va' ? figure(row.offTargetMl, 'mL') : null}
      {figure(row.n)}
      {figure(row.mean)}
      {figure(row.sd)}
      {figure(row.z)}
      <td data-nowrap>{row.signals}</td>
      <td data-nowrap>
        <Verdict row={row} />
      </td>
      <td>{row.initials}</td>
      <td className="run-table__note">
        {written(row.note)}
        {row.voided ? (
          <div>
            Voided by {row.voided.initials}, {row.voided.when}: {row.voided.reason}
          </div>
        ) : null}
      </td>
      <td>
        {row.voided ? null : (
          <button
            aria-label={`Void the run of ${row.when}…`}
            data-weight="line"
            onClick={onVoid}
            type="button"
          >
            Void…
          </button>
        )}
      </td>
    </tr>
  );
}

function Figure({ value, unit }: { value: string; unit: string }) {
  return unit === '' ? (
    value
  ) : (
    <>
      {value} <span className="unit">{unit}</span>
    </>
  );
}

function Verdict({ row: { word, establishing, onTheDay, voided } }: { row: RunRow }) {
  if (voided) return 'Voided';
  return (
    <>
      <VerdictBadge establishing={establishing} word={word} />
      {onTheDay === '' ? null : <div className="quiet">{onTheDay}</div>}
    </>
  );
}
