/** What a person's test says of the analyzer, in sentences and figures beside its word. Pure. */
import {
  type BiologicalAssessment,
  biologicalPolicy,
  type ControlPolicy,
  coefficientOfVariation,
  type DlcoUnit,
  dlcoFromMlMinMmHg,
  firstTestCount,
  haemoglobinGPerDl,
  median,
} from '../../core/index.ts';
import type { BiologicalContent } from '../../journal/entries.ts';
import type { LoggedControl } from '../../journal/logbook.ts';
import {
  counted,
  dlcoMean,
  dlcoSd,
  dlcoTyped,
  limitPercent,
  litres,
  litresAsTyped,
  litresSd,
  percent,
  plain,
  signedDlco,
  signedPercent,
  timeOfDay,
  dlco as writeDlco,
} from '../parts/figures.ts';
import { localClock } from '../parts/localTime.ts';
import { ownLimits, ownSentence, signalSentences } from './controlWords.ts';
import { haemoglobinsOf } from './readBiological.ts';

/** A test before this one, with what it came to. */
interface EarlierTest {
  logged: LoggedControl;
  assessment: BiologicalAssessment | undefined;
}

export interface ControlWords {
  /** What was found, against which limit. */
  found: readonly string[];
  /** Rules that fired. */
  reasons: readonly string[];
  /** What may lie behind it, and corrects nothing. */
  explanations: readonly string[];
  figures: readonly { name: string; value: string }[];
}

interface TestSurroundings {
  /** The analyzer's, of the control's day. */
  policy: ControlPolicy;
  /** Of the same person on the same analyzer, made before, oldest first; voided ones are not among them. */
  earlier: readonly EarlierTest[];
  epoch: number;
  countsNowhere: boolean;
}

export function describeBiological(
  control: BiologicalContent,
  assessment: BiologicalAssessment,
  { policy, earlier, epoch, countsNowhere }: TestSurroundings,
): ControlWords {
  const own = biologicalPolicy(policy);
  const accepted = earlier.flatMap(({ logged, assessment: other }) =>
    logged.epoch === epoch && other?.dlco.accepted === true ? [other.dlcoMlMinMmHg] : [],
  );
  if (assessment.dlco.accepted) accepted.push(assessment.dlcoMlMinMmHg);
  return {
    found: [
      dlcoSentence(control, assessment, own, countsNowhere),
      `VA is ${litresAsTyped(control.reading.vaL)} L. ${ownSentence(assessment.va, own, 'tests')}`,
    ],
    reasons: signalSentences(assessment.verdict.findings, 'test'),
    explanations: [
      ...haemoglobinSentence(control, assessment, earlier),
      ...timeOfDaySentence(control, earlier),
    ],
    figures: figuresOf(control, assessment, own, accepted),
  };
}

const inUnit = (mlMinMmHg: number, unit: DlcoUnit) => dlcoFromMlMinMmHg(mlMinMmHg, unit);

function dlcoSentence(
  { reading, limits }: BiologicalContent,
  assessment: BiologicalAssessment,
  own: ControlPolicy,
  countsNowhere: boolean,
): string {
  const { dlcoUnit: unit } = reading;
  const is = `DLCO is ${dlcoTyped(reading.dlco, unit)} ${unit}`;
  const { firstTests, offMlMinMmHg: off, offFraction } = assessment;
  if (firstTests.meanMlMinMmHg === null || off === null || offFraction === null) {
    const standing = countsNowhere
      ? `it is none of the first ${firstTestCount}`
      : `it is test ${firstTests.n + 1} of the first ${firstTestCount}`;
    return `${is}: ${standing}, and nothing is judged before there are ${firstTestCount}.`;
  }
  const inMl = unit === 'mL/min/mmHg' ? '' : `, ${signedDlco(off, 'mL/min/mmHg')} mL/min/mmHg`;
  const size = writeDlco(Math.abs(inUnit(off, unit)), unit);
  const mean = writeDlco(inUnit(firstTests.meanMlMinMmHg, unit), unit);
  const where = isOnTheMean(off)
    ? 'on'
    : `${size} (${signedPercent(offFraction)} %${inMl}) ${off > 0 ? 'above' : 'below'}`;
  return (
    `${is}, ${where} the mean of the first ${firstTestCount}, ${mean}: ` +
    `${publishedWords(assessment, limits)}. ${ownSentence(assessment.dlco, own, 'tests')}`
  );
}

/** To the digits that are shown. */
const isOnTheMean = (offMlMinMmHg: number) => Number(offMlMinMmHg.toFixed(2)) === 0;

function publishedWords(
  { withinPublished, verdict }: BiologicalAssessment,
  { fraction, dlcoMlMinMmHg }: BiologicalContent['limits'],
): string {
  const inPercent = `±${limitPercent(fraction)} %`;
  const inMl = `±${plain(dlcoMlMinMmHg)} mL/min/mmHg`;
  if (withinPublished !== false) return `inside the published ${inPercent} and ${inMl}`;
  const breach = verdict.findings.find(({ kind }) => kind === 'published-limit');
  const beyond = breach?.kind === 'published-limit' ? breach.beyond : [];
  const passed = [
    ...(beyond.includes('fraction') ? [inPercent] : []),
    ...(beyond.includes('absolute') ? [inMl] : []),
  ];
  return `outside the published ${passed.join(' and ')}`;
}

