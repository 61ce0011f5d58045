/** The core's table of contents. Volumes in litres, pressures in mmHg, temperatures in °C, times in ms, unless a name says otherwise. */

// From recorded runs to verdicts
export {
  type AssessmentOptions,
  type Assessor,
  assessRuns,
  createAssessor,
  type Finding,
  type Method,
  type Quantity,
  type Route,
  type RunAssessment,
  type SeriesClosure,
  type SimulationRun,
  type Verdict,
  type VerdictWord,
} from './assessment.ts';
// A series and its control rules
export { type ControlPolicy, defaultControlPolicy, defaultSeverity, severityOf } from './controlPolicy.ts';
export { type RuleId, type RuleSeverity, ruleIds } from './controlRules.ts';
// Published limits
export {
  isDlcoWithinPublished,
  isVaWithinPublished,
  isWithinTolerance,
  type PublishedLimits,
  publishedDlcoLimit,
  publishedLimits2017,
} from './fixedLimits.ts';
// Gas and volumes
export { type Ambient, type GasCondition, saturatedVaporPressureMmHg, volumeFactor } from './gas.ts';
export { type PressureUnit, pressureInMmHg } from './pressure.ts';
// Statistics
export { normalQuantile, tQuantile } from './quantiles.ts';
export {
  type RunInputs,
  type RunNumbers,
  type RunReading,
  reduceRun,
  type SyringeSetUp,
} from './runNumbers.ts';
export {
  createSeriesEvaluator,
  evaluateSeries,
  type PointEvaluation,
  type SeriesEvaluator,
  type SeriesPoint,
  type Signal,
} from './series.ts';
// Carbon monoxide uptake
export {
  coTracerDisagreement,
  type DlcoUnit,
  dlcoFromMlMinMmHg,
  dlcoInMlMinMmHg,
  type GasFractions,
  mlMinMmHgPerMmolMinKPa,
  type SingleBreathInput,
  singleBreathDlco,
} from './singleBreath.ts';
export { mean, movingRangeSigma, predictionFactor, sampleSd } from './statistics.ts';
export {
  ambientFactor,
  type Conversion,
  customaryFixedFactor,
  expectedVolumeCheckL,
  type SimulatedVa,
  type SimulatedVaInput,
  simulatedVa,
} from './syringe.ts';
