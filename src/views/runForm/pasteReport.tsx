import { useEffect, useMemo, useRef, useState } from 'react';
import { useFieldFrame } from '../parts/field.tsx';
import { counted } from '../parts/figures.ts';
import type { BenchDraft, NumberFieldName } from './benchDraft.ts';
import { type ReadReport, readReport, type Taken } from './readReport.ts';
import type { Bench } from './useRunOnBench.ts';

const names: Record<NumberFieldName, string> = {
  temperature: 'Temperature',
  pressure: 'Barometric pressure',
  humidity: 'Relative humidity',
  va: 'VA',
  dlco: 'DLCO',
  inspiredVolume: 'Inspired volume',
  breathHold: 'Breath-hold time',
  volumeCheck: 'Volume check',
};

/** The text of a report and what was understood of it. Nothing is filled in before a hand says so, and no text is kept. */
export default function PasteReport({
  bench,
  pasted,
  onClose,
}: {
  bench: Bench;
  pasted: string;
  onClose: () => void;
}) {
  const [text, setText] = useState(pasted);
  const report = useMemo(() => readReport(text), [text]);
  const frame = useRef<HTMLFieldSetElement>(null);
  useEffect(() => {
    // A pasted text is to be looked through; an empty box is to be filled.
    frame.current?.querySelector<HTMLElement>(pasted === '' ? 'textarea' : 'button')?.focus();
  }, [pasted]);

  const use = () => {
    fill(bench, report.taken);
    onClose();
  };

  return (
    <fieldset className="stack paste-report" ref={frame}>
      <legend className="for-readers">A report</legend>
      <ReportText onText={setText} text={text} />
      {report.taken.length > 0 ? (
        <table aria-label="Understood of the report">
          <tbody>
            {report.taken.map(({ field, written, label, line }) => (
              <tr key={field}>
                <th scope="row">{names[field]}</th>
                <td data-number>{written}</td>
                <td className="quiet">
                  from “{label}”, line {line}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : null}
      <ul aria-live="polite" className="plain-list small">
        {remarks(report, text).map((remark) => (
          <li key={remark}>{remark}</li>
        ))}
      </ul>
      <div className="line">
        <button
          data-weight={report.taken.length > 0 ? 'main' : undefined}
          disabled={report.taken.length === 0}
          onClick={use}
          type="button"
        >
          Use {report.taken.length === 1 ? 'this' : 'these'}
        </button>
        <button onClick={onClose} type="button">
          Leave the report
        </button>
      </div>
    </fieldset>
  );
}

function ReportText({ text, onText }: { text: string; onText: (text: string) => void }) {
  const { id, describedBy, wrap } = useFieldFrame({
    label: 'Text of the report',
    hint: 'Read here and kept nowhere. Lines that name a person are passed over.',
  });
  return wrap(
    <textarea
      aria-describedby={describedBy}
      id={id}
      onChange={(event) => onText(event.target.value)}
      rows={text === '' ? 3 : 4}
      spellCheck={false}
      value={text}
    />,
  );
}

function fill(bench: Bench, taken: readonly Taken[]) {
  const values: Partial<BenchDraft> = {};
  const origins: BenchDraft['origins'] = { ...bench.draft.origins };
  for (const { field, text, choice } of taken) {
    Object.assign(values, choice);
    values[field] = text;
    origins[field] = { kind: 'report' };
  }
  bench.change({ ...values, origins });
}

/** What was not taken, and why. */
function remarks({ taken, leftOut, notUnderstood, personal, column }: ReadReport, text: string): string[] {
  if (text.trim() === '') return [];
  return [
    ...(taken.length === 0 ? ['Nothing in it names a value of this form with its unit.'] : []),
    ...leftOut.map(({ label, line, why }) => `Not taken: “${label}”, line ${line}: ${why}.`),
    ...(column === 'headed' ? ['Of several columns, the first measured one.'] : []),
    ...(column === 'first'
      ? ['Of several numbers in a line, the first: check that it is the measured one.']
      : []),
    ...(notUnderstood > 0 ? [`${counted(notUnderstood, 'line')} not understood.`] : []),
    ...(personal > 0 ? [`${counted(personal, 'line')} passed over that may name a person.`] : []),
  ];
}
