import { Link } from 'wouter';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { Notice } from '../parts/notice.tsx';
import { buildSoFar } from './buildSoFar.ts';
import { type GuideStep, whoDecides } from './buildSteps.ts';
import { numberOf } from './guideSteps.ts';
import type { Guide } from './useGuide.ts';

/** The right page: the caution of this step, where one is, and what is filled in so far. */
export function BesideStep({
  guide,
  here,
  steps,
}: {
  guide: Guide;
  here: GuideStep;
  steps: readonly GuideStep[];
}) {
  const { logbook } = useLogbook();
  const { isRecorded } = guide;
  const rows = buildSoFar(guide.bench.draft, guide.bench.reading, logbook);
  return (
    <div className="stack stack--loose guide-beside">
      <section aria-label="Caution" className="guide-caution">
        <Notice title="Caution" tone="warn">
          {here.cautions.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          <p className="quiet small">{whoDecides}</p>
        </Notice>
      </section>
      <nav aria-label="Steps of the run" className="stack group">
        <h2>Where you are</h2>
        <ol className="guide-steps">
          {steps.map((step) => (
            <StepInList guide={guide} here={here} key={step.id} step={step} />
          ))}
        </ol>
      </nav>
      {isRecorded ? null : (
        <section aria-label="Filled in so far" className="stack group">
          <h2>Filled in so far</h2>
          {rows.length === 0 ? (
            <p className="quiet">Nothing yet. What you choose and type stands here.</p>
          ) : (
            <FigureList
              rows={rows.map(({ name, value, isWrong }) => ({
                name,
                value: isWrong ? <span className="guide-wrong">{value}: cannot be right</span> : value,
              }))}
            />
          )}
          <p className="small">
            <Link href="/bench">To the bench form</Link>{' '}
            <span className="quiet">with the same run: nothing is lost.</span>
          </p>
        </section>
      )}
    </div>
  );
}

/** A step that lies behind can be gone back to, until the run is recorded; one that lies ahead has its turn. */
function StepInList({ guide, here, step }: { guide: Guide; here: GuideStep; step: GuideStep }) {
  if (step.id === here.id) {
    return (
      <li aria-current="step" className="guide-steps__here">
        {step.word}
      </li>
    );
  }
  if (guide.isRecorded || numberOf(step.id) > numberOf(here.id)) {
    return <li className="quiet">{step.word}</li>;
  }
  return (
    <li>
      <button data-weight="line" onClick={() => guide.goTo(step.id)} type="button">
        {step.word}
      </button>
    </li>
  );
}
