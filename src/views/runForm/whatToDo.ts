/**
 * What to do now that a run has been judged: a table that is read from above, whose first fitting row is the advice.
 * Pure and total. Local procedure decides; the screen says so beside it.
 */
import type { Finding, Quantity, Route, RuleId, Verdict } from '../../core/index.ts';
import { opensFailure } from '../failures.ts';
import { day, plain } from '../parts/figures.ts';

/** All that the advice rests on. */
export interface Situation {
  verdict: Pick<Verdict, 'word' | 'findings'>;
  /** Own limits of VA and DLCO: in force, too few runs for them yet, or enough runs that do not differ at all. */
  ownLimits: 'judge' | 'too-few-runs' | 'no-spread';
  /** Quantities that were in an open failure on this analyzer and route before the run was made. */
  failedBefore: readonly Quantity[];
  /** It fails by nothing but patterns that reach back before what was done about the failure. Under Review it is a proof of that. */
  failsByThePast: boolean;
  /** Where on the analyzer a failure is open that the run did not open itself. */
  openFailure: 'this-route' | 'other-route' | null;
  /** Whatever this run would open, or opened, has been closed or put aside by a new baseline since. */
  isOver: boolean;
  /** The analyzer's other route, where it has one that was not run since the failure opened. */
  otherRoute: Route | null;
  inService: boolean;
  isImported: boolean;
  /** The run's own time, where that is over a week past or still to come, so that it says nothing of today: ISO 8601. */
  ofAnotherWeek: string | null;
  /** When the newest run of the analyzer was made, where that is not this one: ISO 8601. */
  newerRunAt: string | null;
}

/** What the hands do next; the sentence says it. */
export type Action = 'patients' | 'run-again' | 'other-route' | 'stop' | 'newest-run';

export interface Advice {
  id: string;
  action: Action;
  sentence: string;
}

type Row = { when: (situation: Situation) => boolean } & Omit<Advice, 'sentence'> & {
    sentence: string | ((situation: Situation) => string);
  };

const has = (kind: Finding['kind']) => (situation: Situation) => findingOf(situation, kind) !== undefined;
const isWord = (word: Verdict['word'], { verdict }: Situation) => verdict.word === word;

function findingOf<K extends Finding['kind']>({ verdict }: Situation, kind: K) {
  return verdict.findings.find((finding): finding is Extract<Finding, { kind: K }> => finding.kind === kind);
}

const failing = ({ verdict }: Situation) => verdict.findings.filter(opensFailure);

const failsAgain = (situation: Situation) =>
  failing(situation).some(({ quantity }) => situation.failedBefore.includes(quantity));

/** Rules that one run alone can break, by a slip as well as by a fault. A repeat tells the two apart. */
const ofOneRun: readonly RuleId[] = ['1-2s', '1-3s', 'R-4s'];
const restsOnOneRun = (situation: Situation) =>
  failing(situation).some((finding) => finding.kind === 'published-limit' || ofOneRun.includes(finding.rule));

const warns = (isAmong: (rule: RuleId) => boolean) => (situation: Situation) =>
  situation.verdict.findings.some((finding) => finding.kind === 'signal' && isAmong(finding.rule));

const inWords: Record<Route, string> = { 'patient-test': 'patient test', 'built-in': 'built-in routine' };

