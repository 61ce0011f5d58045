import { type ClipboardEvent, useId } from 'react';
import { signedPercent } from '../parts/figures.ts';
import { VerdictMark } from '../parts/verdictMark.tsx';
import type { PointDraft } from './checkDraft.ts';
import type { PointErrors, ReadGas } from './readLinearity.ts';

export type PointField = 'expected' | 'read';

/** One dilution with what was read of it, how far that lies off, and below it what is wrong. */
export function PointRow({
  point,
  place,
  formula,
  problems,
  judged,
  onText,
  onPaste,
  onRemove,
}: {
  point: PointDraft;
  /** Counted from 1. */
  place: number;
  formula: string;
  problems: PointErrors | undefined;
  judged: ReturnType<ReadGas['judgedPoints']['get']>;
  onText: (field: PointField, text: string) => void;
  onPaste: (event: ClipboardEvent, field: PointField) => void;
  onRemove: () => void;
}) {
  const id = useId();
  const field = (name: PointField, label: string) => (
    <input
      aria-describedby={problems?.[name] === undefined ? undefined : `${id}-${name}`}
      aria-invalid={problems?.[name] === undefined ? undefined : true}
      aria-label={`${label}, ${formula}, ${place}`}
      autoComplete="off"
      data-field={name}
      inputMode="decimal"
      maxLength={24}
      onChange={(event) => onText(name, event.target.value)}
      onPaste={(event) => onPaste(event, name)}
      value={point[name]}
    />
  );
  const fromLine = judged?.fromLineFraction ?? null;
  return (
    <>
      <tr>
        <td>{field('expected', 'Dilution')}</td>
        <td>{field('read', 'Reads')}</td>
        <td data-number>
          {judged === undefined ? null : <Off fraction={judged.deviationFraction} within={judged.within} />}
        </td>
        <td className="quiet" data-number>
          {fromLine === null ? null : signedPercent(fromLine, 2)}
        </td>
        <td>
          <button
            aria-label={`Remove point ${place} of ${formula}`}
            data-weight="line"
            onClick={onRemove}
            type="button"
          >
            Remove
          </button>
        </td>
      </tr>
      {(['expected', 'read'] as const).map((name) =>
        problems?.[name] === undefined ? null : (
          <tr key={name}>
            <td className="points__problem" colSpan={5} id={`${id}-${name}`}>
              {problems[name]}
            </td>
          </tr>
        ),
      )}
    </>
  );
}

function Off({ fraction, within }: { fraction: number; within: boolean }) {
  if (within) return signedPercent(fraction, 2);
  return (
    <strong data-shape="fail">
      <VerdictMark shape="fail" size={12} />
      <span className="for-readers">outside</span> {signedPercent(fraction, 2)}
    </strong>
  );
}
