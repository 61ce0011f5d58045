import { useEffect, useRef } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { InputField, TickField } from '../parts/field.tsx';
import { attachedVolumeSpec, mostAttached, readAttached } from './attached.ts';
import type { BenchDraft } from './benchDraft.ts';
import { rowsOf } from './draftMoves.ts';
import type { RunForm } from './runForm.ts';

type Row = BenchDraft['attached'][number];

/** What is left on the syringe for this run: what its record knows of, to be ticked, and whatever else it is. */
export default function LeftOnEditor({
  form,
  trouble,
  onClose,
}: {
  form: RunForm;
  trouble: string | undefined;
  onClose: () => void;
}) {
  const { draft, change, leaveField } = form;
  const { logbook } = useLogbook();
  const frame = useRef<HTMLFieldSetElement>(null);
  useEffect(() => frame.current?.focus(), []);
  const rows = draft.attached;
  const known = rowsOf(logbook.syringes.get(draft.syringeId)?.description.attachments);
  const isKnown = (row: Row) => known.some((one) => isSame(one, row));
  const problemOf = (row: Row) => {
    const read = trouble === undefined ? null : readAttached([row]);
    return read !== null && 'problem' in read ? read.problem : undefined;
  };
  const put = (attached: Row[]) => change({ attached });
  const put1 = (index: number, row: Row) => put(rows.map((one, at) => (at === index ? row : one)));
  return (
    <fieldset className="stack group focus-stop" ref={frame} tabIndex={-1}>
      <legend>Left on the syringe</legend>
      <p className="quiet small">Its volume is added to the syringe’s dead space.</p>
      {known.map((one) => (
        <TickField
          checked={rows.some((row) => isSame(one, row))}
          key={one.name}
          label={`${one.name}, ${one.volume} mL`}
          onTick={(isOn) => put(isOn ? [...rows, one] : rows.filter((row) => !isSame(one, row)))}
        />
      ))}
      {rows.map((row, index) =>
        isKnown(row) ? null : (
          // biome-ignore lint/suspicious/noArrayIndexKey: a row is what is typed into it and has no other name
          <div className="left-on__row" key={index}>
            <InputField
              error={row.name.trim() === '' ? problemOf(row) : undefined}
              label="What it is"
              onText={(name) => put1(index, { ...row, name })}
              placeholder="Filter"
              value={row.name}
            />
            <InputField
              after={<span className="unit">mL</span>}
              error={row.name.trim() === '' ? undefined : problemOf(row)}
              inputMode="decimal"
              label="Its volume"
              onBlur={() => leaveField('attached')}
              onText={(volume) => put1(index, { ...row, volume })}
              placeholder={attachedVolumeSpec.example}
              value={row.volume}
            />
            <button
              data-weight="line"
              onClick={() => put(rows.filter((_, at) => at !== index))}
              type="button"
            >
              Take it off
            </button>
          </div>
        ),
      )}
      <div className="line">
        {rows.length < mostAttached ? (
          <button onClick={() => put([...rows, { name: '', volume: '' }])} type="button">
            {known.length > 0 ? 'Something else…' : 'Add a hose or filter…'}
          </button>
        ) : null}
        <button onClick={onClose} type="button">
          Done
        </button>
      </div>
    </fieldset>
  );
}

const isSame = (one: Row, other: Row) => one.name === other.name && one.volume === other.volume;
