/** The table under the chart: the same runs, newest first, every cell already written. */
import type { RunNumbers } from '../../core/index.ts';
import type { RunContent } from '../../journal/entries.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { type Former, formerValues, initialsIn, numbersOf, type RunStage, stagesOf } from '../amendments.ts';
import type { FiredRule } from '../charting/controlChartModel.ts';
import { firedRules } from '../charting/ruleNames.ts';
import type { SeriesRun } from '../charting/runSeries.ts';
import type { SeriesScale } from '../charting/seriesScale.ts';
import {
  day,
  dayAndTime,
  dlco,
  factor,
  litresTyped,
  plain,
  signedMillilitres,
  temperature,
  zInTable,
} from '../parts/figures.ts';
import { reasonWords, routeWords, verdictWords } from '../parts/words.ts';

export interface RunRow {
  run: LoggedRun;
  id: string;
  when: string;
  /** Number and unit, as the analyzer showed it. */
  reading: { value: string; unit: string };
  temperature: string;
  pressure: { value: string; unit: string };
  factor: string;
  /** Simulated VA, or DLCO in the unit of the series. */
  value: string;
  offTargetMl: string;
  n: string;
  mean: string;
  sd: string;
  z: string;
  /** What the rules remember after this run, in SD. */
  memory: Readonly<Record<'ewma' | 'cusumHigh' | 'cusumLow', string>>;
  signals: readonly FiredRule[];
  word: SeriesRun['word'];
  establishing: boolean;
  /** The verdict of the day where an amendment changed it; else null. */
  struckWord: SeriesRun['word'] | null;
  /** What was written of the verdict before, where it says something else than what is shown; else empty. */
  onTheDay: string;
  /** Why it was run, when not as every week, and what was written beside it. */
  note: string;
  voided: { initials: string; when: string; reason: string } | null;
  /** Oldest first: who amended it, when, why, and where it stood before. */
  amended: readonly string[];
  /** What an amendment replaced, by the cell it stands in. */
  former: Readonly<
    Record<'reading' | 'temperature' | 'pressure' | 'factor' | 'value' | 'offTargetMl', readonly Former[]>
  >;
}

const none = '–';

export function buildRunRows(
  runs: readonly SeriesRun[],
  quantity: 'va' | 'dlco',
  scale: SeriesScale,
  known: Known,
): RunRow[] {
  return runs.map((seriesRun) => runRow(seriesRun, quantity, scale, known)).reverse();
}

/** Whose names and labels the rows are written with. */
type Known = Pick<Logbook, 'technologists' | 'analyzers'>;

function runRow(seriesRun: SeriesRun, quantity: 'va' | 'dlco', scale: SeriesScale, known: Known): RunRow {
  const { run, at, assessment, evaluation, value, word, wordOfTheDay, wordAsAmended } = seriesRun;
  const initialsOf = (id: string) => initialsIn(known.technologists, id);
  const { body, voided } = run;
  const { numbers } = assessment;
  const { mean, sd, z } = evaluation;
  const isAmendedAway = wordAsAmended !== null && wordAsAmended !== wordOfTheDay;
  return {
    run,
    id: run.id,
    when: dayAndTime(at, run.entry.zone),
    reading: readingOf(body, quantity),
    temperature: temperature(body.ambient.temperatureC),
    pressure: pressureOf(body),
    factor: factor(numbers.factor),
    value: scale.value(value),
    offTargetMl: signedMillilitres(numbers.vaOffTargetMl),
    n: voided ? none : String(evaluation.n),
    mean: mean === null ? none : scale.mean(scale.inUnit(mean)),
    sd: sd === null ? none : scale.sd(scale.inUnit(sd)),
    z: z === null ? none : zInTable(z),
    memory: {
      ewma: evaluation.ewma === null ? none : zInTable(evaluation.ewma),
      cusumHigh: sumOf(evaluation.cusumHigh),
      cusumLow: sumOf(evaluation.cusumLow),
    },
    signals: voided ? [] : firedRules(seriesRun),
    word,
    establishing: z === null,
    struckWord: isAmendedAway ? wordOfTheDay : null,
    onTheDay: voided ? '' : writtenBefore(word, isAmendedAway ? wordAsAmended : wordOfTheDay, isAmendedAway),
    note: [body.reason === 'weekly' ? '' : reasonWords[body.reason], body.comment.trim()]
      .filter((part) => part !== '')
      .join('. '),
    voided: voided && { initials: initialsOf(voided.by), when: day(voided.at), reason: voided.reason },
    amended: [...amendmentLines(run, known), ...setAsideLine(run, initialsOf)],
    former: formerCells(seriesRun, quantity, known.technologists),
  };
}

