import { Struck } from '../parts/struck.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { outcomeWords } from '../scheduleWords.ts';
import type { CertificateRow } from './buildSyringeCare.ts';
import { useInitials } from './useInitials.ts';

/** What a syringe was certified to hold, over the years. */
export function CertificateTable({ rows }: { rows: readonly CertificateRow[] }) {
  if (rows.length === 0) {
    return (
      <p className="quiet">
        None is noted yet: its volume and how far it lies from the nominal one stand here.
      </p>
    );
  }
  return (
    <TableFrame label="Certificates">
      <table>
        <thead>
          <tr>
            <th scope="col">Calibrated</th>
            <th data-number scope="col">
              Volume
            </th>
            <th data-number scope="col">
              Off nominal
            </th>
            <th data-number scope="col">
              Since before
            </th>
            <th scope="col">Certificate</th>
            <th scope="col">Holds until</th>
            <th scope="col">Came out</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Certificate key={row.check.id} row={row} />
          ))}
        </tbody>
      </table>
    </TableFrame>
  );
}

function Certificate({ row }: { row: CertificateRow }) {
  const initials = useInitials();
  const { check, day, volume, offNominal, sinceBefore, papers, holdsUntil } = row;
  const { voided, entry } = check;
  const { outcome, note, technologistId } = entry.body;
  const isStruck = voided !== null;
  return (
    <tr>
      <th data-nowrap scope="row">
        <Struck isStruck={isStruck}>{day}</Struck>, {initials(technologistId)}
      </th>
      <td data-number>
        <Struck isStruck={isStruck}>{volume || '–'}</Struck>
      </td>
      <td data-number>{offNominal || '–'}</td>
      <td data-number>{sinceBefore || '–'}</td>
      <td>
        {papers || '–'}
        {note === '' ? null : <span className="quiet"> {note}</span>}
      </td>
      <td data-nowrap>{holdsUntil || '–'}</td>
      <td>
        <Struck isStruck={isStruck}>{outcomeWords[outcome]}</Struck>
        {voided ? (
          <span className="quiet">
            {' '}
            Voided, {initials(voided.by)}: {voided.reason}
          </span>
        ) : null}
      </td>
    </tr>
  );
}
