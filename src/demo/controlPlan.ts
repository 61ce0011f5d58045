/** The persons who test the invented analyzers, by codes only, and what is planned of them and of the simulator. */
import type { SubjectDescription } from '../journal/entries.ts';
import { type ControlPlan, lastWeek, noControls, type Person } from './plan.ts';

export interface PersonPlan {
  description: SubjectDescription;
  /** In truth, on a sound analyzer; VA in litres BTPS. */
  dlcoMlMinMmHg: number;
  vaL: number;
  /** In g/dL. */
  haemoglobin: number;
  /** Measured in these weeks; otherwise as usual. */
  haemoglobinIn: ReadonlyMap<number, number>;
}

/** SD from test to test, as fractions. */
export const [dlcoCv, vaCv] = [0.042, 0.02];

/** Controls with persons begin in this week: up to then nobody was asked. */
export const firstControlWeek = lastWeek - 51;

/** B-1 had a cold; B-2 gave blood; B-3 left. Each with the week after whose tests it begins. */
export const pausedFromTo = [firstControlWeek + 19, firstControlWeek + 24] as const;
export const bloodGiven = lastWeek - 8;
export const countsAgain = bloodGiven + 6;
export const leftAfter = firstControlWeek + 34;

export const persons: readonly [PersonPlan, PersonPlan, PersonPlan] = [
  {
    description: { code: 'B-1', note: '' },
    dlcoMlMinMmHg: 25.4,
    vaL: 6.1,
    haemoglobin: 14.6,
    haemoglobinIn: new Map([
      [firstControlWeek + 2, 14.7],
      [firstControlWeek + 30, 14.5],
    ]),
  },
  {
    description: { code: 'B-2', note: '' },
    dlcoMlMinMmHg: 22.1,
    vaL: 5,
    haemoglobin: 13.4,
    haemoglobinIn: new Map([
      [firstControlWeek + 2, 13.4],
      [bloodGiven, 10],
      [bloodGiven + 2, 11.4],
      [bloodGiven + 4, 12.4],
      [countsAgain, 13.2],
    ]),
  },
  {
    description: { code: 'B-3', note: 'Tested in the first-floor room.' },
    dlcoMlMinMmHg: 23.6,
    vaL: 5.7,
    haemoglobin: 14,
    haemoglobinIn: new Map(),
  },
];

const by = (person: Person, fromWeek: number, untilWeek = lastWeek) => ({ person, fromWeek, untilWeek });
const [pausedAfter, backIn] = pausedFromTo;
/** Those of whom one is left out of the means take turns with one who is not. */
const inTurns = Array.from({ length: countsAgain - bloodGiven - 1 }, (_, index) => {
  const week = bloodGiven + 1 + index;
  return by(index % 2 === 0 ? 0 : 1, week, week);
});

export const controlsOfRoom1: ControlPlan = {
  ...noControls,
  tests: [by(0, firstControlWeek, pausedAfter), by(1, pausedAfter + 1, backIn - 1), by(0, backIn)],
  // On the morning on which the CO cell did not come back to zero.
  deviates: new Map([[40, { dlco: 2.2, va: 0.2 }]]),
  sessions: [25, 38, 51, 64, 76],
};

/** When its two levels lay apart, and the first week of the simulator. */
export const levelsApart = 58;

export const controlsOfRoom2: ControlPlan = {
  ...noControls,
  tests: [by(1, firstControlWeek, bloodGiven), ...inTurns, by(1, countsAgain)],
  deviates: new Map([
    [bloodGiven, { dlco: -0.6, va: 0.1 }],
    [bloodGiven + 2, { dlco: 0.3, va: -0.2 }],
    [bloodGiven + 4, { dlco: -0.2, va: 0.3 }],
  ]),
  sessions: Array.from({ length: 19 }, (_, index) => 2 + 4 * index),
  levelDeviates: new Map([[levelsApart, { low: 2.6, high: -2.6 }]]),
};

export const controlsOfRoom4: ControlPlan = {
  ...noControls,
  tests: [by(2, firstControlWeek, leftAfter), by(0, leftAfter + 1)],
  sessions: [28, 41, 54, 67],
};

export const controlsOfRoom3: ControlPlan = {
  ...noControls,
  tests: [by(0, lastWeek - 47, pausedAfter), by(2, pausedAfter + 1, backIn - 1), by(0, backIn)],
  // Without it seven VA would fall in a row by chance, which this analyzer's policy takes for a failure.
  deviates: new Map([[lastWeek - 16, { dlco: 0.1, va: 0.9 }]]),
  leakyMouthpiece: lastWeek - 6,
};

/** Its CO analyzer has become bent: what a syringe, whose gas is hardly thinned, cannot show. */
export const bentFrom = lastWeek - 1;

export const controlsOfRoom5: ControlPlan = {
  ...noControls,
  sessions: [lastWeek - 13, bentFrom],
  levelDeviates: new Map([[bentFrom, { low: -1, high: -4.6 }]]),
};

export const controlsOfRoom7: ControlPlan = {
  ...noControls,
  tests: [by(1, lastWeek - 27, bloodGiven), by(0, bloodGiven + 1, countsAgain - 1), by(1, countsAgain)],
  deviates: new Map([[bloodGiven, { dlco: -0.6, va: -0.1 }]]),
};
