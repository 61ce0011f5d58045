import type { Progress } from './importFile.ts';

const stageWords: Record<Progress['stage'], string> = {
  reading: 'bytes read',
  parting: 'The cells are being told apart.',
  judging: 'rows judged',
};

/** How far a long step is, and a way out of it. */
export function Waiting({
  what,
  progress,
  onLeave,
}: {
  what: string;
  progress: Progress | null;
  onLeave: () => void;
}) {
  const isCounted = progress !== null && progress.stage !== 'parting' && progress.total > 0;
  return (
    <section className="stack">
      <h2>{what}…</h2>
      <progress aria-label={what} max={1} {...(isCounted ? { value: progress.done / progress.total } : {})} />
      <p aria-live="polite" className="quiet">
        {progress === null
          ? ''
          : isCounted
            ? `${progress.done} of ${progress.total} ${stageWords[progress.stage]}`
            : stageWords[progress.stage]}
      </p>
      <div>
        <button onClick={onLeave} type="button">
          Leave it
        </button>
      </div>
    </section>
  );
}
