/** The guided run's life: which step it is on, what keeps it there, the breath-hold, and the one draft of the bench. */
import { useMemo, useState } from 'react';
import { limitsInForce } from '../judgedBy.ts';
import { useLogbook } from '../logbookContext.tsx';
import type { RunForm } from '../runForm/runForm.ts';
import { useRunOnBench } from '../runForm/useRunOnBench.ts';
import { useScreenState } from '../screenState.ts';
import { firstStep, type StepId, stepAfter, stepBefore, troublesOf } from './guideSteps.ts';
import { type Hold, hasStarted, notHeld, pausedHold, startedHold } from './hold.ts';
import { useKeptStep } from './keptStep.ts';
import { buildVolumeCheck } from './volumeCheck.ts';

/** Of the page's own clock, which nobody sets. */
export const clockMs = () => performance.now();

export function useGuide() {
  const { logbook } = useLogbook();
  const bench = useRunOnBench();
  const { recordedRunId, setRecordedRunId } = useScreenState();
  const { step, goTo, keep } = useKeptStep();
  /** Where going on was tried in vain; `times` tells one try from the next. */
  const [stuck, setStuck] = useState<{ step: StepId | null; times: number }>({ step: null, times: 0 });
  const [hold, setHold] = useState<Hold>(notHeld);
  // Voided since on its own page, it is no verdict to go by any more.
  const recorded = logbook.runs.find(({ id, voided }) => id === recordedRunId && voided === null);

  const isRecorded = step === 'verdict' && recorded !== undefined;

  const { unlessTyped } = bench;
  const limits = useMemo(
    () => limitsInForce(logbook, new Date(unlessTyped).toISOString()),
    [logbook, unlessTyped],
  );

  const { draft } = bench;
  const volumeCheck = useMemo(
    () => (step === 'volume-check' ? buildVolumeCheck(draft, { logbook, now: unlessTyped }) : null),
    [step, draft, logbook, unlessTyped],
  );

  const isStuck = stuck.step !== null && stuck.step === step;
  const form: RunForm = {
    ...bench,
    tried: bench.tried || isStuck,
    showsTrouble: (field) => isStuck || bench.showsTrouble(field),
  };

  const goOn = () => {
    if (step === null) return;
    if (step === 'verdict') {
      if (!isRecorded) void bench.record(false);
      return;
    }
    if (troublesOf(step, bench.reading).length > 0) {
      setStuck({ step, times: stuck.times + 1 });
      return;
    }
    // Nobody is led past a stop by the Enter that ended the reading.
    if (volumeCheck?.outcome?.isInside === false) {
      setStuck({ step, times: stuck.times + 1 });
      return;
    }
    if (step === 'hold' && !hasStarted(hold)) {
      setHold(startedHold(clockMs()));
      return;
    }
    if (step === 'inhale') setHold(startedHold(clockMs()));
    if (step === 'hold') setHold(pausedHold(hold, clockMs()));
    goTo(stepAfter(step));
  };

  const goOnAllTheSame = () => {
    if (step !== null) goTo(stepAfter(step));
  };

  const goBack = () => {
    if (isRecorded) return;
    if (bench.asking.length > 0) {
      bench.stopAsking();
      return;
    }
    const before = step === null ? null : stepBefore(step);
    if (before !== null) goTo(before);
  };

  /** The recorded run's verdict stands until the next is begun; whoever comes back later begins the next at once. */
  const beginAnew = () => {
    setRecordedRunId(null);
    setHold(notHeld);
    goTo(firstStep);
  };

  return {
    bench,
    form,
    limits,
    volumeCheck,
    step,
    /** How often going on from this step was tried in vain. */
    triesHere: isStuck ? stuck.times : 0,
    hold,
    setHold,
    recorded,
    isRecorded,
    goOn,
    goOnAllTheSame,
    goBack,
    goTo,
    keep,
    beginAnew,
  };
}

export type Guide = ReturnType<typeof useGuide>;
