import { Link } from 'wouter';
import { controlSeriesName } from '../charting/controlHeading.ts';
import type { ControlFailure } from '../controlAssessments.ts';
import { controlFailureHref } from '../deskRoutes.ts';
import type { Failure } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { counted, day } from '../parts/figures.ts';
import { VerdictMark } from '../parts/verdictMark.tsx';
import { quantityWords, routeWords } from '../parts/words.ts';
import { nouns } from './controlFailureWords.ts';
import { failureAddress } from './failureAddress.ts';

export function FailureList({
  failures,
  chosen,
}: {
  failures: readonly Failure[];
  chosen: Failure | undefined;
}) {
  const { logbook } = useLogbook();
  return (
    <ul className="choose-list">
      {failures.map((failure) => {
        const { analyzerId, series, openedBy, runs, ended } = failure;
        return (
          <li key={failureAddress(failure)}>
            <Link aria-current={failure === chosen ? 'true' : undefined} href={failureAddress(failure)}>
              <span className="line failure-name">
                <span data-shape={ended === null ? 'fail' : 'establishing'}>
                  <VerdictMark shape={ended === null ? 'fail' : 'pass'} size={14} />
                </span>
                {logbook.analyzers.get(analyzerId)?.description.label}, {quantityWords[series.quantity]}
              </span>{' '}
              <span className="quiet small">
                {day(openedBy.body.madeAt)}, {routeWords[series.route].toLowerCase()},{' '}
                {counted(runs.length, 'run')}
              </span>
            </Link>
          </li>
        );
      })}
    </ul>
  );
}

export const controlFailureAddress = ({ openedBy, series }: ControlFailure) =>
  controlFailureHref(openedBy.id, series);

/** The same of controls: a person's series, or a level of the simulator. */
export function ControlFailureList({
  failures,
  chosen,
}: {
  failures: readonly ControlFailure[];
  chosen: ControlFailure | undefined;
}) {
  const { logbook } = useLogbook();
  return (
    <ul className="choose-list">
      {failures.map((failure) => {
        const { analyzerId, series, openedBy, controls, ended } = failure;
        const { one, many } = nouns[series.kind];
        const href = controlFailureAddress(failure);
        return (
          <li key={href}>
            <Link aria-current={failure === chosen ? 'true' : undefined} href={href}>
              <span className="line failure-name">
                <span data-shape={ended === null ? 'fail' : 'establishing'}>
                  <VerdictMark shape={ended === null ? 'fail' : 'pass'} size={14} />
                </span>
                {logbook.analyzers.get(analyzerId)?.description.label}, {controlSeriesName(series, logbook)}
              </span>{' '}
              <span className="quiet small">
                {day(openedBy.at, openedBy.entry.zone)},{' '}
                {series.kind === 'biological' ? 'biological control' : 'simulator'},{' '}
                {counted(controls.length, one, many)}
              </span>
            </Link>
          </li>
        );
      })}
    </ul>
  );
}
