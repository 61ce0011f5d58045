/**
 * What the logbook holds about a run that is looked into, as the core's observations and as sentences with the runs that
 * they rest on. Pure.
 */
import {
  type Assessments,
  type Movement,
  type Observations,
  type Quantity,
  volumeCalibrationCheck,
} from '../core/index.ts';
import type { FindingCheck } from '../journal/entries.ts';
import type { Logbook, LoggedControl, LoggedRun } from '../journal/logbook.ts';
import { judgedAsWritten, standingOfControl } from './controlAsWritten.ts';
import { happeningsOf, onsetOf } from './investigationOnset.ts';
import {
  isOfSameSeries,
  isSameDay,
  movementNoticed,
  movementOf,
  quantityOff,
  splitAcross,
} from './investigationShift.ts';
import { type Inquiry, isVoided } from './investigations.ts';
import { asSentence } from './parts/asSentence.ts';
import { counted, day, limitPercent, percent, plain } from './parts/figures.ts';
import { quantityWords, routeWords } from './parts/words.ts';

/** One thing that is known, with the runs that it rests on. */
export interface Fact {
  key: string;
  sentence: string;
  runs: readonly LoggedRun[];
  /** The control that it tells of. */
  control?: LoggedControl;
}

export interface Known {
  seen: Observations;
  facts: readonly Fact[];
  /** What the run is off in; null where it is off in nothing. */
  off: Quantity | null;
}

interface Sources {
  inquiry: Inquiry;
  about: LoggedRun;
  logbook: Logbook;
  assessments: Assessments;
  /** What is followed. */
  quantity: Quantity;
  /** The first work on the analyzer after the run, in ms: what is found later says nothing of the fault. */
  until: number;
}

/** What one source adds to what is known. */
interface Part {
  seen: Observations;
  facts: readonly Fact[];
}

const nothing: Part = { seen: {}, facts: [] };

export function whatIsKnown(inquiry: Inquiry, logbook: Logbook, assessments: Assessments): Known {
  const { about } = inquiry;
  const assessment = assessments.get(about.id);
  if (assessment === undefined) return { seen: {}, facts: [], off: null };
  const off = quantityOff(assessment);
  const worked = happeningsOf(about.body.analyzerId, logbook).find(({ at }) => at > about.simulation.at);
  const until = worked?.at ?? Number.POSITIVE_INFINITY;
  const sources: Sources = { inquiry, about, logbook, assessments, quantity: off ?? 'va', until };
  const { numbers, va } = assessment;
  const parts = [
    volumeCheck(sources),
    biologicalControl(sources),
    simulator(sources),
    ...(off === null
      ? []
      : [
          otherRoute(sources),
          acrossAnalyzers(sources),
          sameConditions(sources),
          eventsAtOnset(sources),
          droppedSyringe(sources),
          after(sources, 'repeat'),
          after(sources, 'read-conditions'),
          after(sources, 'other-gas'),
        ]),
  ];
  const own: Observations = {
    va: movementNoticed(assessment, 'va'),
    dlco: movementNoticed(assessment, 'dlco'),
    vaFraction: numbers.simulatedVaL / (va.mean ?? numbers.targetVaL) - 1,
  };
  return {
    seen: Object.assign(own, ...parts.map(({ seen }) => seen)),
    facts: parts.flatMap(({ facts }) => facts),
    off,
  };
}

function runsFor({ inquiry }: Sources, check: FindingCheck): LoggedRun[] {
  return inquiry.steps.flatMap((step) =>
    step.kind === 'run' && step.check === check && !isVoided(step) ? [step.run] : [],
  );
}

