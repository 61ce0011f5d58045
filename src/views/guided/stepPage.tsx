import { type FormEvent, useEffect, useRef } from 'react';
import { focusFirstInvalid } from '../parts/formFocus.ts';
import { ReadOnlyNote } from '../parts/readOnlyNote.tsx';
import { buildGoOn } from './buildGoOn.ts';
import type { GuideStep } from './buildSteps.ts';
import { numberOf, stepBefore, stepIds } from './guideSteps.ts';
import { GuideVerdict } from './guideVerdict.tsx';
import { heldSentence } from './hold.ts';
import { HoldTimer } from './holdTimer.tsx';
import { ReadBack } from './readBack.tsx';
import { ReadingFields, RoomFields, SetUpFields } from './stepFields.tsx';
import { clockMs, type Guide } from './useGuide.ts';
import { useStepKeys } from './useStepKeys.ts';
import { VolumeCheckFields } from './volumeCheckFields.tsx';

/** The left page: one step, large. */
export function StepPage({ guide, here }: { guide: Guide; here: GuideStep }) {
  const form = useRef<HTMLFormElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const { triesHere, goOn, goBack } = guide;
  // The new step is read out, and the keyboard goes on from its head; in sight from its top, where its caution may stand.
  useEffect(() => {
    if (window.scrollY > 0) window.scrollTo(0, 0);
    heading.current?.focus({ preventScroll: true });
  }, []);
  useEffect(() => {
    if (triesHere > 0) focusFirstInvalid(form.current);
  }, [triesHere]);
  // What is recorded is recorded by its own button: a second Enter after the last reading must not do it unseen.
  useStepKeys({ form, goBack, isEnterHere: here.id !== 'verdict' });

  const submit = (event: FormEvent) => {
    event.preventDefault();
    goOn();
  };

  return (
    <form className="stack stack--loose guide-step" noValidate onSubmit={submit} ref={form}>
      <header className="stack">
        <p aria-hidden="true" className="quiet">
          Step {numberOf(here.id)} of {stepIds.length}
        </p>
        <h1 className="guide-step__heading" ref={heading} tabIndex={-1}>
          <span className="for-readers">
            Step {numberOf(here.id)} of {stepIds.length}:
          </span>{' '}
          {here.heading}
        </h1>
      </header>
      <ReadOnlyNote />
      <Say sentences={here.say} />
      <StepBody guide={guide} here={here} />
      {here.id === 'verdict' ? null : <StepFoot guide={guide} here={here} />}
    </form>
  );
}

/** Numbered where there is an order to keep to. */
function Say({ sentences }: { sentences: readonly string[] }) {
  const [first, second] = sentences;
  if (first === undefined) return null;
  if (second === undefined) return <p className="guide-step__say">{first}</p>;
  return (
    <ol className="guide-step__say guide-step__say--in-order">
      {sentences.map((sentence) => (
        <li key={sentence}>{sentence}</li>
      ))}
    </ol>
  );
}

function StepBody({ guide, here }: { guide: Guide; here: GuideStep }) {
  const { breathHoldS } = guide.limits;
  switch (here.id) {
    case 'set-up':
      return <SetUpFields form={guide.form} />;
    case 'room':
      return <RoomFields form={guide.form} />;
    case 'volume-check':
      return <VolumeCheckFields guide={guide} />;
    case 'hold':
      return <HoldTimer hold={guide.hold} onHold={guide.setHold} limits={breathHoldS} />;
    case 'exhale': {
      const held = heldSentence(guide.hold, clockMs(), breathHoldS);
      return held === null ? null : <p className="quiet">{held}</p>;
    }
    case 'read':
      return (
        <>
          <ReadingFields form={guide.form} />
          <ReadBack guide={guide} />
        </>
      );
    case 'verdict':
      return <GuideVerdict guide={guide} />;
    default:
      return null;
  }
}

function StepFoot({ guide, here }: { guide: Guide; here: GuideStep }) {
  const { bench, hold, volumeCheck, goBack, goOnAllTheSame } = guide;
  const words = buildGoOn(here, { draft: bench.draft, hold, volumeCheck });
  const isStop = volumeCheck?.outcome?.isInside === false;
  const isFirst = stepBefore(here.id) === null;
  const keys = [isStop ? [] : ['Enter goes on'], isFirst ? [] : ['Esc goes back']].flat();
  return (
    <div className="group line">
      {isStop ? (
        <button className="guide-step__go" onClick={goOnAllTheSame} type="button">
          {words}
        </button>
      ) : (
        <button className="guide-step__go" data-weight="main" type="submit">
          {words}
        </button>
      )}
      {isFirst ? null : (
        <button className="guide-step__go" onClick={goBack} type="button">
          Back
        </button>
      )}
      <span className="quiet small">{keys.join(', ')}.</span>
    </div>
  );
}
