/**
 * What the trade's words mean here, each in a sentence or two with where it comes from: one source of what a page explains in
 * place and of what the method page says. Numbers that a laboratory sets stand on the method page alone. Pure.
 */
import { firstTestCount, type RuleId, ruleIds } from '../core/index.ts';
import { ruleWords } from './parts/words.ts';

/** The parts of the method page, in its order. */
export const methodPlaces = [
  'conversion',
  'simulated-va',
  'dlco',
  'published-limits',
  'check-limits',
  'own-limits',
  'rules',
  'run-lengths',
  'failures',
  'look-back',
  'routes',
  'biological',
  'simulator',
  'checks',
  'completeness',
  'uncertainty',
  'cautions',
] as const;

export type MethodPlace = (typeof methodPlaces)[number];

export interface Term {
  /** As it begins a sentence. */
  name: string;
  /** One or two sentences. */
  says: string;
  source: string;
  /** Where the method page tells how it is made. */
  place: MethodPlace;
}

/** Where what is written here comes from, each written in one place. */
export const sources = {
  massBalance: 'mass balance of the syringe, derived',
  idealGas: 'ideal gas, derived',
  standard:
    'ERS/ATS standards for single-breath carbon monoxide uptake in the lung, Eur Respir J 2017;49:1600016',
  westgard: 'Westgard, Barry & Hunt, Clin Chem 1981;27:493',
  ewma: 'NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4; Roberts, Technometrics 1959;1:239',
  cusum: 'NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3; Page, Biometrika 1954;41:100',
  commonPractice: 'common practice, no source',
  ownChoice: 'this logbook’s own definition',
  hegewald: 'Hegewald et al., Respiration 2012 (abstract)',
} as const;

/** What a rule is there to find, and what it is fooled by. */
export const ruleDetects: Readonly<Record<RuleId, string>> = {
  '1-2s': 'A first hint of a large error; some good runs do the same.',
  '1-3s': 'One large error, or a large step of the mean.',
  '2-2s': 'A step of the mean, seen twice.',
  'R-4s': 'Scatter that has grown: neighbours far apart on either side of the mean.',
  '4-1s': 'A smaller step that stays.',
  '10x': 'A small step that stays long.',
  '7T': 'A drift, wherever it lies; a step that stands still makes none.',
  EWMA: 'A small step or a slow drift, long before a single run is far out.',
  CUSUM: 'A small step or a slow drift, and on which side it adds up.',
};

export const ruleSources: Readonly<Record<RuleId, string>> = {
  '1-2s': sources.westgard,
  '1-3s': sources.westgard,
  '2-2s': sources.westgard,
  'R-4s': `${sources.westgard}, there within one run of two controls`,
  '4-1s': sources.westgard,
  '10x': sources.westgard,
  '7T': sources.commonPractice,
  EWMA: sources.ewma,
  CUSUM: sources.cusum,
};

