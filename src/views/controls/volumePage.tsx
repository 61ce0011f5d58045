import { useMemo, useState } from 'react';
import type { LoggedCheck } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { useLogbook } from '../logbookContext.tsx';
import { counted, dayAndTime, litresAsTyped, plain, signedPercent } from '../parts/figures.ts';
import { TableFrame } from '../parts/tableFrame.tsx';
import { buildVolumeChart, readingNames } from './buildVolumeChart.ts';
import { checksOf, volumeOf } from './chartedChecks.ts';
import { CheckOutcome } from './checkOutcome.tsx';
import { volumeSentences } from './describeChecks.ts';
import { MarkChart } from './markChart.tsx';
import { NothingMade } from './nothingMade.tsx';
import { WaysOn } from './waysOn.tsx';

const newest = 60;

/** The volume calibration checks of one analyzer: three flows against the syringe. */
export function VolumePage({ analyzerId }: { analyzerId: string }) {
  const { logbook } = useLogbook();
  const label = logbook.analyzers.get(analyzerId)?.description.label ?? 'unknown';
  const heading = `Volume calibration check, ${label}`;
  const checks = useMemo(() => checksOf(logbook, analyzerId, 'volume-check'), [logbook, analyzerId]);
  const model = useMemo(() => buildVolumeChart(checks, label), [checks, label]);
  if (checks.length === 0)
    return <NothingMade analyzerId={analyzerId} heading={heading} kind="volume-check" />;
  return (
    <div className="stack stack--loose">
      <div className="stack">
        <h1>{heading}</h1>
        {volumeSentences(checks).map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        <WaysOn analyzerId={analyzerId} kind="volume-check" />
      </div>
      {model === null ? null : <MarkChart heading="h2" model={model} />}
      <VolumeTable checks={checks} heading={heading} />
    </div>
  );
}

function VolumeTable({ checks, heading }: { checks: readonly LoggedCheck[]; heading: string }) {
  const { logbook } = useLogbook();
  const [all, setAll] = useState(false);
  const names = readingNames(checks);
  return (
    <div className="stack">
      <TableFrame label={`${heading}: every check`}>
        <table>
          <caption>{heading}: every check, newest first</caption>
          <thead>
            <tr>
              <th scope="col">Made</th>
              <th scope="col">Outcome</th>
              {names.map((name) => (
                <th data-number key={name} scope="col">
                  {name}
                </th>
              ))}
              <th data-number scope="col">
                Should read
              </th>
              <th scope="col">By</th>
              <th scope="col">Note</th>
            </tr>
          </thead>
          <tbody>
            {[...(all ? checks : checks.slice(-newest))].reverse().map((check) => {
              const { body, zone } = check.entry;
              const readings = volumeOf(check)?.readings ?? [];
              return (
                <tr key={check.id}>
                  <td data-nowrap>{dayAndTime(body.doneAt, zone)}</td>
                  <td>
                    <CheckOutcome check={check} />
                  </td>
                  {names.map((name, index) => (
                    <td data-number key={name}>
                      <Reading flow={body.volume?.flowLPerS?.[index]} reading={readings[index]} />
                    </td>
                  ))}
                  <td data-number>
                    {body.volume === null ? (
                      '–'
                    ) : (
                      <>
                        {litresAsTyped(body.volume.expectedL)} <span className="unit">L</span>
                      </>
                    )}
                  </td>
                  <td>{initialsIn(logbook.technologists, body.technologistId)}</td>
                  <td>{body.note}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </TableFrame>
      {all || checks.length <= newest ? null : (
        <div>
          <button onClick={() => setAll(true)} type="button">
            Show all {counted(checks.length, 'check')}
          </button>
        </div>
      )}
    </div>
  );
}

function Reading({
  reading,
  flow,
}: {
  reading: { readL: number; deviationFraction: number } | undefined;
  flow: number | undefined;
}) {
  if (reading === undefined) return '–';
  return (
    <>
      {signedPercent(reading.deviationFraction)} <span className="unit">%</span>,{' '}
      {litresAsTyped(reading.readL)}{' '}
      <span className="unit">{flow === undefined ? 'L' : `L at ${plain(flow)} L/s`}</span>
    </>
  );
}
