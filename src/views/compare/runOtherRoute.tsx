import type { Route } from '../../core/index.ts';
import { Notice } from '../parts/notice.tsx';
import { routeWords } from '../parts/words.ts';
import { useStartRun } from '../startRun.ts';

/** Where today has one route only: the other goes on the bench while room and syringe are the same. */
export function RunOtherRoute({ analyzerId, route }: { analyzerId: string; route: Route }) {
  const startRun = useStartRun();
  const done = routeWords[route === 'built-in' ? 'patient-test' : 'built-in'].toLowerCase();
  return (
    <Notice title={`Today has the ${done} alone.`} tone="quiet">
      <div>
        <button onClick={() => startRun({ analyzerId, route })} type="button">
          Run the other route now: {routeWords[route].toLowerCase()}
        </button>
      </div>
    </Notice>
  );
}
