/** The core's table of contents. Volumes in litres, pressures in mmHg, temperatures in °C, times in ms, unless a name says otherwise. */

// Gas and volumes

export {
  type Ambient,
  bodyTemperatureC,
  bodyWaterVaporMmHg,
  type GasCondition,
  saturatedVaporPressureMmHg,
  standardPressureMmHg,
  volumeFactor,
} from './gas.ts';
export { type PressureUnit, pressureInMmHg } from './pressure.ts';
export {
  ambientFactor,
  type Conversion,
  customaryFixedFactor,
  expectedVolumeCheckL,
  type SimulatedVa,
  type SimulatedVaInput,
  simulatedVa,
} from './syringe.ts';
export {
  publishedVolumeCalibration,
  type VolumeCalibration,
  type VolumeCalibrationReading,
  volumeCalibrationCheck,
} from './volumeCalibration.ts';

// Carbon monoxide uptake

export {
  coTracerDisagreement,
  type DlcoUnit,
  dlcoFromMlMinMmHg,
  dlcoInMlMinMmHg,
  dlcoOfDisagreement,
  type GasFractions,
  mlMinMmHgPerMmolMinKPa,
  type SingleBreathInput,
  singleBreathDlco,
} from './singleBreath.ts';

// Published limits

export {
  disagreementAtLimit,
  isDlcoWithinPublished,
  isVaWithinPublished,
  isWithinTolerance,
  type PublishedLimits,
  publishedDlcoLimit,
  publishedLimits2017,
} from './fixedLimits.ts';

// Statistics

export { autocorrelationByChance, lagOneAutocorrelation } from './autocorrelation.ts';
export { confidenceOfEach, type MeanDifference, meanDifference } from './meanDifference.ts';
export { meanConfidenceInterval } from './meanInterval.ts';
export { type NormalityTest, shapiroFrancia } from './normality.ts';
export { chiSquareQuantile, normalTail } from './probabilities.ts';
export { normalQuantile, tQuantile } from './quantiles.ts';
export { median, outlyingIndices, robustSd } from './robust.ts';
export { sdConfidenceInterval } from './sdInterval.ts';
export { type SdRatio, sdRatio } from './spreadRatio.ts';
export { mean, movingRangeSigma, predictionFactor, sampleSd } from './statistics.ts';
export { coefficientOfVariation } from './variation.ts';

// A series and its control rules

export { type ControlPolicy, defaultControlPolicy, defaultSeverity, severityOf } from './controlPolicy.ts';
export { ewmaLimit, type RuleId, type RuleSeverity, ruleIds, ruleSpan } from './controlRules.ts';
export { type DriftReading, driftLimitSd, rollingDrift } from './driftGuard.ts';
export { evaluateSeries } from './evaluateSeries.ts';
export { type PolicyStep, policyAt } from './policySteps.ts';
export type { PointEvaluation, SeriesPoint, Signal } from './series.ts';

// From recorded runs to verdicts

export type { Assessments, RunOutline } from './assessedRuns.ts';
export { type AssessmentOptions, assessRuns } from './assessment.ts';
export {
  type RunInputs,
  type RunNumbers,
  type RunReading,
  reduceRun,
  type SyringeSetUp,
} from './runNumbers.ts';
export type { Method, Route, RunAssessment, SeriesClosure, SimulationRun } from './simulationRun.ts';
export type { Finding, Quantity, Verdict, VerdictWord } from './verdict.ts';

// Controls besides the syringe

export {
  assessBiologicalTests,
  type BiologicalAssessment,
  type BiologicalLimits,
  type BiologicalTest,
  biologicalPolicy,
  biologicalReach,
  firstTestCount,
} from './biologicalControl.ts';
export { type CheckLimits, publishedCheckLimits } from './checkLimits.ts';
export type {
  ControlAssessmentOptions,
  ControlClosure,
  ControlFinding,
  ControlSeries,
  ControlVerdict,
} from './controlAssessment.ts';
export { type HaemoglobinUnit, haemoglobinGPerDl } from './haemoglobin.ts';
export {
  assessSimulatorSessions,
  type LevelAssessment,
  type SimulatedLevel,
  type SimulatorAssessment,
  type SimulatorLevel,
  type SimulatorSession,
  simulatorTarget,
} from './simulator.ts';

// Other checks with figures

export { type AgainstReference, barometerCheck, syringeVolumeCheck } from './againstReference.ts';
export {
  type JudgedLinearityPoint,
  type Linearity,
  type LinearityPoint,
  linearityCheck,
  type StraightLine,
} from './linearity.ts';

// After a signal

export {
  type Evidence,
  type Movement,
  type Observations,
  type ShiftSplit,
  splitShift,
  splitShifts,
} from './causeEvidence.ts';
export { type CauseRanking, type RankedCause, rankCauses, type WeighedEvidence } from './causes.ts';
export {
  type CauseId,
  type CauseRule,
  type CheckId,
  causeRules,
  causeText,
  checkText,
  type EvidenceId,
} from './causeTable.ts';
export {
  type ChangePoint,
  changePoint,
  type DriftStart,
  driftStart,
  logLikelihoodStep,
} from './changePoint.ts';
export { type LookBack, type LookBackInput, type LookBackRun, lookBack } from './lookBack.ts';
export {
  readTogether,
  type Standing,
  standingOf,
  type TogetherId,
  togetherIds,
  togetherText,
} from './readTogether.ts';

// Both routes of one analyzer

export {
  partedBeyondSd,
  type RouteDifference,
  type RouteOffset,
  type RoutePair,
  type RoutePairs,
  type RouteReading,
  type RouteRun,
  routePairs,
} from './routePairs.ts';

// How soon a shift is noticed

export {
  averageRunLength,
  type DetectionQuestion,
  falseAlarmsPerYear,
  type RunLength,
  runLength,
  runsUntilOutside,
  weeksUntilNoticed,
} from './runLength.ts';

// How well a simulated VA is known

export {
  compareSpread,
  expectedSpread,
  type SpreadComparison,
  type SpreadJudgement,
  type UncertaintyBudget,
  type UncertaintyContribution,
  type UncertaintyHalfWidths,
  type UncertaintySource,
  uncertaintyBudget,
  usualHalfWidths,
} from './uncertainty.ts';

// What is due

export { addDays, addMonths, type CivilDate, civilDateOf, daysBetween } from './civilDate.ts';
export {
  addInterval,
  type CheckDue,
  type CheckHistory,
  type CheckInterval,
  type CheckKind,
  type CheckPlan,
  checkDue,
  type DueState,
  type ServicePause,
  usualPlans,
} from './schedule.ts';
export { type WallClock, wallClockOf } from './wallClock.ts';

// What a period comes to

export { mondayOf, quarterOf } from './civilWeek.ts';
export {
  type Completeness,
  type CompletenessInput,
  type CompletenessWeek,
  completeness,
  type FormerInterval,
  type GapExplanation,
  type OnTime,
  type WeekState,
} from './completeness.ts';
export { type DueDate, type DueDatesInput, dueDates } from './dueDates.ts';
export {
  countVerdicts,
  type SeriesSummary,
  summarizeSeries,
  type VerdictCounts,
} from './periodSummary.ts';
export { type WeeksWithoutRun, weeksWithoutRun } from './weeksWithoutRun.ts';
