/** Everything that the logbook has to tell of one series of controls. */
import type { Logbook } from '../../journal/logbook.ts';
import { type ControlAssessments, type ControlFailure, controlSeriesKey } from '../controlAssessments.ts';
import { controlLimitsInForce, policyStepsOfControls } from './controlLimits.ts';
import { controlsOfSeries, type SeriesOfControls } from './controlSeries.ts';
import type { SeriesFailure } from './failureSpans.ts';
import type { DatedHappening } from './listHappenings.ts';

export type ControlStory = ReturnType<typeof controlStory>;

/** `failures`: all there are. `now`: in ms, as of when the next control would be judged. */
export function controlStory(
  logbook: Logbook,
  assessments: Pick<ControlAssessments, 'get'>,
  named: SeriesOfControls,
  { failures, now }: { failures: readonly ControlFailure[]; now: number },
) {
  const { analyzerId, series } = named;
  const { items, scale, impossible } = controlsOfSeries(logbook, assessments, named);
  const key = controlSeriesKey(analyzerId, series);
  const ofThisAnalyzer = ({ body }: { body: { analyzerId: string } }) => body.analyzerId === analyzerId;
  return {
    items,
    noun: series.kind === 'biological' ? 'test' : 'session',
    scale,
    impossible,
    inForce: controlLimitsInForce(logbook, named, { items, scale }, now),
    policySteps: policyStepsOfControls(logbook, named),
    policies: logbook.policies.filter(ofThisAnalyzer),
    events: logbook.events.filter(ofThisAnalyzer),
    baselineStarts: logbook.baselineStarts.filter(ofThisAnalyzer),
    limitEditions: logbook.checkLimitEditions,
    failures: failures
      .filter((failure) => controlSeriesKey(failure.analyzerId, failure.series) === key)
      .map(seriesFailure),
    others: series.kind === 'biological' ? ofThePerson(logbook, series.subjectId) : [],
  };
}

const seriesFailure = ({ openedBy, ended }: ControlFailure): SeriesFailure => ({
  id: openedBy.id,
  from: openedBy.at,
  ended: ended && endOf(ended),
});

const endOf = (ended: NonNullable<ControlFailure['ended']>): SeriesFailure['ended'] =>
  ended.by === 'new-baseline'
    ? { by: 'new-baseline', at: Date.parse(ended.from) }
    : { by: 'closure', at: Date.parse(ended.closure.body.closedAt), reason: ended.closure.body.cause };

const stateWords = { active: 'Tested again', paused: 'Paused', excluded: 'Excluded' } as const;

/** What was said of the person who is tested. */
function ofThePerson(
  { subjects, subjectStates }: Pick<Logbook, 'subjects' | 'subjectStates'>,
  subjectId: string,
): DatedHappening[] {
  const subject = subjects.get(subjectId);
  const code = subject?.description.code ?? 'unknown';
  const left = subject?.retired ?? null;
  return [
    ...subjectStates
      .filter(({ body }) => body.subjectId === subjectId)
      .map(({ body }) => ({
        key: body.settingId,
        at: Date.parse(body.from),
        word: `${code}: ${stateWords[body.state]}`,
        description: body.reason,
      })),
    ...(left === null
      ? []
      : [
          {
            key: `${subjectId} left`,
            at: Date.parse(left.at),
            word: `${code}: Left`,
            description: left.reason,
          },
        ]),
  ];
}
