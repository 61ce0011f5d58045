import { useEffect, useRef } from 'react';
import { InputField } from '../parts/field.tsx';
import { type AttachmentDraft, mostAttachments, readAttachment } from './readSyringe.ts';

/** Hoses and filters that are left on a syringe for some runs: a name and a volume each. */
export function AttachmentRows({
  rows,
  areRead,
  onRows,
}: {
  rows: readonly AttachmentDraft[];
  /** Says what is wrong in them: only once the form was tried. */
  areRead: boolean;
  onRows: (rows: readonly AttachmentDraft[]) => void;
}) {
  const frame = useRef<HTMLFieldSetElement>(null);
  const shown = useRef(rows.length);
  useEffect(() => {
    if (rows.length === shown.current) return;
    // A row that was added is typed into next; the button of one that was removed took the focus with it.
    const controls = frame.current?.querySelectorAll<HTMLElement>(
      rows.length > shown.current ? 'input[data-long]' : 'button',
    );
    shown.current = rows.length;
    controls?.item(controls.length - 1)?.focus();
  }, [rows]);
  const change = (key: string, changes: Partial<AttachmentDraft>) =>
    onRows(rows.map((row) => (row.key === key ? { ...row, ...changes } : row)));

  return (
    <fieldset className="stack" ref={frame}>
      <legend>Hoses and filters</legend>
      <p className="quiet small">
        What is left on it for some runs only. The bench offers it and adds its volume to the dead space.
      </p>
      {rows.map((row, index) => {
        const { name, volumeMl } = areRead ? readAttachment(row, rows) : {};
        return (
          <div className="attachment" key={row.key}>
            <InputField
              data-long
              error={name}
              label={`What, ${index + 1}`}
              onText={(text) => change(row.key, { name: text })}
              placeholder="Filter"
              value={row.name}
            />
            <InputField
              after={<span className="unit">mL</span>}
              error={volumeMl}
              inputMode="decimal"
              label={`Holds, ${index + 1}`}
              onText={(text) => change(row.key, { volumeMl: text })}
              value={row.volumeMl}
            />
            <button
              aria-label={`Remove ${row.name.trim() || `row ${index + 1}`}`}
              onClick={() => onRows(rows.filter(({ key }) => key !== row.key))}
              type="button"
            >
              Remove
            </button>
          </div>
        );
      })}
      <div>
        {rows.length < mostAttachments ? (
          <button
            onClick={() => onRows([...rows, { key: crypto.randomUUID(), name: '', volumeMl: '' }])}
            type="button"
          >
            Add a hose or filter
          </button>
        ) : (
          <p className="quiet small">As many as can be kept.</p>
        )}
      </div>
    </fieldset>
  );
}