const rows: readonly Row[] = [
  {
    id: 'failure-over',
    when: (situation) => isWord('fail', situation) && situation.isOver,
    action: 'newest-run',
    sentence: ({ newerRunAt }) =>
      newerRunAt === null
        ? 'This failure has ended. Run again before the next patient.'
        : `This failure has ended. Go by the newest run, of ${day(newerRunAt)}.`,
  },
  {
    id: 'fails-by-the-past',
    when: (situation) => isWord('fail', situation) && situation.failsByThePast,
    action: 'stop',
    sentence: 'No patients yet: only runs from before the repair fail it. Tell the supervisor.',
  },
  {
    id: 'fails-again-other-route',
    when: (situation) => isWord('fail', situation) && failsAgain(situation) && situation.otherRoute !== null,
    action: 'other-route',
    sentence: ({ otherRoute }) =>
      `Stop: no patients. Tell the supervisor, and run the ${inWords[otherRoute ?? 'built-in']}.`,
  },
  {
    id: 'fails-again',
    when: (situation) => isWord('fail', situation) && failsAgain(situation),
    action: 'stop',
    sentence: 'Stop: no patients. It failed again: tell the supervisor.',
  },
  {
    id: 'fails-by-a-pattern',
    when: (situation) => isWord('fail', situation) && !restsOnOneRun(situation),
    action: 'stop',
    sentence: 'Stop: no patients. Several runs agree: tell the supervisor.',
  },
  {
    id: 'fails-with-volume-check-off',
    when: (situation) => isWord('fail', situation) && has('volume-check')(situation),
    action: 'stop',
    sentence: 'Stop: no patients. Check coupling and volume, then repeat once.',
  },
  {
    id: 'fails-with-breath-hold-off',
    when: (situation) => isWord('fail', situation) && has('breath-hold')(situation),
    action: 'stop',
    sentence: (situation) =>
      `Stop: no patients. Repeat once with a breath-hold of ${plain(findingOf(situation, 'breath-hold')?.targetS ?? 10)} s.`,
  },
  {
    id: 'fails',
    when: (situation) => isWord('fail', situation),
    action: 'stop',
    sentence: 'Stop: no patients. Repeat once to rule out a slip.',
  },
  {
    id: 'open-and-not-clear',
    when: (situation) => situation.openFailure !== null && isWord('warn', situation),
    action: 'stop',
    sentence: 'No patients: a failure is open, and this run is not clear. Tell the supervisor.',
  },
  {
    id: 'open-on-this-route',
    when: ({ openFailure }) => openFailure === 'this-route',
    action: 'stop',
    sentence: 'No patients yet: this run is good, but only a supervisor closes the failure.',
  },
  {
    id: 'open-on-the-other-route',
    when: ({ openFailure }) => openFailure === 'other-route',
    action: 'stop',
    sentence: 'No patients yet: this route is good, but the other one failed. Tell the supervisor.',
  },
  {
    id: 'out-of-service-and-not-clear',
    when: (situation) => !situation.inService && isWord('warn', situation),
    action: 'stop',
    sentence: 'No patients: out of service, and this run is not clear. Run again.',
  },
  {
    id: 'out-of-service',
    when: ({ inService }) => !inService,
    action: 'stop',
    sentence: 'No patients yet: out of service until a supervisor puts it back.',
  },
  {
    id: 'not-the-newest',
    when: ({ newerRunAt }) => newerRunAt !== null,
    action: 'newest-run',
    sentence: ({ newerRunAt }) => `Go by the newest run of this analyzer, of ${day(newerRunAt ?? 0)}.`,
  },
  {
    id: 'imported',
    when: ({ isImported }) => isImported,
    action: 'run-again',
    sentence: 'Run again here: this run was imported, and nobody judged it on its day.',
  },
  {
    id: 'of-another-week',
    when: ({ ofAnotherWeek }) => ofAnotherWeek !== null,
    action: 'run-again',
    sentence: ({ ofAnotherWeek }) =>
      `Run again before the next patient: this run is of ${day(ofAnotherWeek ?? 0)}.`,
  },
  {
    id: 'volume-check-off',
    when: has('volume-check'),
    action: 'run-again',
    sentence: 'No patients yet: check coupling and volume, then run again.',
  },
  {
    id: 'breath-hold-off',
    when: has('breath-hold'),
    action: 'run-again',
    sentence: 'Run again: with this breath-hold it was no fair test.',
  },
  {
    id: 'beyond-3-sd',
    when: warns((rule) => rule === '1-3s'),
    action: 'run-again',
    sentence: 'No patients yet: run again now.',
  },
  {
    id: 'trend',
    when: warns((rule) => !ofOneRun.includes(rule)),
    action: 'patients',
    sentence: 'Patients may be tested. Tell the supervisor: the analyzer is moving.',
  },
  {
    id: 'beyond-2-sd',
    when: (situation) => isWord('warn', situation),
    action: 'patients',
    sentence: 'Patients may be tested. Run once more today: good runs read like this now and then.',
  },
  {
    id: 'no-spread',
    when: ({ ownLimits }) => ownLimits === 'no-spread',
    action: 'patients',
    sentence: 'Patients may be tested. Tell the supervisor: runs that never differ cannot judge.',
  },
  {
    id: 'establishing',
    when: ({ ownLimits }) => ownLimits === 'too-few-runs',
    action: 'patients',
    sentence: 'Patients may be tested. Run weekly until your own limits can judge.',
  },
];

const pass: Advice = { id: 'pass', action: 'patients', sentence: 'Patients may be tested.' };

export function whatToDo(situation: Situation): Advice {
  const row = rows.find(({ when }) => when(situation));
  if (row === undefined) return pass;
  const { id, action, sentence } = row;
  return { id, action, sentence: typeof sentence === 'string' ? sentence : sentence(situation) };
}
