import { Link } from 'wouter';
import type { LoggedControl } from '../../journal/logbook.ts';
import { controlHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { SavedMessage } from '../parts/savedMessage.tsx';
import { Spread } from '../parts/spread.tsx';
import { investigationHref } from '../routes.ts';
import { useControlAssessments } from '../useControlAssessments.ts';
import { ChartLinks } from './chartLinks.tsx';
import type { AskedControl } from './controlAddress.ts';
import { controlTexts } from './controlTexts.ts';
import { ControlVerdict } from './controlVerdict.tsx';
import { EarlierControls } from './earlierControls.tsx';
import { OpenFailuresOf } from './failureOfControl.tsx';
import { SameDayRuns } from './sameDayRuns.tsx';

/** After a control was recorded: where to go from here on the left, its verdict on the right. */
export function SavedControl({
  asked,
  logged,
  onAnother,
}: {
  asked: AskedControl;
  logged: LoggedControl;
  onAnother: () => void;
}) {
  const { logbook } = useLogbook();
  const assessment = useControlAssessments().get(logged.id);
  const { control, entry } = logged;
  const { title, made, another } = controlTexts[asked.kind];
  const writer = logbook.technologists.get(entry.by)?.initials ?? 'an unknown person';
  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <h1>
            {title}, {asked.analyzer.description.label}
          </h1>
          <SavedMessage
            text={`Saved. ${made} of ${dayAndTime(control.madeAt, entry.zone)}, recorded by ${writer}.`}
          />
          <div className="line">
            <button data-weight="main" onClick={onAnother} type="button">
              {another}
            </button>
            <Link href={controlHref(logged.id)}>Its own page</Link>
            {control.investigates === undefined ? null : (
              <Link href={investigationHref(control.investigates.runId)}>Back to the investigation</Link>
            )}
          </div>
          <ChartLinks control={control} />
          <OpenFailuresOf controlId={logged.id} />
        </div>
      }
      right={
        <div className="stack stack--loose">
          <section aria-label="Recorded verdict" className="stack" data-state="recorded">
            {assessment === undefined ? null : (
              <ControlVerdict assessment={assessment} control={control} logged={logged} />
            )}
          </section>
          {control.kind === 'biological' && assessment !== undefined && !('levels' in assessment) ? (
            <SameDayRuns assessment={assessment} control={control} zone={entry.zone} />
          ) : null}
          <EarlierControls of={control} />
        </div>
      }
    />
  );
}
