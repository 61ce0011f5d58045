/**
 * What it says when a person's test and the same day's simulation agree or disagree, as data. A person has warm moist gas, takes up
 * carbon monoxide and varies by some 5 %; a syringe has room air, takes up nothing and varies by some 1 %. So each sees
 * what the other cannot. Derived from the single-breath equation and the syringe's mass balance except where marked "common practice".
 */
import type { PointEvaluation } from './series.ts';
import type { Quantity } from './verdict.ts';

/** How a value came out: beyond a limit or with a signal, to one side or the other, or neither. */
export type Standing = 'usual' | 'high' | 'low' | 'not-judged';

export type TogetherId =
  | 'both-usual'
  | 'both-off-alike'
  | 'off-opposite-ways'
  | 'only-biological-off'
  | 'only-simulation-off'
  | 'not-judged';

/** The order in which they are listed. */
export const togetherIds: readonly TogetherId[] = [
  'both-usual',
  'both-off-alike',
  'off-opposite-ways',
  'only-biological-off',
  'only-simulation-off',
  'not-judged',
];

/** `says`: what it means; `next`: what to do about it, empty where nothing is. */
export const togetherText: Readonly<
  Record<Quantity, Readonly<Record<TogetherId, { says: string; next: string }>>>
> = {
  dlco: {
    'both-usual': { says: 'The person and the syringe agree that nothing has changed.', next: '' },
    'both-off-alike': {
      says: 'The person and the syringe are off the same way: the CO and the tracer analyzer disagree, and patients are off too.',
      next: 'Treat it as a fault of the analyzer: zero the gas analyzers, check the cylinder concentrations, and repeat the simulation.',
    },
    'off-opposite-ways': {
      says: 'The person and the syringe are off opposite ways: no single fault of the gas analyzers does that.',
      next: 'Repeat both before anything is adjusted.',
    },
    'only-biological-off': {
      says: 'The syringe finds nothing: it is something that a syringe does not exercise (warm moist gas, the patient circuit, the timing of the breath-hold), or the person. A volume measured wrongly moves a person’s DLCO as well, and leaves a syringe’s at zero.',
      // Testing a second person: common practice.
      next: 'Test the person again, and another one; compare the VA of both; ask after illness, smoking and exertion.',
    },
    'only-simulation-off': {
      says: 'The person is as usual: either the fault is smaller than what a person varies by, or it is the syringe, its handling or the room.',
      next: 'Repeat the simulation; a fault that the syringe shows again counts although the person does not show it.',
    },
    'not-judged': { says: 'One of the two was not judged, or not made on that day.', next: '' },
  },
  va: {
    'both-usual': { says: 'The person and the syringe agree that nothing has changed.', next: '' },
    'both-off-alike': {
      says: 'The person and the syringe are off the same way: volume is measured wrongly, or the sample is diluted or not purged, and patients are off too.',
      next: 'Treat it as a fault of the analyzer: read the whole stroke of the syringe as a vital capacity, and look for a leak.',
    },
    'off-opposite-ways': {
      says: 'The person and the syringe are off opposite ways: no single fault of volume or sampling does that.',
      next: 'Repeat both before anything is adjusted.',
    },
    'only-biological-off': {
      says: 'The syringe finds nothing: a leak at the mouthpiece, an incomplete breath, something that a syringe does not exercise (warm moist gas, the patient circuit), or the person.',
      next: 'Test the person again with a full breath and a tight mouthpiece, and another person.',
    },
    'only-simulation-off': {
      says: 'The person is as usual: either the fault is smaller than what a person varies by, or it is the syringe, its coupling, a dead space or the conditions entered.',
      next: 'Check coupling, dead space, temperature and pressure, and repeat the simulation.',
    },
    'not-judged': { says: 'One of the two was not judged, or not made on that day.', next: '' },
  },
};

/**
 * What a pair of standings means.
 * @example readTogether('high', 'usual') // 'only-biological-off'
 */
export function readTogether(biological: Standing, simulation: Standing): TogetherId {
  if (biological === 'not-judged' || simulation === 'not-judged') return 'not-judged';
  if (biological === simulation) return biological === 'usual' ? 'both-usual' : 'both-off-alike';
  if (biological === 'usual') return 'only-simulation-off';
  return simulation === 'usual' ? 'only-biological-off' : 'off-opposite-ways';
}

/**
 * How a value stands in its series: off when it breaches a published limit or any rule fires at it, a warning too; its side is that of its
 * distance from the limit's target, or else from the own mean. Without own limits only a breach tells, and what is
 * within is not judged.
 * @example a run whose VA has z = 2.4 and the signal 1-2s: 'high'
 */
export function standingOf(
  { z, signals }: Pick<PointEvaluation, 'z' | 'signals'>,
  breach: { isBreached: boolean; offTarget: number },
): Standing {
  if (breach.isBreached) return breach.offTarget < 0 ? 'low' : 'high';
  if (z === null) return 'not-judged';
  if (signals.length === 0) return 'usual';
  return z < 0 ? 'low' : 'high';
}
