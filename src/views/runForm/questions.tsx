import { type ReactNode, useEffect, useRef } from 'react';
import { Notice } from '../parts/notice.tsx';

/** Takes the focus from the button that it stands in place of, and waits: a second Enter must not answer for anyone. */
export function Questions({
  asking,
  title,
  yes,
  onYes,
  onBack,
  children,
}: {
  asking: readonly string[];
  title: string;
  /** The button's words say what happens: "Yes, record it". */
  yes: string;
  onYes: () => void;
  onBack: () => void;
  /** Another answer than yes, as a button. */
  children?: ReactNode;
}) {
  const frame = useRef<HTMLDivElement>(null);
  useEffect(() => frame.current?.focus(), []);
  return (
    <div className="focus-stop" ref={frame} tabIndex={-1}>
      <Notice title={title} tone="warn" urgent>
        <ul className="plain-list">
          {asking.map((question) => (
            <li key={question}>{question}</li>
          ))}
        </ul>
        <div className="line">
          <button data-weight="main" onClick={onYes} type="button">
            {yes}
          </button>
          {children}
          <button onClick={onBack} type="button">
            Back to the form
          </button>
        </div>
      </Notice>
    </div>
  );
}
