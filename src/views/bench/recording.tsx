import { useEffect, useRef } from 'react';
import { Notice } from '../parts/notice.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import type { Bench } from './useBench.ts';

/** Takes the focus from the button that it stands in place of, and waits: a second Enter must not answer for anyone. */
function Questions({
  asking,
  onYes,
  onBack,
}: {
  asking: readonly string[];
  onYes: () => void;
  onBack: () => void;
}) {
  const frame = useRef<HTMLDivElement>(null);
  useEffect(() => frame.current?.focus(), []);
  return (
    <div className="focus-stop" ref={frame} tabIndex={-1}>
      <Notice title="Before this is recorded" tone="warn" urgent>
        <ul className="plain-list">
          {asking.map((question) => (
            <li key={question}>{question}</li>
          ))}
        </ul>
        <div className="line">
          <button data-weight="main" onClick={onYes} type="button">
            Yes, record it
          </button>
          <button onClick={onBack} type="button">
            Back to the form
          </button>
        </div>
      </Notice>
    </div>
  );
}

/** The foot of the bench form: the button, or what is asked before it is obeyed. */
export function Recording({ bench }: { bench: Bench }) {
  const { reading, saving, asking, record, stopAsking } = bench;
  if (asking.length > 0) {
    return <Questions asking={asking} onBack={stopAsking} onYes={() => void record(true)} />;
  }
  const isIncomplete = reading.missing.length > 0 || Object.keys(reading.errors).length > 0;
  return (
    <div className="group">
      <SaveLine
        action="Record run"
        saving={saving}
        trouble={bench.tried && isIncomplete ? 'Nothing is written yet: see the marked fields.' : undefined}
      />
    </div>
  );
}
