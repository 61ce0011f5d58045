/**
 * The four marks of a verdict. Each has a shape of its own, the same on badge, table row, chart point and print, so
 * that no verdict is told by colour alone.
 */
export type MarkShape = 'pass' | 'warn' | 'fail' | 'establishing';

/** Paths in a box of 16 × 16 whose middle is 8, 8. */
const shapes: Record<MarkShape, { d: string; dash?: string }> = {
  pass: { d: 'M2 5v9h9M5 8.5l3 3L14.5 3' },
  warn: { d: 'M8 1.5v13' },
  fail: { d: 'M2 4h12v8H2zM6 1v14M10 1v14' },
  establishing: { d: 'M2.5 2.5h11v11h-11z', dash: '1.5 2.5' },
};

const words: Record<MarkShape, string> = {
  pass: 'Pass',
  warn: 'Warning',
  fail: 'Fail',
  establishing: 'No own baseline yet',
};

/** The bare mark as an svg group's content, to be placed on a chart. */
export function MarkPath({ shape, strokeWidth = 2 }: { shape: MarkShape; strokeWidth?: number }) {
  const { d, dash } = shapes[shape];
  return (
    <path
      className="mark"
      d={d}
      data-shape={shape}
      fill="none"
      strokeDasharray={dash}
      strokeWidth={shape === 'warn' ? strokeWidth * 1.5 : strokeWidth}
    />
  );
}

export function VerdictMark({ shape, size = 16 }: { shape: MarkShape; size?: number }) {
  return (
    <svg aria-hidden="true" focusable="false" height={size} viewBox="0 0 16 16" width={size}>
      <MarkPath shape={shape} />
    </svg>
  );
}

/** Mark and word together. `establishing` adds the dotted box and its words, it replaces no verdict. */
export function VerdictBadge({
  word,
  establishing = false,
  size = 'row',
}: {
  word: Exclude<MarkShape, 'establishing'>;
  establishing?: boolean;
  size?: 'row' | 'page';
}) {
  const pixels = size === 'page' ? 32 : 14;
  return (
    <span className="badge" data-size={size}>
      <span className="badge__word" data-shape={word}>
        <VerdictMark shape={word} size={pixels} />
        {words[word]}
      </span>
      {establishing ? (
        <span className="badge__word badge__word--aside" data-shape="establishing" title={words.establishing}>
          <VerdictMark shape="establishing" size={14} />
          {size === 'page' ? words.establishing : <span className="for-readers">{words.establishing}</span>}
        </span>
      ) : null}
    </span>
  );
}
