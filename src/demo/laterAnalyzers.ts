/** The analyzers that came later, each with what it is to show. */
import { controlsOfRoom3, controlsOfRoom5, controlsOfRoom7 } from './controlPlan.ts';
import { filter, room1, room2 } from './equipment.ts';
import { type AnalyzerPlan, lastWeek, uneventful } from './plan.ts';

/**
 * Run by both routes every week. The built-in routine is set anew some weeks before the end: both routes still pass, but they
 * lie further apart than they ever did, until the built-in one fails and is looked into.
 */
const bothRoutes: AnalyzerPlan = {
  ...uneventful,
  description: { ...room1, label: 'Room 3 rapid-gas', place: 'Room 3', serial: 'A-4' },
  fromWeek: lastWeek - 47,
  minuteOfVisit: 135,
  truths: [
    { route: 'patient-test', gain: 0.004, gainSd: 0.004, dlcoOffset: 0.03, dlcoSd: 0.05 },
    {
      route: 'built-in',
      gain: 0,
      gainSd: 0.004,
      dlcoOffset: -0.02,
      dlcoSd: 0.05,
      setting: { fromWeek: lastWeek - 3, gain: 0.03 },
    },
  ],
  sharedGainSd: 0.01,
  controls: controlsOfRoom3,
  cylinders: [{ week: lastWeek - 47, label: 'G-6' }],
  events: [
    {
      week: lastWeek - 3,
      type: 'software',
      description: 'Built-in routine set up anew.',
    },
  ],
  strictTrend: {
    week: lastWeek - 22,
    reason: 'A slow rise or fall is to stop the analyzer.',
  },
  amended: { week: lastWeek - 12, temperatureC: 3 },
  deviates: new Map([
    [lastWeek - 4, { shared: -0.3, va: 0 }],
    [lastWeek - 3, { shared: -1.3, va: 0 }],
    [lastWeek - 2, { shared: -1.2, va: 0 }],
    [lastWeek - 1, { shared: -1, va: 0 }],
    [lastWeek, { shared: 0.4, va: 0 }],
  ]),
};

/** By the built-in routine alone for weeks, with a filter on the syringe, and not at all in the last week. */
const builtInOnly: AnalyzerPlan = {
  ...uneventful,
  description: { ...room2, label: 'Room 5 sample-bag', place: 'Room 5', serial: 'A-5' },
  fromWeek: lastWeek - 17,
  minuteOfVisit: 205,
  truths: [
    {
      route: 'patient-test',
      gain: 0.005,
      gainSd: 0.0112,
      dlcoOffset: 0.05,
      dlcoSd: 0.1,
      untilWeek: lastWeek - 6,
    },
    {
      route: 'built-in',
      gain: -0.004,
      gainSd: 0.008,
      dlcoOffset: -0.03,
      dlcoSd: 0.06,
      fromWeek: lastWeek - 5,
    },
  ],
  reports: { inspiredVolume: true, volumeCheck: false, humidity: true },
  attached: [filter],
  missedWeeks: [lastWeek],
  controls: controlsOfRoom5,
  cylinders: [{ week: lastWeek - 17, label: 'G-10' }],
};

/** Out of service on the last day. Its room has a thermometer in °F. */
const awaitingRepair: AnalyzerPlan = {
  ...uneventful,
  description: { ...room1, label: 'Room 6 rapid-gas', place: 'Room 6', serial: 'A-6' },
  fromWeek: lastWeek - 14,
  minuteOfVisit: 20,
  truths: [{ route: 'patient-test', gain: 0.008, gainSd: 0.0112, dlcoOffset: -0.04, dlcoSd: 0.09 }],
  readsFahrenheit: true,
  outOfService: {
    fromWeek: lastWeek,
    untilWeek: null,
    reason: 'Demand valve sticks.',
  },
  cylinders: [{ week: lastWeek - 14, label: 'G-11' }],
};

/**
 * A leak that has opened a little each week since a valve was taken out and put back. It passes the published limits with ease;
 * own limits notice it in the last week, and nobody has looked for the cause yet.
 */
const leaking: AnalyzerPlan = {
  ...uneventful,
  description: { ...room2, label: 'Room 7 sample-bag', place: 'Room 7', serial: 'A-7' },
  fromWeek: lastWeek - 27,
  minuteOfVisit: 165,
  truths: [{ route: 'patient-test', gain: 0.006, gainSd: 0.011, dlcoOffset: 0.04, dlcoSd: 0.09 }],
  reports: { inspiredVolume: true, volumeCheck: false, humidity: true },
  controls: controlsOfRoom7,
  fault: { fromWeek: lastWeek - 5, leakPerWeek: 0.005, dlcoOffset: 0, repair: null, comment: '' },
  cylinders: [{ week: lastWeek - 27, label: 'G-12' }],
  events: [
    {
      week: lastWeek - 5,
      type: 'part',
      description: 'Valve of the sample bag taken out, cleaned and put back.',
    },
  ],
  deviates: new Map([
    [lastWeek - 5, { va: 0.1 }],
    [lastWeek - 4, { va: -0.3 }],
    [lastWeek - 3, { va: 0.1 }],
    [lastWeek - 2, { va: -0.1 }],
    [lastWeek - 1, { va: -0.2 }],
    [lastWeek, { va: 0.2, dlco: 0.1 }],
  ]),
};

export const laterAnalyzers: readonly AnalyzerPlan[] = [bothRoutes, builtInOnly, awaitingRepair, leaking];