const otherTerms = {
  conversion: {
    name: 'Conversion',
    says: 'An analyzer reports VA as it would be in the lung, warm and moist (BTPS). The conversion takes it back to the gas in the syringe: the room’s temperature and pressure, dry.',
    source: sources.idealGas,
    place: 'conversion',
  },
  'simulated-va': {
    name: 'Simulated VA',
    says: 'The volume that the analyzer found in the syringe: its VA taken back to the room’s conditions, what it subtracted as dead space put back, the syringe’s own dead space taken off.',
    source: sources.massBalance,
    place: 'simulated-va',
  },
  'dead-space': {
    name: 'Dead space',
    says: 'Of the syringe: what the plunger cannot push out, with any hose or filter left on it. Of the analyzer: what it subtracts by itself; both belong into the reckoning.',
    source: sources.massBalance,
    place: 'simulated-va',
  },
  'dlco-of-a-syringe': {
    name: 'DLCO of a syringe',
    says: 'A syringe takes up no carbon monoxide, so whatever DLCO is reported says how far the CO and the tracer analyzer disagree.',
    source: 'single-breath equation of the ERS/ATS standards of 2005 and 2017, solved for the two gases',
    place: 'dlco',
  },
  'published-limit': {
    name: 'Published limit',
    says: 'A limit that a standard printed, the same for every analyzer. It always applies beside the own limits, and a run keeps the edition of its day.',
    source: sources.standard,
    place: 'published-limits',
  },
  'own-limits': {
    name: 'Own limits',
    says: 'Mean and SD of this series’ own accepted runs before the one that is judged. They find what a published limit is too wide for.',
    source: `mean ± 2 or 3 SD: ${sources.commonPractice}`,
    place: 'own-limits',
  },
  baseline: {
    name: 'Baseline',
    says: 'The first accepted runs of an epoch, whose mean and SD are then frozen. Until it is full it is provisional, and until there are a few runs nothing is judged by it.',
    source: sources.ownChoice,
    place: 'own-limits',
  },
  epoch: {
    name: 'Epoch',
    says: 'The time from one start of a baseline to the next. A supervisor starts a new one where something moves the mean for good, such as a new sensor or another conversion.',
    source: sources.ownChoice,
    place: 'own-limits',
  },
  accepted: {
    name: 'Accepted',
    says: 'A run that may enter a mean: it counts, lies inside the published limits, fired no action rule, and was made while no failure was open.',
    source: sources.ownChoice,
    place: 'own-limits',
  },
  z: {
    name: 'z',
    says: 'How many of its own SD a run lies from its own mean, both as they were known before it: +2 is two SD high.',
    source: 'standard score; any textbook of statistics',
    place: 'own-limits',
  },
  establishing: {
    name: 'Establishing',
    says: 'There are too few accepted runs yet to judge by own limits. Published limits judge from the first run on.',
    source: sources.ownChoice,
    place: 'own-limits',
  },
  'run-length': {
    name: 'Run length',
    says: 'How many runs pass on average until a rule fires: between false alarms while nothing is wrong, and until a shift is noticed once there is one.',
    source: 'Champ & Woodall, Technometrics 1987;29:393',
    place: 'run-lengths',
  },
  failure: {
    name: 'Failure',
    says: 'It opens by itself at a breached published limit or an action signal, and stays open until a supervisor closes it. While it is open no run enters a mean.',
    source: sources.ownChoice,
    place: 'failures',
  },
  proof: {
    name: 'Proof',
    says: 'Passing runs after the last failing one and the last action. A pattern counts against them only with runs made after that action.',
    source: sources.commonPractice,
    place: 'failures',
  },
  'look-back': {
    name: 'Look-back',
    says: 'The patients’ tests that may have been made with the fault are looked at again: from the last good run, or from where the runs say that it began, to when testing stopped.',
    source: `derived, ${sources.ownChoice}`,
    place: 'look-back',
  },
  drift: {
    name: 'Drift',
    says: 'A mean that walks slowly. Rolling limits follow it and never signal it, so their walk from the epoch’s first baseline is watched by itself.',
    source: `derived, ${sources.ownChoice}`,
    place: 'look-back',
  },
  route: {
    name: 'Route',
    says: 'The way through the analyzer: the patient test, or its built-in simulation routine. They can disagree, so each is a series of its own and no mean mixes them.',
    source: sources.commonPractice,
    place: 'routes',
  },
  'first-six': {
    name: `First ${firstTestCount} tests`,
    says: `The published limits of a person lie about the mean of the first ${firstTestCount} tests of an epoch that were not excluded. Until these are made nothing is judged.`,
    source: sources.hegewald,
    place: 'biological',
  },
  'coefficient-of-variation': {
    name: 'Coefficient of variation',
    says: 'SD as a share of the mean. It tells whether a person varies little enough to be a control.',
    source: sources.hegewald,
    place: 'biological',
  },
  'r-4s-across-levels': {
    name: 'R-4s across levels',
    says: 'In one session with a simulator one level lies beyond +2 SD and the other beyond −2 SD. Each may be inside its limits; together they say that the scatter has grown.',
    source: sources.westgard,
    place: 'simulator',
  },
  'full-scale': {
    name: '% of full scale',
    says: 'A deviation divided by the largest content that the gas analyzer measures, not by the content that was read: so every point has the same limit.',
    source: sources.commonPractice,
    place: 'checks',
  },
  'on-time': {
    name: 'On time',
    says: 'Made on or before the day on which it fell due. A reason that is written down explains a missed date and changes no count.',
    source: sources.ownChoice,
    place: 'completeness',
  },
  uncertainty: {
    name: 'Uncertainty',
    says: 'How well the distance of a simulated VA from its target can be known at all, from what the syringe, the room and the display are known to.',
    source: 'JCGM 100:2008 (GUM), 5.1.2 and 4.3.7',
    place: 'uncertainty',
  },
} as const satisfies Record<string, Term>;

export type TermId = keyof typeof otherTerms | `rule ${RuleId}`;

export const ruleTerm = (rule: RuleId): TermId => `rule ${rule}`;

const ofRules = Object.fromEntries(
  ruleIds.map((rule): [string, Term] => {
    const fires = `${ruleWords[rule].charAt(0).toUpperCase()}${ruleWords[rule].slice(1)}.`;
    const says = `${fires} ${ruleDetects[rule]}`;
    return [ruleTerm(rule), { name: rule, says, source: ruleSources[rule], place: 'rules' }];
  }),
);

const terms: Readonly<Record<string, Term>> = { ...otherTerms, ...ofRules };

export const termIds = Object.keys(terms).filter((id): id is TermId => id in terms);

/** @throws {RangeError} for a word that is not explained here. */
export function termOf(id: TermId): Term {
  const term = terms[id];
  if (term === undefined) throw new RangeError(`termOf: ${id} is no term`);
  return term;
}
