import { useEffect, useRef } from 'react';

/** Takes the focus that the form had, so that what was written is heard. */
export function SavedMessage({ text }: { text: string }) {
  const line = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    if (text !== '') line.current?.focus();
  }, [text]);
  return text === '' ? null : (
    <p className="focus-stop" ref={line} role="status" tabIndex={-1}>
      {text}
    </p>
  );
}
