/**
 * The invented laboratory: who works there, what stands there, and what goes wrong when. Weeks are counted from 0.
 * All is made up; the equipment has labels and no maker.
 */
import type { Route } from '../core/index.ts';
import type {
  AnalyzerDescription,
  EventType,
  SyringeDescription,
  TechnologistDescription,
} from '../journal/entries.ts';
import type { Deviates } from './chance.ts';

/** Eighteen months. */
export const weeks = 78;
export const lastWeek = weeks - 1;

/** The supervisor comes first; the others take turns at the bench. */
export const people: readonly TechnologistDescription[] = [
  { name: 'Leila Novak', initials: 'LN', role: 'supervisor' },
  { name: 'Tomas Achebe', initials: 'TA', role: 'technologist' },
  { name: 'Mei Hartmann', initials: 'MH', role: 'technologist' },
];

type SyringePlan = Omit<SyringeDescription, 'calibrationDueOn' | 'leakCheckDueOn'> & {
  /** In days after the last run day. */
  calibrationDueInDays: number;
  leakCheckDueInDays: number;
};

/** The first is the one in use. */
export const syringes: readonly [SyringePlan, SyringePlan] = [
  {
    label: 'Syringe in use, 3 L',
    serial: 'S-1',
    volumeL: 3,
    deadSpaceL: 0.11,
    calibrationDueInDays: 96,
    leakCheckDueInDays: 33,
  },
  {
    label: 'Spare syringe, 3 L',
    serial: 'S-2',
    volumeL: 3,
    deadSpaceL: 0.1,
    calibrationDueInDays: 150,
    leakCheckDueInDays: -12,
  },
];

/** How an analyzer truly is: see `TrueState` for the quantities. */
export interface RouteTruth {
  route: Route;
  gain: number;
  /** SD of the gain from run to run. */
  gainSd: number;
  dlcoOffset: number;
  dlcoSd: number;
}

export interface Fault {
  fromWeek: number;
  /** What is added to the truth in a week of the fault. */
  leakPerWeek: number;
  dlcoOffset: number;
  repair: {
    type: EventType;
    description: string;
    correctiveAction: string;
    /** What DLCO the analyzer makes up after the repair; a new part starts a new baseline. */
    newDlcoOffset: number | null;
  };
  comment: string;
}

export interface AnalyzerPlan {
  description: Omit<AnalyzerDescription, 'syringeId'>;
  /** Minutes after 07:00 local time at which its weekly run begins. */
  minuteOfVisit: number;
  truths: readonly RouteTruth[];
  reports: { inspiredVolume: boolean; volumeCheck: boolean; humidity: boolean };
  fault: Fault | null;
  missedWeeks: readonly number[];
  events: readonly { week: number; type: EventType; description: string }[];
  /** A description that takes over at the start of a week, with a new baseline. */
  change: { week: number; description: Omit<AnalyzerDescription, 'syringeId'>; reason: string } | null;
  /** A run typed wrongly by so many litres of VA, struck out and entered anew. */
  slip: { week: number; vaL: number } | null;
  /** Deviates in place of those drawn, so that the demonstration ends in the states it is to show. */
  deviates: ReadonlyMap<number, Pick<Deviates, 'va' | 'dlco'>>;
}

const room1: AnalyzerPlan['description'] = {
  label: 'Room 1 rapid-gas',
  place: 'Room 1',
  serial: 'A-1',
  route: 'patient-test',
  conversion: { kind: 'computed', assumed: 'ATPD' },
  vaReportedAs: 'BTPS',
  analyzerDeadSpaceL: 0,
  volumeInsideL: 0,
  pressureUnit: 'mmHg',
  dlcoUnit: 'mL/min/mmHg',
};

const room2: AnalyzerPlan['description'] = {
  ...room1,
  label: 'Room 2 sample-bag',
  place: 'Room 2',
  serial: 'A-2',
  analyzerDeadSpaceL: 0.1,
  pressureUnit: 'kPa',
  dlcoUnit: 'mmol/min/kPa',
};

const room4: AnalyzerPlan['description'] = {
  ...room1,
  label: 'Room 4 rapid-gas',
  place: 'Room 4, first floor',
  serial: 'A-3',
  conversion: { kind: 'fixed', factor: 0.91 },
  volumeInsideL: 1,
  pressureUnit: 'hPa',
};

export const analyzers: readonly AnalyzerPlan[] = [
  {
    description: room1,
    minuteOfVisit: 45,
    truths: [{ route: 'patient-test', gain: 0.008, gainSd: 0.0112, dlcoOffset: -0.04, dlcoSd: 0.09 }],
    reports: { inspiredVolume: false, volumeCheck: true, humidity: false },
    fault: {
      fromWeek: 40,
      leakPerWeek: 0,
      dlcoOffset: 0.95,
      repair: {
        type: 'sensor',
        description: 'CO cell did not come back to zero. Cell replaced, linearity checked at three points.',
        correctiveAction: 'CO cell replaced and zeroed.',
        newDlcoOffset: 0.03,
      },
      comment: 'No patients until cleared.',
    },
    missedWeeks: [17, 33, 61],
    events: [
      { week: 12, type: 'cylinder', description: 'New cylinder of test gas.' },
      { week: 55, type: 'cylinder', description: 'New cylinder of test gas.' },
    ],
    change: null,
    slip: { week: 27, vaL: 0.6 },
    deviates: new Map([
      [lastWeek - 1, { va: 0.2, dlco: -0.3 }],
      [lastWeek, { va: 2.4, dlco: 0.1 }],
    ]),
  },
  {
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
        description:
          'Collar of the sample bag cracked: room air was drawn into the sample. Bag and collar replaced.',
        correctiveAction: 'Sample bag and collar replaced, line pressure-tested.',
        newDlcoOffset: null,
      },
      comment: 'Volume check is good. Looking for a leak.',
    },
    missedWeeks: [9, 36, 66],
    events: [
      { week: 21, type: 'cylinder', description: 'New cylinder of test gas.' },
      { week: 43, type: 'bag', description: 'Sample bag changed, yearly.' },
      { week: 64, type: 'cylinder', description: 'New cylinder of test gas.' },
    ],
    change: null,
    slip: null,
    deviates: new Map([
      [lastWeek - 1, { va: -0.5, dlco: 0.2 }],
      [lastWeek, { va: 0.4, dlco: -0.3 }],
    ]),
  },
  {
    description: room4,
    minuteOfVisit: 110,
    truths: [
      { route: 'patient-test', gain: -0.009, gainSd: 0.0115, dlcoOffset: 0.02, dlcoSd: 0.08 },
      { route: 'built-in', gain: -0.004, gainSd: 0.008, dlcoOffset: -0.03, dlcoSd: 0.06 },
    ],
    reports: { inspiredVolume: false, volumeCheck: true, humidity: false },
    fault: null,
    missedWeeks: [26, 58],
    events: [
      { week: 30, type: 'service', description: 'Yearly service. Nothing replaced.' },
      { week: 48, type: 'cylinder', description: 'New cylinder of test gas.' },
      { week: 71, type: 'software', description: 'Procedure changed: conversion from the room of the day.' },
    ],
    change: {
      week: 71,
      description: { ...room4, conversion: { kind: 'computed', assumed: 'ATPD' } },
      reason:
        'The fixed factor takes no notice of the day. Converted from temperature and pressure from now on.',
    },
    slip: null,
    deviates: new Map([[lastWeek, { va: -0.3, dlco: 0.2 }]]),
  },
];
