/**
 * The invented laboratory: who works there, what stands there, and what goes wrong when. All is made up; the equipment has
 * labels and no maker.
 */
import type { LaboratoryDescription, TechnologistDescription } from '../journal/entries.ts';
import { controlsOfRoom1, controlsOfRoom2, controlsOfRoom4 } from './controlPlan.ts';
import { filter, room1, room2, room4 } from './equipment.ts';
import { laterAnalyzers } from './laterAnalyzers.ts';
import { type AnalyzerPlan, lastWeek, type SyringePlan, uneventful } from './plan.ts';

export const laboratory: LaboratoryDescription = {
  name: 'Invented lung-function laboratory',
  decimalMark: 'point',
  dateForm: 'd-mon-yyyy',
  clock: '24',
  temperatureUnit: '°C',
  pressureUnit: 'mmHg',
  dlcoUnit: 'mL/min/mmHg',
};

/** The supervisor comes first; the others take turns at the bench. */
export const people: readonly TechnologistDescription[] = [
  { name: 'Leila Novak', initials: 'LN', role: 'supervisor' },
  { name: 'Tomas Achebe', initials: 'TA', role: 'technologist' },
  { name: 'Mei Hartmann', initials: 'MH', role: 'technologist' },
];

/** The first is the one in use. */
export const syringes: readonly [SyringePlan, SyringePlan] = [
  {
    label: 'Syringe in use, 3 L',
    serial: 'S-1',
    volumeL: 3,
    deadSpaceL: 0.11,
    certifiedVolumeL: 3.003,
    attachments: [filter, { name: 'Hose', volumeL: 0.085 }],
    calibrationDueInDays: 96,
    leakCheckDueInDays: 33,
  },
  {
    label: 'Spare syringe, 3 L',
    serial: 'S-2',
    volumeL: 3,
    deadSpaceL: 0.1,
    certifiedVolumeL: 2.998,
    calibrationDueInDays: 150,
    leakCheckDueInDays: -12,
  },
];

export const analyzers: readonly AnalyzerPlan[] = [
  {
    ...uneventful,
    description: room1,
    minuteOfVisit: 45,
    truths: [{ route: 'patient-test', gain: 0.008, gainSd: 0.0112, dlcoOffset: -0.04, dlcoSd: 0.09 }],
    fault: {
      fromWeek: 40,
      leakPerWeek: 0,
      dlcoOffset: 0.95,
      repair: {
        type: 'sensor',
        cause: 'CO cell did not come back to zero.',
        done: 'Cell replaced, linearity checked at three points.',
        correctiveAction: 'CO cell replaced and zeroed.',
        part: 'CO cell',
        newDlcoOffset: 0.03,
      },
      comment: 'No patients until cleared.',
    },
    missedWeeks: [17, 33, 61, 62],
    outOfService: {
      fromWeek: 60,
      untilWeek: 63,
      reason: 'Room 1 is rebuilt.',
    },
    cylinders: [
      { week: 0, label: 'G-1' },
      { week: 12, label: 'G-4' },
      { week: 55, label: 'G-8' },
    ],
    controls: controlsOfRoom1,
    slip: { week: 27, vaL: 0.6 },
    deviates: new Map([
      [lastWeek - 1, { va: 0.2, dlco: -0.3 }],
      [lastWeek, { va: 2.4, dlco: 0.1 }],
    ]),
  },
  {
    ...uneventful,
    description: room2,
    minuteOfVisit: 80,
    truths: [{ route: 'patient-test', gain: 0.005, gainSd: 0.0112, dlcoOffset: 0.05, dlcoSd: 0.1 }],
    reports: { inspiredVolume: true, volumeCheck: false, humidity: true },
    fault: {
      fromWeek: 43,
      leakPerWeek: 0.0022,
      dlcoOffset: 0,
      repair: {
        type: 'bag',
        cause: 'Collar of the sample bag cracked: room air was drawn into the sample.',
        done: 'Bag and collar replaced.',
        correctiveAction: 'Sample bag and collar replaced, line pressure-tested.',
        part: 'Sample bag with collar',
        newDlcoOffset: null,
      },
      comment: 'Volume check is good. Looking for a leak.',
    },
    missedWeeks: [9, 36, 66],
    cylinders: [
      { week: 0, label: 'G-2', validDays: 540 },
      { week: 21, label: 'G-5', validDays: 540 },
      // Runs out twelve days after the last run day.
      { week: 64, label: 'G-9', validDays: 103 },
    ],
    controls: controlsOfRoom2,
    accepted: { week: 24, reason: 'Looked through run by run: two technologists, nothing of note.' },
    events: [{ week: 43, type: 'bag', description: 'Sample bag changed, yearly.' }],
    deviates: new Map([
      [lastWeek - 1, { va: -0.5, dlco: 0.2 }],
      [lastWeek, { va: 0.4, dlco: -0.3 }],
    ]),
  },
  {
    ...uneventful,
    description: room4,
    minuteOfVisit: 110,
    truths: [
      { route: 'patient-test', gain: -0.009, gainSd: 0.0115, dlcoOffset: 0.02, dlcoSd: 0.08 },
      { route: 'built-in', gain: -0.004, gainSd: 0.008, dlcoOffset: -0.03, dlcoSd: 0.06 },
    ],
    missedWeeks: [26, 58],
    lateWeeks: [46],
    cylinders: [
      { week: 0, label: 'G-3' },
      { week: 48, label: 'G-7' },
    ],
    controls: controlsOfRoom4,
    standsBeside: true,
    events: [
      { week: 30, type: 'service', description: 'Yearly service. Nothing replaced.' },
      { week: 71, type: 'software', description: 'Procedure changed: conversion from the room of the day.' },
    ],
    change: {
      week: 71,
      description: { ...room4, conversion: { kind: 'computed', assumed: 'ATPD' } },
      reason:
        'The fixed factor takes no notice of the day. Converted from temperature and pressure from now on.',
    },
    deviates: new Map([[lastWeek, { va: -0.3, dlco: 0.2 }]]),
  },
  ...laterAnalyzers,
];
