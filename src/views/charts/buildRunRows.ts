/** The table under the chart: the same runs, newest first, every cell already written. */
import type { Logbook } from '../../journal/logbook.ts';
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
import { reasonWords, verdictWords } from '../parts/words.ts';
import type { SeriesRun } from './chartSeries.ts';
import type { FiredRule } from './controlChartModel.ts';
import { firedRules } from './ruleNames.ts';
import type { SeriesScale } from './seriesScale.ts';

export interface RunRow {
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
  signals: readonly FiredRule[];
  word: SeriesRun['word'];
  establishing: boolean;
  /** The verdict of the day where today's differs from it; else empty. */
  onTheDay: string;
  initials: string;
  /** Why it was run, when not as every week, and what was written beside it. */
  note: string;
  voided: { initials: string; when: string; reason: string } | null;
}

const none = '–';

export function buildRunRows(
  runs: readonly SeriesRun[],
  quantity: 'va' | 'dlco',
  scale: SeriesScale,
  technologists: Logbook['technologists'],
): RunRow[] {
  const initialsOf = (id: string) => technologists.get(id)?.initials ?? '?';
  return runs.map((seriesRun) => runRow(seriesRun, quantity, scale, initialsOf)).reverse();
}

function runRow(
  seriesRun: SeriesRun,
  quantity: 'va' | 'dlco',
  scale: SeriesScale,
  initialsOf: (id: string) => string,
): RunRow {
  const { run, at, assessment, evaluation, value, word, wordOfTheDay } = seriesRun;
  const { body, voided } = run;
  const { numbers } = assessment;
  const { mean, sd, z } = evaluation;
  const { reading, ambient, pressureAsTyped } = body;
  return {
    id: run.id,
    when: dayAndTime(at, run.entry.zone),
    reading:
      quantity === 'va'
        ? { value: asTyped(reading.vaL, litresTyped(reading.vaL)), unit: `L ${reading.vaReportedAs}` }
        : { value: asTyped(reading.dlco, dlco(reading.dlco, reading.dlcoUnit)), unit: reading.dlcoUnit },
    temperature: temperature(ambient.temperatureC),
    pressure: { value: plain(pressureAsTyped.value), unit: pressureAsTyped.unit },
    factor: factor(numbers.factor),
    value: scale.value(value),
    offTargetMl: signedMillilitres(numbers.vaOffTargetMl),
    n: voided ? none : String(evaluation.n),
    mean: mean === null ? none : scale.mean(scale.inUnit(mean)),
    sd: sd === null ? none : scale.sd(scale.inUnit(sd)),
    z: z === null ? none : zInTable(z),
    signals: voided ? [] : firedRules(seriesRun),
    word,
    establishing: z === null,
    onTheDay:
      word === wordOfTheDay || voided ? '' : `on the day: ${verdictWords[wordOfTheDay].toLowerCase()}`,
    initials: initialsOf(body.technologistId),
    note: [body.reason === 'weekly' ? '' : reasonWords[body.reason], body.comment.trim()]
      .filter((part) => part !== '')
      .join('. '),
    voided: voided && { initials: initialsOf(voided.by), when: day(voided.at), reason: voided.reason },
  };
}

/** With the display's decimals, or with more where more were typed: a zero at the end is not kept in a number. */
function asTyped(value: number, withDecimals: string): string {
  const shortest = plain(value);
  return shortest.length > withDecimals.length ? shortest : withDecimals;
}