/** Checks of one kind on the analyzer, for this investigation or on the day of the run, before it was worked on; oldest first. */
function notedFor({ inquiry, about, logbook, until }: Sources, kind: 'volume-check' | 'biological-control') {
  const linked = new Set(
    inquiry.steps.flatMap((step) => (step.kind === 'check' && step.check === kind ? [step.noted] : [])),
  );
  return logbook.checks
    .filter((noted) => {
      const { check, analyzerId, doneAt } = noted.entry.body;
      const at = Date.parse(doneAt);
      const isOfDay = analyzerId === about.body.analyzerId && isSameDay(about, at);
      return noted.voided === null && check === kind && at < until && (linked.has(noted) || isOfDay);
    })
    .sort((one, other) => Date.parse(one.entry.body.doneAt) - Date.parse(other.entry.body.doneAt));
}

/** The newest: a check that was noted, or what was read with a run. */
function volumeCheck(sources: Sources): Part {
  const { about, inquiry, assessments, until } = sources;
  const noted = notedFor(sources, 'volume-check').map(({ entry: { body } }) => ({
    at: Date.parse(body.doneAt),
    limit: body.volume?.limitFraction ?? about.body.limits.volumeCheckFraction,
    // The furthest, as on the check's own page: +3 and −3 % are no good volume.
    fraction: body.volume ? volumeCalibrationCheck(body.volume).worstFraction : null,
    outcome: body.outcome,
    runs: [],
  }));
  const steps = inquiry.steps.flatMap((step) =>
    step.kind === 'run' && !isVoided(step) && isOfSameSeries(step.run, about) ? [step.run] : [],
  );
  const read = [about, ...steps].flatMap((run) => {
    const fraction = assessments.get(run.id)?.numbers.volumeCheckFraction ?? null;
    const { at } = run.simulation;
    if (fraction === null || at >= until) return [];
    const limit = run.body.limits.volumeCheckFraction;
    return [{ at, limit, fraction, outcome: 'noted' as const, runs: run === about ? [] : [run] }];
  });
  const newest = [...noted, ...read].sort((one, other) => one.at - other.at).at(-1);
  if (newest === undefined) return nothing;
  const { at, limit, fraction, outcome, runs } = newest;
  const fact = (what: string): Fact => ({
    key: 'volume-check',
    sentence: `Volume check of ${day(at)}: ${what}.`,
    runs,
  });
  if (fraction === null) {
    // Without figures: passed is as good as read within its limit; a failed one does not say which way.
    const seen = outcome === 'passed' ? { volumeCheckFraction: 0, volumeCheckLimit: limit } : {};
    return { seen, facts: [fact(`${outcome}, without figures`)] };
  }
  const size = percent(Math.abs(fraction));
  const isOnTheMark = Number(Math.abs(fraction * 100).toFixed(1)) === 0;
  const distance = isOnTheMark ? 'as expected' : `${size} % ${fraction < 0 ? 'low' : 'high'}`;
  return {
    seen: { volumeCheckFraction: fraction, volumeCheckLimit: limit },
    facts: [fact(`${distance}, limit ±${limitPercent(limit)} %`)],
  };
}

/** Controls of one kind on the analyzer, for this investigation or on the day of the run, before it was worked on; oldest first. */
function controlsFor(
  { inquiry, about, logbook, until }: Sources,
  kind: LoggedControl['control']['kind'],
): readonly LoggedControl[] {
  const linked = new Set(inquiry.steps.flatMap((step) => (step.kind === 'control' ? [step.control] : [])));
  return logbook.controls.filter(
    (each) =>
      each.control.kind === kind &&
      each.voided === null &&
      each.setAside === null &&
      each.at < until &&
      (linked.has(each) || (each.control.analyzerId === about.body.analyzerId && isSameDay(about, each.at))),
  );
}

/** The newest: a person's test, or, in a logbook that is older than these, a check that was noted. */
function biologicalControl(sources: Sources): Part {
  const tested = controlsFor(sources, 'biological').at(-1);
  const noted = notedFor(sources, 'biological-control').at(-1)?.entry.body;
  if (tested !== undefined && (noted === undefined || Date.parse(noted.doneAt) <= tested.at)) {
    const standing = standingOfControl(tested);
    const fact = factOfControl(tested, `Biological control${codeOf(tested, sources.logbook)}`, standing);
    return { seen: standing === undefined ? {} : { biologicalControl: standing }, facts: [fact] };
  }
  if (noted === undefined) return nothing;
  const sentence = `Biological control of ${day(noted.doneAt)}: ${noted.outcome}.`;
  const facts = [{ key: 'biological-control', sentence, runs: [] }];
  if (noted.outcome === 'noted') return { seen: {}, facts };
  return { seen: { biologicalControl: noted.outcome === 'passed' ? 'good' : 'off' }, facts };
}

