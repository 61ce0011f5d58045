import { Fragment, type ReactNode, useEffect, useRef } from 'react';
import type { Former } from '../amendments.ts';
import { useLogbook } from '../logbookContext.tsx';
import { RunLink, TechnologistOf } from '../parts/runInTable.tsx';
import { AmendedVerdict, Corrected, Struck } from '../parts/struck.tsx';
import type { RunRow } from './buildRunRows.ts';

export interface Column {
  title: string;
  number?: true;
  /** Its buttons say what they do: the title is for screen readers only. */
  hidden?: true;
}

/** What is worked out from the reading: much for VA; nothing for DLCO, unless the analyzer's unit was changed. */
export type Worked = 'va' | 'dlco-in-other-unit' | 'nothing';

const memoryColumns: readonly Column[] = [
  { title: 'EWMA', number: true },
  { title: 'CUSUM up', number: true },
  { title: 'CUSUM down', number: true },
];

/** The columns in the order of RunCells: what came out, then what it was judged by, then what it was made from. */
export function columnsOf(worked: Worked, memory: boolean): readonly Column[] {
  const offTarget: Column = { title: 'Off target', number: true };
  const reading: Column = { title: 'Reading', number: true };
  const factor: Column = { title: 'Factor', number: true };
  return [
    { title: 'Made' },
    { title: 'Verdict' },
    { title: worked === 'va' ? 'Simulated VA' : 'DLCO', number: true },
    ...(worked === 'va' ? [offTarget] : []),
    { title: 'z', number: true },
    { title: 'Signals' },
    { title: 'n', number: true },
    { title: 'Mean', number: true },
    { title: 'SD', number: true },
    ...(memory ? memoryColumns : []),
    ...(worked === 'nothing' ? [] : [reading]),
    { title: 'Room', number: true },
    ...(worked === 'va' ? [factor] : []),
    { title: 'By' },
    { title: 'Void', hidden: true },
  ];
}

export function RunCells({
  row,
  worked,
  unit,
  memory,
  onVoid,
}: {
  row: RunRow;
  worked: Worked;
  unit: string;
  /** EWMA and CUSUM are shown as well. */
  memory: boolean;
  onVoid: () => void;
}) {
  const { logbook } = useLogbook();
  const { former } = row;
  const written = (content: ReactNode, before: readonly Former[] = []) => (
    <Corrected former={before}>
      <Struck isStruck={row.voided !== null}>{content}</Struck>
    </Corrected>
  );
  const figure = (value: string, unitWord = '', before: readonly Former[] = []) => (
    <td data-number>{written(<Figure unit={unitWord} value={value} />, before)}</td>
  );
  const reading = figure(row.reading.value, row.reading.unit, former.reading);
  return (
    <tr data-voided={row.voided ? true : undefined}>
      <td data-nowrap>
        <RunLink run={row.run} technologists={logbook.technologists} />
      </td>
      <td>
        <Verdict row={row} />
      </td>
      {worked === 'nothing' ? reading : figure(row.value, unit, former.value)}
      {worked === 'va' ? figure(row.offTargetMl, 'mL', former.offTargetMl) : null}
      {figure(row.z)}
      <td className="run-table__signals">
        {row.signals.map((rule, index) => (
          <Fragment key={rule}>
            {index === 0 ? null : ', '}
            <span>{rule}</span>
          </Fragment>
        ))}
      </td>
      {figure(row.n)}
      {figure(row.mean)}
      {figure(row.sd)}
      {memory ? (
        <>
          {figure(row.memory.ewma)}
          {figure(row.memory.cusumHigh)}
          {figure(row.memory.cusumLow)}
        </>
      ) : null}
      {worked === 'nothing' ? null : reading}
      <td data-number>
        {written(<Figure unit="°C" value={row.temperature} />, former.temperature)},{' '}
        {written(<Figure unit={row.pressure.unit} value={row.pressure.value} />, former.pressure)}
      </td>
      {worked === 'va' ? figure(row.factor, '', former.factor) : null}
      <td>
        <TechnologistOf run={row.run} technologists={logbook.technologists} />
      </td>
      <td className="run-table__action">
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

/** Under a run: what was written beside it, and of an amended or voided one by whom, when and why, as on paper. */
export function RemarkLine({ row: { note, voided, amended }, columns }: { row: RunRow; columns: number }) {
  if (note === '' && voided === null && amended.length === 0) return null;
  return (
    <tr className="run-table__remark">
      <td colSpan={columns}>
        <div className="run-table__inset">
          {note === '' ? null : <p>{note}</p>}
          {amended.map((line) => (
            <p key={line}>{line}</p>
          ))}
          {voided ? (
            <p>
              Voided by {voided.initials}, {voided.when}: {voided.reason}
            </p>
          ) : null}
        </div>
      </td>
    </tr>
  );
}

/** Takes the focus that the form had: what was written is heard, and the place in the table is not lost. */
export function SavedLine({ columns, children }: { columns: number; children: ReactNode }) {
  const line = useRef<HTMLParagraphElement>(null);
  useEffect(() => line.current?.focus(), []);
  return (
    <tr>
      <td colSpan={columns}>
        <p className="run-table__inset" ref={line} role="status" tabIndex={-1}>
          {children}
        </p>
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

function Verdict({ row: { word, establishing, struckWord, onTheDay, voided } }: { row: RunRow }) {
  if (voided) return 'Voided';
  return (
    <>
      <AmendedVerdict
        now={{ word, establishing }}
        ofTheDay={struckWord === null ? null : { word: struckWord }}
      />
      {onTheDay === '' ? null : <div className="quiet">{onTheDay}</div>}
    </>
  );
}
