/** A failure of controls in words: what opened it, what stands beside its tests, and what shows that it is over. Pure. */
import { type ControlFinding, type RuleId, togetherText } from '../../core/index.ts';
import type { ControlSeriesName } from '../../journal/entries.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { besideSimulations } from '../besideSimulations.ts';
import type { ControlScale } from '../charting/controlScale.ts';
import type { SeriesControl } from '../charting/controlSeries.ts';
import { acrossLevelsSentence, ruleSentence } from '../charting/ruleNames.ts';
import { type ControlFailure, controlSeriesKey } from '../controlAssessments.ts';
import { day, limitPercent, percent, plain } from '../parts/figures.ts';
import { quantityWords } from '../parts/words.ts';
import { wordOf } from '../seriesWord.ts';

const nameInFinding = (series: ControlSeriesName) =>
  series.kind === 'biological' ? series.quantity : series.level;

/** What a test or a session is called, and many of them. */
export const nouns = {
  biological: { one: 'test', many: 'tests' },
  simulator: { one: 'session', many: 'sessions' },
} as const satisfies Record<ControlSeriesName['kind'], { one: string; many: string }>;

/** Why the control that opened a failure failed in that series, as it comes out today. */
export function openingSentences(
  item: SeriesControl,
  series: ControlSeriesName,
  scale: ControlScale,
): readonly string[] {
  const { one: noun } = nouns[series.kind];
  const name = nameInFinding(series);
  return item.assessment.verdict.findings
    .filter((finding) => finding.series === name)
    .filter((finding) => finding.kind === 'published-limit' || finding.severity === 'action')
    .map((finding) =>
      finding.kind === 'published-limit'
        ? limitSentence(finding, item, scale)
        : finding.across === 'levels'
          ? acrossLevelsSentence(finding.rule)
          : `${finding.rule}: ${ruleSentence(finding.rule, noun)}.`,
    );
}

/** The limits as they are published: in percent and in mL/min/mmHg, whatever the analyzer reports in. */
function limitSentence(
  { value, target, beyond }: Extract<ControlFinding, { kind: 'published-limit' }>,
  { logged: { control } }: SeriesControl,
  { unit, inUnit, value: write }: ControlScale,
): string {
  const plainly = (level: number) => write(inUnit(level)).replace(/^[+−]/, '');
  const by = `${plainly(Math.abs(value - target))} ${unit}`;
  const side = value < target ? 'below' : 'above';
  const inMl = `±${plain(control.limits.dlcoMlMinMmHg)} mL/min/mmHg`;
  if (control.kind === 'simulator') {
    return `It reads ${by} ${side} its target, ${plainly(target)}: outside the published ${inMl}.`;
  }
  const share = percent(Math.abs(value / target - 1));
  const passed = [
    ...(beyond.includes('fraction') ? [`±${limitPercent(control.limits.fraction)} %`] : []),
    ...(beyond.includes('absolute') ? [inMl] : []),
  ];
  return `DLCO is ${by} (${share} %) ${side} the mean of the first six tests, ${plainly(target)}: outside the published ${passed.join(' and ')}.`;
}

export interface BesideLine {
  key: string;
  run: LoggedRun;
  /** What the two say together; empty where that cannot be told, and beside a simulator. */
  says: string;
  next: string;
}

/** The simulations of the days on which the tests of a failure were made, oldest first. */
export function besideLines(
  { controls, series }: Pick<ControlFailure, 'controls' | 'series'>,
  sources: Parameters<typeof besideSimulations>[2],
): readonly BesideLine[] {
  const quantity = series.kind === 'biological' ? series.quantity : 'dlco';
  return controls.flatMap((logged) =>
    besideSimulations(logged, quantity, sources).map(({ run, together }) => {
      const { says, next } = together === null ? { says: '', next: '' } : togetherText[quantity][together];
      return { key: `${logged.id} ${run.id}`, run, says, next };
    }),
  );
}

/** Rules that weigh every control before: none alone can be cleared of what they say. */
const remembering: readonly RuleId[] = ['EWMA', 'CUSUM'];

/** Those that show that it is over: in this series nothing is said of them alone after the last that failed, oldest first. */
export function passingSince(items: readonly SeriesControl[]): readonly SeriesControl[] {
  const counted = items
    .filter(({ voided, setAside }) => voided === null && setAside === null)
    .map((item) => ({
      item,
      word: wordOf(
        item.breached,
        item.evaluation.signals.filter(({ rule }) => !remembering.includes(rule)),
      ),
    }));
  const lastFailing = counted.findLastIndex(({ word }) => word === 'fail');
  return counted.slice(lastFailing + 1).flatMap(({ item, word }) => (word === 'pass' ? [item] : []));
}

/** The items of a series that lie in a failure, the one that opened it first. */
export function itemsOf(
  { controls }: Pick<ControlFailure, 'controls'>,
  items: readonly SeriesControl[],
): readonly SeriesControl[] {
  const ids = new Set(controls.map(({ id }) => id));
  return items.filter(({ id }) => ids.has(id));
}

/** Failures of the same series that ended before this one opened, oldest first. */
export function formerFailures(
  failure: ControlFailure,
  failures: readonly ControlFailure[],
): readonly ControlFailure[] {
  const key = controlSeriesKey(failure.analyzerId, failure.series);
  return failures.filter(
    (other) =>
      other !== failure &&
      controlSeriesKey(other.analyzerId, other.series) === key &&
      other.openedBy.at < failure.openedBy.at,
  );
}

/** How a former failure ended, in a line. */
export function formerSentence({ openedBy, ended }: ControlFailure): string {
  const opened = `Opened ${day(openedBy.at, openedBy.entry.zone)}`;
  if (ended === null) return `${opened}, still open.`;
  if (ended.by === 'new-baseline') return `${opened}, put aside by the new baseline of ${day(ended.from)}.`;
  const { closure } = ended;
  return `${opened}, closed ${day(closure.body.closedAt, closure.zone)}: ${closure.body.cause}`;
}

/** `DLCO of B1` or `the low level`, in a sentence or on a tick. */
export function seriesInWords(series: ControlSeriesName, { subjects }: Pick<Logbook, 'subjects'>): string {
  if (series.kind === 'simulator') return `${series.level} level of the simulator`;
  const code = subjects.get(series.subjectId)?.description.code ?? 'an unknown subject';
  return `${quantityWords[series.quantity]} of ${code}`;
}