/** Said, and left to the reader to weigh: it is given the gas and not the breath, so it clears less than a person does. */
function simulator(sources: Sources): Part {
  const session = controlsFor(sources, 'simulator').at(-1);
  if (session === undefined) return nothing;
  return { seen: {}, facts: [factOfControl(session, 'Precision-gas simulator', standingOfControl(session))] };
}

function factOfControl(control: LoggedControl, name: string, standing: 'good' | 'off' | undefined): Fact {
  const rules = judgedAsWritten(control).series.flatMap(({ signals }) => signals.map(({ rule }) => rule));
  const by = standing === 'off' && rules.length > 0 ? ` (${[...new Set(rules)].join(', ')})` : '';
  const what = standing === undefined ? 'made, but nothing can judge it yet' : `${standing}${by}`;
  return { key: control.id, sentence: `${name}, ${day(control.at)}: ${what}.`, runs: [], control };
}

const codeOf = ({ control }: LoggedControl, { subjects }: Pick<Logbook, 'subjects'>) => {
  const code = control.kind === 'biological' ? subjects.get(control.subjectId)?.description.code : undefined;
  return code === undefined ? '' : ` ${code}`;
};

function otherRoute(sources: Sources): Part {
  const { about, logbook, assessments, quantity, until } = sources;
  const { analyzerId, method, route, syringeId } = about.body;
  const linked = new Set(runsFor(sources, 'other-route'));
  const run = logbook.runs.findLast(
    (each) =>
      each.voided === null &&
      each.body.analyzerId === analyzerId &&
      each.body.method === method &&
      each.body.route !== route &&
      each.body.syringeId === syringeId &&
      each.simulation.at < until &&
      (linked.has(each) || isSameDay(about, each.simulation.at)),
  );
  if (run === undefined) return nothing;
  const assessment = assessments.get(run.id);
  if (assessment === undefined) return nothing;
  const movement = movementOf(assessment, quantity);
  const sentence = `${routeWords[run.body.route]}: ${quantityWords[quantity]} is ${movement}.`;
  return { seen: { otherRoute: movement }, facts: [{ key: 'other-route', sentence, runs: [run] }] };
}

function acrossAnalyzers(sources: Sources): Part {
  const { about, logbook, assessments, quantity, until } = sources;
  const linked = new Set(runsFor(sources, 'other-analyzer'));
  const newest = new Map<string, LoggedRun>();
  for (const run of logbook.runs) {
    const { analyzerId, syringeId, method } = run.body;
    const isComparable =
      run.voided === null &&
      analyzerId !== about.body.analyzerId &&
      method === about.body.method &&
      syringeId === about.body.syringeId;
    const isOfThen = (linked.has(run) && run.simulation.at < until) || isSameDay(about, run.simulation.at);
    if (isComparable && isOfThen) newest.set(analyzerId, run);
  }
  const { split, others } = splitAcross(about, [...newest.values()], {
    runs: logbook.runs,
    assessments,
    quantity,
  });
  const facts = others.map(({ run, movement }): Fact => {
    const label = logbook.analyzers.get(run.body.analyzerId)?.description.label ?? 'Another analyzer';
    return {
      key: `across ${run.id}`,
      sentence: `${label}, same syringe: ${quantityWords[quantity]} is ${movement}.`,
      runs: [run],
    };
  });
  return { seen: { acrossAnalyzers: split }, facts };
}

const weekMs = 7 * 86_400_000;

/** Two weeks alike can be weather; the sentence stands from the third on, the core's suspicion begins later. */
const weeksWorthSaying = 3;

