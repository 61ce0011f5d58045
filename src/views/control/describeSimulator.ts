/** What a simulator's session says of the analyzer, in sentences and figures beside its word. Pure. */
import {
  type ControlPolicy,
  type DlcoUnit,
  dlcoFromMlMinMmHg,
  type SimulatorAssessment,
} from '../../core/index.ts';
import type { SimulatorContent } from '../../journal/entries.ts';
import { dlcoSd, dlcoTyped, plain, signedDlco, dlco as writeDlco } from '../parts/figures.ts';
import { ownLimits, ownSentence, signalSentences } from './controlWords.ts';
import { type ControlWords, ownRows } from './describeBiological.ts';
import { seriesWords } from './words.ts';

/** `policy`: the analyzer's, of the session's day. */
export function describeSimulator(
  control: SimulatorContent,
  assessment: SimulatorAssessment,
  policy: ControlPolicy,
): ControlWords {
  const { edition, source } = control.limits;
  return {
    found: assessment.levels.map((level) => levelSentence(control, level, policy)),
    reasons: signalSentences(assessment.verdict.findings, 'session'),
    explanations: [`Limits: ${edition}: ${source}.`],
    figures: assessment.levels.flatMap(({ level, evaluation }) => {
      const unit = unitOf(control, level);
      return ownRows(`${seriesWords[level]} off target`, ownLimits(evaluation, policy), evaluation.n, {
        unit,
        value: (value) => signedDlco(dlcoFromMlMinMmHg(value, unit), unit),
        mean: (value) => signedDlco(dlcoFromMlMinMmHg(value, unit), unit),
        sd: (value) => dlcoSd(dlcoFromMlMinMmHg(value, unit), unit),
      });
    }),
  };
}

const unitOf = ({ levels }: SimulatorContent, name: 'low' | 'high'): DlcoUnit =>
  levels.find(({ level }) => level === name)?.reading.dlcoUnit ?? 'mL/min/mmHg';

function levelSentence(
  control: SimulatorContent,
  level: SimulatorAssessment['levels'][number],
  policy: ControlPolicy,
): string {
  const { deviationMlMinMmHg: off, targetMlMinMmHg, withinPublished, evaluation } = level;
  const unit = unitOf(control, level.level);
  const reading = control.levels.find((one) => one.level === level.level)?.reading.dlco ?? Number.NaN;
  const inUnit = (value: number) => dlcoFromMlMinMmHg(value, unit);
  const size = writeDlco(Math.abs(inUnit(off)), unit);
  const isOn = Number(off.toFixed(2)) === 0;
  const where = isOn ? 'on target' : `${size} ${off > 0 ? 'above' : 'below'} its target`;
  const inMl = unit === 'mL/min/mmHg' || isOn ? '' : ` (${signedDlco(off, 'mL/min/mmHg')} mL/min/mmHg)`;
  const published = `${withinPublished ? 'inside' : 'outside'} the published ±${plain(control.limits.dlcoMlMinMmHg)} mL/min/mmHg`;
  const own = ownSentence(evaluation, policy, 'sessions');
  return (
    `${seriesWords[level.level]} reads ${dlcoTyped(reading, unit)} ${unit}, ${where}, ` +
    `${writeDlco(inUnit(targetMlMinMmHg), unit)}${inMl}: ${published}. ${own}`
  );
}