/** Less haemoglobin takes up less carbon monoxide: an explanation where both went the same way, never a correction. */
function haemoglobinSentence(
  { haemoglobin }: BiologicalContent,
  { offMlMinMmHg }: BiologicalAssessment,
  earlier: readonly EarlierTest[],
): string[] {
  if (haemoglobin === undefined) return [];
  const before = haemoglobinsOf(earlier.map(({ logged }) => logged));
  const usual = median(before);
  if (usual === undefined) return [];
  const off = Number((haemoglobinGPerDl(haemoglobin.value, haemoglobin.unit) - usual).toFixed(1));
  const is = `Haemoglobin is ${plain(haemoglobin.value)} ${haemoglobin.unit}`;
  const usually = `the median of ${counted(before.length, 'earlier one')}, ${plain(Number(usual.toFixed(1)))} g/dL`;
  if (off === 0) return [`${is}, as ${usually}.`];
  const distance = `${is}, ${plain(Math.abs(off))} g/dL ${off > 0 ? 'above' : 'below'} ${usually}.`;
  const moves = off > 0 ? 'More of it takes up more' : 'Less of it takes up less';
  if (offMlMinMmHg === null || isOnTheMean(offMlMinMmHg)) return [`${distance} ${moves}.`];
  return offMlMinMmHg > 0 === off > 0
    ? [`${distance} ${moves}: it may explain a part of the distance. Nothing is corrected for it.`]
    : [`${distance} ${moves}: it does not explain the distance. Nothing is corrected for it.`];
}

/** Common practice, no source: a person is tested at about the same time of day, since uptake is not the same all day long. */
const usualWithinMinutes = 120;
const fewestTimes = 3;

function timeOfDaySentence({ madeAt }: BiologicalContent, earlier: readonly EarlierTest[]): string[] {
  if (earlier.length < fewestTimes) return [];
  const usual = median(earlier.map(({ logged }) => minuteOfDay(logged.control.madeAt)));
  const now = minuteOfDay(madeAt);
  if (usual === undefined || Math.abs(now - usual) <= usualWithinMinutes) return [];
  return [
    `Made at ${inClock(now)}; this person is usually tested about ${inClock(usual)}. Uptake is not the same all day long.`,
  ];
}

function minuteOfDay(instant: string): number {
  const { hour, minute } = localClock(instant);
  return hour * 60 + minute;
}

const inClock = (minutes: number) =>
  timeOfDay(new Date(2000, 0, 1, Math.floor(minutes / 60), Math.floor(minutes % 60)).getTime());

function figuresOf(
  { reading, limits }: BiologicalContent,
  { firstTests, dlco, va }: BiologicalAssessment,
  own: ControlPolicy,
  accepted: readonly number[],
): ControlWords['figures'] {
  const unit = reading.dlcoUnit;
  const mean = firstTests.meanMlMinMmHg;
  const range = (lower: number, upper: number) =>
    `${writeDlco(inUnit(lower, unit), unit)} to ${writeDlco(inUnit(upper, unit), unit)} ${unit}`;
  const published =
    mean === null
      ? []
      : [
          {
            name: `Mean of the first ${firstTestCount}`,
            value: `${dlcoMean(inUnit(mean, unit), unit)} ${unit}`,
          },
          {
            name: `Published ±${limitPercent(limits.fraction)} %`,
            value: range(mean * (1 - limits.fraction), mean * (1 + limits.fraction)),
          },
          {
            name: `Published ±${plain(limits.dlcoMlMinMmHg)} mL/min/mmHg`,
            value: range(mean - limits.dlcoMlMinMmHg, mean + limits.dlcoMlMinMmHg),
          },
        ];
  const ofDlco = ownRows('DLCO', ownLimits(dlco, own), dlco.n, {
    unit,
    value: (value) => writeDlco(inUnit(value, unit), unit),
    mean: (value) => dlcoMean(inUnit(value, unit), unit),
    sd: (value) => dlcoSd(inUnit(value, unit), unit),
  });
  const ofVa = ownRows('VA', ownLimits(va, own), va.n, {
    unit: 'L',
    value: litres,
    mean: litres,
    sd: litresSd,
  });
  const cv = coefficientOfVariation(accepted);
  const spread =
    cv === undefined
      ? []
      : [
          {
            name: 'Coefficient of variation',
            value: `${percent(cv)} % of ${accepted.length} accepted tests; ${limitPercent(limits.cv)} % can be reached${cv > limits.cv ? ': this person varies more' : ''}`,
          },
        ];
  return [...published, ...ofDlco, ...ofVa, ...spread];
}

interface Written {
  unit: string;
  value: (value: number) => string;
  mean: (value: number) => string;
  sd: (value: number) => string;
}

/** A series' own limits, one below the other. */
export function ownRows(
  name: string,
  limits: ReturnType<typeof ownLimits>,
  n: number,
  write: Written,
): { name: string; value: string }[] {
  if (limits === null) return [];
  const { mean, sd, two, three } = limits;
  const range = ([lower, upper]: [number, number]) =>
    `${write.value(lower)} to ${write.value(upper)} ${write.unit}`;
  return [
    { name: `${name}, own mean`, value: `${write.mean(mean)} ${write.unit}, SD ${write.sd(sd)}, n ${n}` },
    { name: `${name}, own 2 SD`, value: range(two) },
    { name: `${name}, own 3 SD`, value: range(three) },
  ];
}
