/** What is decided of the invented equipment before chance has its say. Weeks are counted from 0. */
import type { Route } from '../core/index.ts';
import type { AnalyzerDescription, Attachment, EventType, SyringeDescription } from '../journal/entries.ts';
import type { Deviates } from './chance.ts';

/** Eighteen months. */
export const weeks = 78;
export const lastWeek = weeks - 1;

export type SyringePlan = Omit<SyringeDescription, 'calibrationDueOn' | 'leakCheckDueOn'> & {
  /** In days after the last run day. */
  calibrationDueInDays: number;
  leakCheckDueInDays: number;
};

/** How an analyzer truly is: see `TrueState` for the quantities. */
export interface RouteTruth {
  route: Route;
  gain: number;
  /** SD of the gain from run to run. */
  gainSd: number;
  dlcoOffset: number;
  dlcoSd: number;
  /** The weeks in which it is run; from the analyzer's first to the last where they are left out. */
  fromWeek?: number;
  untilWeek?: number;
  /** A setting that only this route uses, changed in a week: what it adds to the gain. */
  setting?: { fromWeek: number; gain: number };
}

export interface Fault {
  fromWeek: number;
  /** What is added to the truth in a week of the fault. */
  leakPerWeek: number;
  dlcoOffset: number;
  /** Null where nobody has found it by the last day. */
  repair: {
    type: EventType;
    /** As it is found, and what is then done, as one event. */
    cause: string;
    done: string;
    /** The same in short. */
    correctiveAction: string;
    part: string;
    /** What DLCO the analyzer makes up after the repair; a new part starts a new baseline. */
    newDlcoOffset: number | null;
  } | null;
  comment: string;
}

/** Fitted on the morning of a run day, in place of the one before. */
export interface CylinderPlan {
  week: number;
  label: string;
  /** From that day to the last on which it may be used; two years where it is left out. */
  validDays?: number;
}

/** A person's place among those of controlPlan.ts. */
export type Person = 0 | 1 | 2;

export interface ControlPlan {
  /** Who tests in which weeks, both in. */
  tests: readonly { person: Person; fromWeek: number; untilWeek: number }[];
  /** Deviates in place of those drawn, by week. */
  deviates: ReadonlyMap<number, { dlco: number; va: number }>;
  /** A test at which the mouthpiece leaked: struck out and made again. */
  leakyMouthpiece: number | null;
  /** In which weeks the simulator is brought. */
  sessions: readonly number[];
  /** In SD of a level's scatter, in place of those drawn. */
  levelDeviates: ReadonlyMap<number, { low: number; high: number }>;
}

export const noControls: ControlPlan = {
  tests: [],
  deviates: new Map(),
  leakyMouthpiece: null,
  sessions: [],
  levelDeviates: new Map(),
};

export interface AnalyzerPlan {
  description: Omit<AnalyzerDescription, 'syringeId'>;
  /** The week in which it is set up. */
  fromWeek: number;
  /** Minutes after 07:00 local time at which its weekly run begins. */
  minuteOfVisit: number;
  truths: readonly RouteTruth[];
  /** SD of what both routes of a morning share: the syringe, the room and the hands. */
  sharedGainSd: number;
  reports: { inspiredVolume: boolean; volumeCheck: boolean; humidity: boolean };
  /** The room's thermometer is in °F. */
  readsFahrenheit: boolean;
  /** What is left on the syringe for each of its runs. */
  attached: readonly Attachment[];
  fault: Fault | null;
  /** Those out of service among them. */
  missedWeeks: readonly number[];
  /** Those whose run was made two days after its day. */
  lateWeeks: readonly number[];
  /** Out of service after the runs of a week, to the morning of another's; to no day where that is null. */
  outOfService: { fromWeek: number; untilWeek: number | null; reason: string } | null;
  cylinders: readonly CylinderPlan[];
  controls: ControlPlan;
  /** In a week the supervisor accepts the baselines of its first route. */
  accepted: { week: number; reason: string } | null;
  events: readonly { week: number; type: EventType; description: string }[];
  /** A description that takes over at the start of a week, with a new baseline. */
  change: { week: number; description: Omit<AnalyzerDescription, 'syringeId'>; reason: string } | null;
  /** A week from whose run on seven points that rise or fall in a row fail a run in place of warning. */
  strictTrend: { week: number; reason: string } | null;
  /** A run typed wrongly by so many litres of VA, struck out and entered anew. */
  slip: { week: number; vaL: number } | null;
  /** A run whose temperature was typed wrongly by so many degrees, and amended. */
  amended: { week: number; temperatureC: number } | null;
  /** In the last week it is run once more, to look into a failure of another analyzer. */
  standsBeside: boolean;
  /** Deviates in place of those drawn, so that the demonstration ends in the states it is to show. */
  deviates: ReadonlyMap<number, Partial<VisitDeviates>>;
}

/** With what chance adds to both routes of one morning alike. */
export type VisitDeviates = Pick<Deviates, 'va' | 'dlco'> & { shared: number };

/** What most analyzers have nothing of. */
export const uneventful = {
  fromWeek: 0,
  sharedGainSd: 0,
  reports: { inspiredVolume: false, volumeCheck: true, humidity: false },
  readsFahrenheit: false,
  attached: [],
  fault: null,
  missedWeeks: [],
  lateWeeks: [],
  outOfService: null,
  controls: noControls,
  accepted: null,
  events: [],
  change: null,
  strictTrend: null,
  slip: null,
  amended: null,
  standsBeside: false,
  deviates: new Map(),
} satisfies Partial<AnalyzerPlan>;