function sameConditions({ about, logbook: { runs } }: Sources): Part {
  const weeks = new Set<number>();
  for (let index = runs.indexOf(about); index >= 0; index -= 1) {
    const run = runs[index];
    if (run === undefined || run.voided !== null || run.body.analyzerId !== about.body.analyzerId) continue;
    const { temperatureC, barometricMmHg } = run.body.ambient;
    const { ambient } = about.body;
    if (temperatureC !== ambient.temperatureC || barometricMmHg !== ambient.barometricMmHg) break;
    weeks.add(Math.floor((about.simulation.at - run.simulation.at) / weekMs));
  }
  const { ambient, pressureAsTyped } = about.body;
  const sentence = `${plain(ambient.temperatureC)} °C and ${plain(pressureAsTyped.value)} ${pressureAsTyped.unit} were typed in ${counted(weeks.size, 'week')} on end.`;
  return {
    seen: { weeksOfSameConditions: weeks.size },
    facts: weeks.size < weeksWorthSaying ? [] : [{ key: 'conditions', sentence, runs: [] }],
  };
}

function eventsAtOnset({ about, logbook, assessments, quantity }: Sources): Part {
  const onset = onsetOf(about, quantity, { runs: logbook.runs, assessments });
  if (onset === undefined) return nothing;
  const events = happeningsOf(about.body.analyzerId, logbook);
  const near = events.filter(({ at }) => at >= onset.after && at <= onset.before);
  const [from, to] = [day(onset.after), day(onset.before)];
  const span = from === to ? `on ${to}` : `between ${from} and ${to}`;
  const facts = near.map(({ id, at, sentence }): Fact => {
    return {
      key: id,
      sentence: `${day(at)}, when it may have begun: ${asSentence(sentence)}`,
      runs: [],
    };
  });
  const none: Fact = {
    key: 'no-event',
    sentence: `Nothing was logged on the analyzer ${span}, when it may have begun.`,
    runs: [],
  };
  return { seen: { onset, events }, facts: facts.length > 0 ? facts : [none] };
}

const daysBefore = 30;

/** The syringe's, not the analyzer's: said, and left to the reader to weigh. */
function droppedSyringe({ about, logbook }: Sources): Part {
  const { syringeId } = about.body;
  const dropped = logbook.drops.findLast(({ body }) => {
    const before = about.simulation.at - Date.parse(body.droppedAt);
    return body.syringeId === syringeId && before >= 0 && before <= daysBefore * 86_400_000;
  });
  if (dropped === undefined) return nothing;
  const sentence = `The syringe was dropped on ${day(dropped.body.droppedAt)}: check it for leaks and its stop.`;
  return { seen: {}, facts: [{ key: 'dropped', sentence, runs: [] }] };
}

const afterWords = {
  repeat: 'Repeated',
  'read-conditions': 'With the room read anew',
  'other-gas': 'After the gas was checked',
} as const;

/** The newest run made as that check: what it says of a repair that the check itself is. */
function after(sources: Sources, check: keyof typeof afterWords): Part {
  const { about, assessments, quantity } = sources;
  const run = runsFor(sources, check).findLast((each) => isOfSameSeries(each, about));
  if (run === undefined) return nothing;
  const assessment = assessments.get(run.id);
  if (assessment === undefined) return nothing;
  const movement = movementOf(assessment, quantity);
  return {
    seen: seenAfter(check, movement),
    facts: [
      {
        key: check,
        sentence: `${afterWords[check]}: ${quantityWords[quantity]} is ${movement}.${check === 'repeat' ? repeatWords(movement) : ''}`,
        runs: [run],
      },
    ],
  };
}

const repeatWords = (movement: Movement) =>
  movement === 'good' ? ' A slip, or a fault that comes and goes.' : ' Not a slip.';

function seenAfter(check: keyof typeof afterWords, movement: Movement): Observations {
  if (check === 'read-conditions') return { afterReadingConditions: movement };
  return check === 'other-gas' ? { afterGasCheck: movement } : {};
}