function setAsideLine({ setAside }: LoggedRun, initialsOf: (id: string) => string): readonly string[] {
  if (setAside === null) return [];
  return [`Set aside by ${initialsOf(setAside.by)}, ${day(setAside.at)}: ${setAside.reason}`];
}

/** A sum of CUSUM has no sign: its column says which way. */
const sumOf = (sum: number | null) => (sum === null ? none : zInTable(sum).replace('+', ''));

function writtenBefore(word: SeriesRun['word'], written: SeriesRun['word'], isAmended: boolean): string {
  if (word === written) return '';
  return `${isAmended ? 'when amended' : 'on the day'}: ${verdictWords[written].toLowerCase()}`;
}

function readingOf({ reading }: RunContent, quantity: 'va' | 'dlco'): RunRow['reading'] {
  return quantity === 'va'
    ? { value: asTyped(reading.vaL, litresTyped(reading.vaL)), unit: `L ${reading.vaReportedAs}` }
    : { value: asTyped(reading.dlco, dlco(reading.dlco, reading.dlcoUnit)), unit: reading.dlcoUnit };
}

const pressureOf = ({ pressureAsTyped: { value, unit } }: RunContent): RunRow['pressure'] => ({
  value: plain(value),
  unit,
});

const withUnit = ({ value, unit }: { value: string; unit: string }) => `${value} ${unit}`;

function formerCells(
  { run, former: value }: SeriesRun,
  quantity: 'va' | 'dlco',
  technologists: Known['technologists'],
): RunRow['former'] {
  const former = (write: (stage: RunStage) => string) => formerValues(run, technologists, write);
  const worked = (write: (numbers: RunNumbers) => string) => (stage: RunStage) => {
    const numbers = numbersOf(stage);
    return numbers === null ? none : write(numbers);
  };
  return {
    reading: former(({ content }) => withUnit(readingOf(content, quantity))),
    temperature: former(({ content }) => temperature(content.ambient.temperatureC)),
    pressure: former(({ content }) => withUnit(pressureOf(content))),
    factor: former(worked(({ factor: converted }) => factor(converted))),
    offTargetMl: former(worked(({ vaOffTargetMl }) => signedMillilitres(vaOffTargetMl))),
    value,
  };
}

/** A run that an amendment took from another analyzer or route says so: it was not in this table on its day. */
function amendmentLines(run: LoggedRun, { technologists, analyzers }: Known): string[] {
  const stages = stagesOf(run);
  return run.amendments.map(({ by, at, zone, body: { run: after, reason } }, index) => {
    const before = stages[index]?.content ?? after;
    const moved = [
      before.analyzerId === after.analyzerId
        ? []
        : [analyzers.get(before.analyzerId)?.description.label ?? 'an unknown analyzer'],
      before.route === after.route ? [] : [routeWords[before.route].toLowerCase()],
    ].flat();
    const from = moved.length === 0 ? '' : ` It stood under ${moved.join(', ')} before.`;
    return `Amended by ${initialsIn(technologists, by)}, ${day(at, zone)}: ${reason}${from && '.'}${from}`;
  });
}

/** With the display's decimals, or with more where more were typed: a zero at the end is not kept in a number. */
function asTyped(value: number, withDecimals: string): string {
  const shortest = plain(value);
  return shortest.length > withDecimals.length ? shortest : withDecimals;
}
