import { VerdictBadge } from '../parts/verdictMark.tsx';

/** How the figures come out, said while they are typed; empty while there is nothing to judge. */
export function JudgedLine({ within, sentence }: { within: boolean | null; sentence: string }) {
  return (
    <div className="line line--baseline" role="status">
      {within === null ? null : (
        <>
          <VerdictBadge word={within ? 'pass' : 'fail'} />
          <span>{sentence}</span>
        </>
      )}
    </div>
  );
}
