import type { StorageProblem } from '../store/openLogbook.ts';
import { useStorageAdvice } from './useStorageAdvice.ts';

/** In place of every page, where the logbook could not be opened. */
export function StorageTrouble({ problem }: { problem: StorageProblem }) {
  const advice = useStorageAdvice()?.(problem);
  if (advice === undefined) return null;
  const { title, what } = advice;
  return (
    <main className="spread__page stack" role="alert">
      <h1>{title}</h1>
      <p>{what}</p>
      {what === problem.message ? null : <p className="quiet small">{problem.message}</p>}
      <div>
        <button onClick={() => window.location.reload()} type="button">
          Reload
        </button>
      </div>
    </main>
  );
}
