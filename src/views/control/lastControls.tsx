import { Fragment } from 'react';
import { type DlcoUnit, dlcoFromMlMinMmHg, dlcoInMlMinMmHg } from '../../core/index.ts';
import type { BiologicalContent, Control, ControlJudgement } from '../../journal/entries.ts';
import type { LoggedControl } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { judgedAsWritten } from '../controlAsWritten.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ControlLink, ControlVerdictCell, StruckControl } from '../parts/controlInTable.tsx';
import { litresAsTyped, signedDlco, dlco as writeDlco, zInTable } from '../parts/figures.ts';
import { TableFrame } from '../parts/tableFrame.tsx';
import { levels } from './controlDraft.ts';
import { seriesWords } from './words.ts';

const shown = 6;

type SeriesName = ControlJudgement['series'][number]['name'];

interface Column {
  name: SeriesName;
  unit: string;
  write: (control: Control, judged: ControlJudgement['series'][number]) => string;
}

/** One unit for a whole column: what was read in another is converted. */
const columnsOf = (kind: Control['kind'], dlcoUnit: DlcoUnit): readonly Column[] =>
  kind === 'biological'
    ? [
        {
          name: 'dlco',
          unit: dlcoUnit,
          write: (control) => (control.kind === 'biological' ? dlcoIn(control, dlcoUnit) : '–'),
        },
        {
          name: 'va',
          unit: 'L',
          write: (control) => (control.kind === 'biological' ? litresAsTyped(control.reading.vaL) : '–'),
        },
      ]
    : levels.map((name) => ({
        name,
        unit: `${dlcoUnit} off target`,
        write: (_, { value }) => signedDlco(dlcoFromMlMinMmHg(value, dlcoUnit), dlcoUnit),
      }));

const dlcoIn = ({ reading: { dlco, dlcoUnit } }: BiologicalContent, unit: DlcoUnit) =>
  writeDlco(dlcoFromMlMinMmHg(dlcoInMlMinMmHg(dlco, dlcoUnit), unit), unit);

const unitOf = (control: Control | undefined): DlcoUnit => {
  const reading = control?.kind === 'biological' ? control.reading : control?.levels[0]?.reading;
  return reading?.dlcoUnit ?? 'mL/min/mmHg';
};

/** The newest controls of one kind on an analyzer, newest first, with the verdict of their day. Voided ones stay, struck through. */
export function LastControls({
  title,
  kind,
  controls,
}: {
  title: string;
  kind: Control['kind'];
  /** Oldest first. */
  controls: readonly LoggedControl[];
}) {
  const newest = controls.slice(-shown).reverse();
  const columns = columnsOf(kind, unitOf(newest[0]?.control));
  return (
    <section className="stack group">
      <h2>{title}</h2>
      {newest.length === 0 ? (
        <p className="quiet">None yet. The first that you record stands here.</p>
      ) : (
        <TableFrame label={title}>
          <table>
            <thead>
              <tr>
                <th scope="col">Made at</th>
                {columns.map(({ name, unit }) => (
                  <Fragment key={name}>
                    <th data-number scope="col">
                      {seriesWords[name]} <br />
                      <span className="unit">{unit}</span>
                    </th>
                    <th data-number scope="col">
                      z
                    </th>
                  </Fragment>
                ))}
                <th scope="col">Verdict</th>
                <th scope="col">By</th>
              </tr>
            </thead>
            <tbody>
              {newest.map((logged) => (
                <OneControl columns={columns} key={logged.id} logged={logged} />
              ))}
            </tbody>
          </table>
        </TableFrame>
      )}
    </section>
  );
}

function OneControl({ logged, columns }: { logged: LoggedControl; columns: readonly Column[] }) {
  const { logbook } = useLogbook();
  const { control } = logged;
  const judged = judgedAsWritten(logged);
  return (
    <tr>
      <td data-nowrap>
        <ControlLink logged={logged} />
      </td>
      {columns.map(({ name, write }) => {
        const series = judged.series.find((one) => one.name === name);
        return (
          <Fragment key={name}>
            <td data-number>
              <StruckControl logged={logged}>
                {series === undefined ? '–' : write(control, series)}
              </StruckControl>
            </td>
            <td data-number>
              <StruckControl logged={logged}>
                {series === undefined || series.z === null ? '–' : zInTable(series.z)}
              </StruckControl>
            </td>
          </Fragment>
        );
      })}
      <td data-nowrap>
        <ControlVerdictCell logged={logged} />
      </td>
      <td>{initialsIn(logbook.technologists, control.technologistId)}</td>
    </tr>
  );
}
