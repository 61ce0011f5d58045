import { Spread } from '../parts/spread.tsx';
import './bench.css';
import { BenchForm } from './benchForm.tsx';
import { LastRuns } from './lastRuns.tsx';
import { OpenFailures } from './openFailures.tsx';
import { useBench } from './useBench.ts';
import { VerdictPanel } from './verdictPanel.tsx';

export function BenchScreen() {
  const bench = useBench();
  return (
    <Spread
      left={<BenchForm bench={bench} />}
      right={
        <div className="stack stack--loose">
          <OpenFailures analyzerId={bench.draft.analyzerId} />
          <VerdictPanel bench={bench} />
          <LastRuns analyzerId={bench.draft.analyzerId} route={bench.draft.route} />
        </div>
      }
    />
  );
}
