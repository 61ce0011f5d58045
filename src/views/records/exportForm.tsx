import { useState } from 'react';
import { chainHeads } from '../../journal/chain.ts';
import { messageOf } from '../../store/messageOf.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField } from '../parts/field.tsx';
import { counted } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { exportFileName, saveFile } from '../parts/saveFile.ts';

const all = 'all';

/** The runs as a CSV file for an assessor: one analyzer's or all. */
export function ExportForm() {
  const { logbook, assessments, snapshot } = useLogbook();
  const [analyzerId, setAnalyzerId] = useState<string>(all);
  const [outcome, setOutcome] = useState<{ fileName: string; rows: number } | { failed: string } | null>(
    null,
  );
  const chosen = logbook.analyzers.get(analyzerId);
  const rows = logbook.runs.filter(
    ({ body }) => chosen === undefined || body.analyzerId === chosen.id,
  ).length;

  const exportRuns = async () => {
    try {
      const { runsToCsv } = await import('../../exchange/runsCsv.ts');
      const heads = chainHeads(snapshot.rawRows);
      const selection = chosen ? { heads, analyzerId: chosen.id } : { heads };
      const text = runsToCsv(logbook, assessments, selection);
      const fileName = exportFileName(chosen?.description.label ?? 'all analyzers', Date.now());
      saveFile(text, fileName, 'text/csv;charset=utf-8');
      setOutcome({ fileName, rows });
    } catch (error) {
      setOutcome({ failed: messageOf(error) });
    }
  };

  return (
    <section className="stack group">
      <h2>Runs as one CSV file</h2>
      <p>
        One row a run: what was read, the room, the conversion, the limits in force, mean, SD and z of the
        day, signals, verdict, who, the entry’s hash and the journal’s head. Voided runs are in it, marked.
      </p>
      <ChoiceField
        choices={[
          { value: all, label: 'All analyzers' },
          ...[...logbook.analyzers.values()].map(({ id, description }) => ({
            value: id,
            label: description.label,
          })),
        ]}
        label="Runs of"
        onChoice={(value) => {
          setAnalyzerId(value);
          setOutcome(null);
        }}
        value={analyzerId}
      />
      <div className="line">
        <button disabled={rows === 0} onClick={() => void exportRuns()} type="button">
          Export {counted(rows, 'run')} as CSV
        </button>
        {rows === 0 ? <span className="quiet">There are no runs to export yet.</span> : null}
      </div>
      {outcome === null ? null : 'failed' in outcome ? (
        <Notice title="The file could not be made." tone="fail" urgent>
          <p>{outcome.failed}</p>
        </Notice>
      ) : (
        <Notice title={`${counted(outcome.rows, 'run')} written to ${outcome.fileName}`} tone="pass" />
      )}
    </section>
  );
}
