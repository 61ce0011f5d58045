import { lazy, Suspense } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { Spread } from '../parts/spread.tsx';
import './bench.css';
import { useRunOnBench } from '../runForm/useRunOnBench.ts';
import { AfterFailure } from './afterFailure.tsx';
import { BenchForm } from './benchForm.tsx';
import { OpenFailures } from './openFailures.tsx';
import { VerdictFrame } from './verdictFrame.tsx';
import { VerdictPanel } from './verdictPanel.tsx';

/** To look back at, once the form stands. */
const LastRuns = lazy(() => import('../runForm/lastRuns.tsx'));
const BuiltInOnlyNotice = lazy(() => import('../builtInOnlyNotice.tsx'));

export function BenchScreen() {
  const bench = useRunOnBench();
  const { isReading } = useLogbook();
  return (
    <Spread
      left={<BenchForm bench={bench} />}
      right={
        isReading ? (
          <p className="quiet" role="status">
            Reading the earlier runs: the verdict appears in a moment.
          </p>
        ) : (
          <div className="stack stack--loose">
            <OpenFailures analyzerId={bench.draft.analyzerId} />
            <VerdictFrame>
              <VerdictPanel bench={bench} />
              <Suspense fallback={null}>
                <BuiltInOnlyNotice analyzerId={bench.draft.analyzerId} />
              </Suspense>
            </VerdictFrame>
            <AfterFailure />
            <Suspense fallback={null}>
              <LastRuns analyzerId={bench.draft.analyzerId} route={bench.draft.route} />
            </Suspense>
          </div>
        )
      }
    />
  );
}
