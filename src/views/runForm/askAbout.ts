/** What is asked before a run is written: it may well be so, and is more often a slip. */
import type { RunContent } from '../../journal/entries.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { isStillToCome } from '../../journal/plausible.ts';
import { outOfService } from '../../journal/standing.ts';
import { asSentence } from '../parts/asSentence.ts';
import { dayAndTime } from '../parts/figures.ts';

const identicalWithinMs = 60_000;

/** `lastRun`: of the run's analyzer, without the run that is amended. */
export function questionsFor(
  run: RunContent,
  {
    logbook,
    lastRun,
    now,
    amending,
  }: { logbook: Logbook; lastRun: LoggedRun | undefined; now: number; amending: LoggedRun | undefined },
): string[] {
  const questions: string[] = [];
  const madeAt = Date.parse(run.madeAt);
  if (isPlacedAnew(run, amending)) {
    if (isStillToCome(madeAt, now)) {
      questions.push(
        `The run is dated ${dayAndTime(run.madeAt)}, which is still to come. Is the date right?`,
      );
    }
    if (lastRun && madeAt < Date.parse(lastRun.body.madeAt)) {
      questions.push(
        `The last run of this analyzer was made on ${dayAndTime(lastRun.body.madeAt)}; this one is dated before it. ` +
          'It is judged by the runs before its own date. Is the date right?',
      );
    }
  }
  const identical = runsAround(logbook.runs, madeAt, identicalWithinMs).find(
    (other) => other.id !== amending?.id && isIdentical(other, run),
  );
  if (identical) {
    questions.push(
      `The same readings were recorded for this analyzer on ${dayAndTime(identical.body.madeAt)}. Is this another run?`,
    );
  }
  const unused = amending === undefined ? outOfService(logbook, run.analyzerId, run.madeAt) : null;
  if (unused !== null && run.reason !== 'after-service') {
    questions.push(
      `The analyzer is out of service since ${dayAndTime(unused.from)}: ${asSentence(unused.reason)} ` +
        'Is this run meant to be recorded all the same? One that proves a repair has the reason “After service”.',
    );
  }
  questions.push(...askAboutClock(logbook, now));
  return questions;
}

/** A clock that was set back dates what is written now before what was written earlier. `now` in ms. */
export const askAboutClock = ({ newestAt }: Pick<Logbook, 'newestAt'>, now: number): string[] =>
  newestAt !== null && isStillToCome(Date.parse(newestAt), now)
    ? [
        `This computer's clock says ${dayAndTime(now)}, but the newest entry was written on ` +
          `${dayAndTime(newestAt)}. Has the clock been set back?`,
      ]
    : [];

/** An amended run whose analyzer and date stay lies where it always lay: there is nothing to ask about that. */
function isPlacedAnew(run: RunContent, amending: LoggedRun | undefined): boolean {
  return (
    amending === undefined ||
    amending.body.madeAt !== run.madeAt ||
    amending.body.analyzerId !== run.analyzerId
  );
}

/** The runs of all analyzers made about one moment. From the newest back: it is asked at every key, mostly for now. */
function runsAround(runs: readonly LoggedRun[], at: number, withinMs: number): LoggedRun[] {
  const around: LoggedRun[] = [];
  for (let index = runs.length - 1; index >= 0; index -= 1) {
    const run = runs[index];
    if (run === undefined || run.simulation.at < at - withinMs) break;
    if (run.simulation.at <= at + withinMs) around.push(run);
  }
  return around.reverse();
}

function isIdentical({ body, voided }: LoggedRun, run: RunContent): boolean {
  return voided === null && body.analyzerId === run.analyzerId && sameValues(body, run);
}

function sameValues(one: RunContent, other: RunContent): boolean {
  return (
    one.route === other.route &&
    one.reading.vaL === other.reading.vaL &&
    one.reading.dlco === other.reading.dlco &&
    one.ambient.temperatureC === other.ambient.temperatureC &&
    one.ambient.barometricMmHg === other.ambient.barometricMmHg
  );
}
