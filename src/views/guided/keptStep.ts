/** The step of the guided run outlives a reload and a look at another screen, as the draft of the run does. */
import { useCallback, useEffect, useState } from 'react';
import * as z from 'zod/mini';
import { asKept, keepDraft } from '../keptDraft.ts';
import { useLogbook } from '../logbookContext.tsx';
import { useScreenState } from '../screenState.ts';
import { firstStep, type StepId, stepIds } from './guideSteps.ts';

const stepSetting = 'guided-step';
const keptStepSchema = z.object({ step: z.enum(stepIds), at: z.number() });

/** A guide that was left in the middle of a breath yesterday begins anew. */
const keptForMs = 4 * 3_600_000;

/** A convenience, like the draft: without it the guide begins with its first step. */
const ignoreLostStep = () => {};

/** `step` is null until it is known where the guide was left. */
export function useKeptStep() {
  const { handle } = useLogbook();
  const [step, setStep] = useState<StepId | null>(null);
  useEffect(() => {
    let isStale = false;
    handle
      .readSetting(stepSetting, keptStepSchema)
      .catch(() => null)
      .then((kept) => {
        if (isStale) return;
        setStep(kept !== null && Date.now() - kept.at < keptForMs ? kept.step : firstStep);
      });
    return () => {
      isStale = true;
    };
  }, [handle]);
  /** Where the guide is taken up next time, which the screen need not show yet. */
  const keep = useCallback(
    (next: StepId) => {
      // What was typed on the step before is kept with it: a reload right after must not come back a number short.
      const { benchDraft, attempt } = useScreenState.getState();
      void keepDraft(handle, asKept(benchDraft, attempt));
      handle.writeSetting(stepSetting, { step: next, at: Date.now() }).catch(ignoreLostStep);
    },
    [handle],
  );
  const goTo = useCallback(
    (next: StepId) => {
      setStep(next);
      keep(next);
    },
    [keep],
  );
  return { step, goTo, keep };
}
