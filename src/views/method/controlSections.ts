/** How a person's tests and a simulator's sessions are judged, and the figures of the other checks. Pure. */
import {
  biologicalPolicy,
  firstTestCount,
  haemoglobinGPerDl,
  publishedVolumeCalibration,
  severityOf,
  togetherIds,
  togetherText,
} from '../../core/index.ts';
import type { ScheduledCheck } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { type LimitedCheck, limitInWords } from '../checkLimitWords.ts';
import { checkLimitsAt } from '../controlAssessments.ts';
import { limitsInForce } from '../judgedBy.ts';
import { counted, limitPercent, millilitres, plain } from '../parts/figures.ts';
import { planOf } from '../schedule.ts';
import { checkWords, intervalWords } from '../scheduleWords.ts';
import { sources } from '../terms.ts';
import { equation, type MethodSection, table, text } from './methodModel.ts';
import { factorsAt } from './ownLimitSections.ts';
import { factsInForce, inForce, type PolicyGroup } from './policiesInForce.ts';

export function biologicalSection(
  logbook: Logbook,
  at: string,
  groups: readonly PolicyGroup[],
): MethodSection {
  const { biological } = checkLimitsAt(logbook, at);
  return {
    place: 'biological',
    title: 'Biological controls',
    terms: ['first-six', 'coefficient-of-variation'],
    blocks: [
      text(
        `The tests of one person on one analyzer are two series, DLCO and VA. DLCO has a published limit: within ${limitPercent(biological.fraction)} % and within ${plain(biological.dlcoMlMinMmHg)} mL/min/mmHg of the mean of the first ${firstTestCount} tests of the epoch that were not excluded; beyond either the test fails. VA has none. Rules, EWMA and CUSUM are those of the analyzer’s policy.`,
      ),
      ...factsInForce('Own limits of a person', groups, (policy) => {
        const { minimumSize, baselineSize } = biologicalPolicy(policy);
        return [
          {
            name: 'Made from',
            value: `the first tests, judged from ${minimumSize} on and frozen at ${baselineSize}`,
          },
          {
            name: 'Widened',
            value: `2 and 3 SD stand at ${factorsAt(minimumSize)} SD of ${minimumSize} tests, and at ${factorsAt(baselineSize)} of ${baselineSize}`,
          },
        ];
      }),
      text(
        `The coefficient of variation is the sample SD over the mean; ${limitPercent(biological.cv)} % can be reached. Haemoglobin of ${plain(1)} mmol/L, counted by its iron, is ${plain(haemoglobinGPerDl(1, 'mmol/L'))} g/dL.`,
      ),
      table(
        'What a person and the syringe say together on one day',
        ['DLCO', 'VA'],
        togetherIds
          .filter((id) => id !== 'not-judged')
          .map((id) => [togetherText.dlco[id].says, togetherText.va[id].says]),
      ),
    ],
    sources: [
      `Limits in force: ${biological.source}`,
      'Widened limits: Hahn & Meeker, Statistical Intervals (1991), 4.7',
      'Haemoglobin: recalled from laboratory tables',
      'What they say together: derived from the single-breath equation and the mass balance; testing a second person is common practice',
    ],
  };
}

export function simulatorSection(
  logbook: Logbook,
  at: string,
  groups: readonly PolicyGroup[],
): MethodSection {
  const { simulator } = checkLimitsAt(logbook, at);
  return {
    place: 'simulator',
    title: 'Precision-gas simulator',
    terms: ['r-4s-across-levels'],
    blocks: [
      text(
        'The target of a level is the DLCO that its gases and volume stand for, by the single-breath equation, or the one on its certificate. Each level is a series of its own, of what was read less the target, so that a new certificate moves no mean.',
      ),
      equation('deviation = DLCO read − DLCO of the target'),
      text(
        `A level beyond ${plain(simulator.dlcoMlMinMmHg)} mL/min/mmHg of its target fails the session. Own limits and rules are those of the analyzer’s policy.`,
      ),
      text(
        `R-4s is asked between the two levels of a session as well, before either is judged. It weighs what R-4s weighs (${inForce(groups, (policy) => severityOf('R-4s', policy))}); as an action it opens a failure in both.`,
      ),
    ],
    sources: [
      `Limit in force: ${simulator.source}`,
      'Target: single-breath equation of the ERS/ATS standards of 2005 and 2017',
      `R-4s within one session: ${sources.westgard}`,
    ],
  };
}

/** Which of the limits a check is held against; null where a person decides the outcome. */
const limitOf: Readonly<Record<ScheduledCheck, LimitedCheck | 'simulation' | null>> = {
  simulation: 'simulation',
  'volume-check': 'volumeCalibration',
  'biological-control': 'biological',
  linearity: 'linearity',
  simulator: 'simulator',
  'syringe-leak': null,
  'syringe-calibration': 'syringe',
  barometer: 'barometer',
  'cylinder-expiry': null,
};

const scheduledChecks = Object.keys(limitOf).filter((check): check is ScheduledCheck => check in limitOf);

export function checksSection(logbook: Logbook, at: string): MethodSection {
  const limits = checkLimitsAt(logbook, at);
  return {
    place: 'checks',
    title: 'Every check: how often, and by what',
    terms: ['full-scale'],
    blocks: [
      table(
        'As the laboratory makes them today',
        ['Check', 'Made', 'Judged by', 'Where the interval comes from'],
        scheduledChecks.map((check) => [checkWords[check], ...planInWords(logbook, check, at)]),
      ),
      text(
        `A volume calibration check is strokes of the syringe at ${publishedVolumeCalibration.flows} flows: each reading over what should be read, less 1. It passes when every flow is within ±${limitPercent(limits.volumeCalibration.fraction)} %, which of 3 L is ±${millilitres(3000 * limits.volumeCalibration.fraction)} mL. In BTPS the syringe should read its stroke by the conversion to BTPS.`,
      ),
      text(
        `Linearity holds each dilution’s reading against what is expected, as a fraction of full scale, and passes when every point is within ±${limitPercent(limits.linearity.fraction)} %. The least-squares line through the points is drawn beside it: where all lie on the line and not where they should, gain or zero is off and the analyzer is straight.`,
      ),
      equation('deviation = (read − expected) / full scale\nline: read = a + b · expected, least squares'),
      text(
        'A syringe’s certified volume is held against its nominal one, the barometer against a reference, both as a fraction of what they should be. Leak and stop are a person’s word: passed or failed. A cylinder is good until its date.',
      ),
    ],
    sources: [
      `Volume calibration: ${limits.volumeCalibration.source}`,
      `Linearity: ${limits.linearity.source}`,
      `Syringe: ${limits.syringe.source}`,
      `Barometer: ${limits.barometer.source}`,
    ],
  };
}

function planInWords(logbook: Logbook, check: ScheduledCheck, at: string): string[] {
  const limited = limitOf[check];
  const judgedBy =
    limited === null
      ? check === 'cylinder-expiry'
        ? 'the date on it'
        : 'whoever tests: passed or failed'
      : limited === 'simulation'
        ? `published limits (${limitsInForce(logbook, at).edition}) and own limits`
        : limitInWords(limited, checkLimitsAt(logbook, at));
  const planned = planOf(logbook, check);
  if (planned === null) return ['not made here', judgedBy, 'the laboratory’s own setting'];
  const { plan, isUsual } = planned;
  const announced = plan.announceDays === 0 ? '' : `, announced ${counted(plan.announceDays, 'day')} before`;
  return [
    `${intervalWords(plan.every)}${announced}`,
    judgedBy,
    isUsual ? plan.source : `The laboratory: ${plan.source}`,
  ];
}
