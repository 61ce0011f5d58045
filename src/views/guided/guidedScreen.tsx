import { useEffect } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { Loading } from '../parts/loading.tsx';
import { Spread } from '../parts/spread.tsx';
import { BesideStep } from './besideStep.tsx';
import { buildSteps } from './buildSteps.ts';
import './guided.css';
import { firstStep, numberOf } from './guideSteps.ts';
import { StepPage } from './stepPage.tsx';
import { useGuide } from './useGuide.ts';

/** The run on the bench, step by step, for whoever does not make it every week. */
export default function GuidedScreen() {
  const { logbook } = useLogbook();
  const guide = useGuide();
  const { step, isRecorded, keep, limits } = guide;
  useEffect(() => {
    if (isRecorded) keep(firstStep);
  }, [isRecorded, keep]);
  if (step === null) return <Loading what="the guide" />;
  const steps = buildSteps(guide.bench.draft, logbook, limits);
  const here = steps[numberOf(step) - 1];
  if (here === undefined) throw new RangeError(`GuidedScreen: there is no step ${step}`);
  return (
    <Spread
      left={<StepPage guide={guide} here={here} key={step} />}
      right={<BesideStep guide={guide} here={here} steps={steps} />}
    />
  );
}
