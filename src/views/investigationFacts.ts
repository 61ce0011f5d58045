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
import type { Logbook, LoggedRun } from '../journal/logbook.ts';
import { biologicalControl, simulator } from './investigationControls.ts';
import { happeningsOf, onsetOf } from './investigationOnset.ts';
import {
  isOfSameSeries,
  isSameDay,
  movementNoticed,
  movementOf,
  quantityOff,
  splitAcross,
} from './investigationShift.ts';
import { type Fact, notedFor, nothing, type Part, type Sources } from './investigationSources.ts';
import { type Inquiry, isVoided } from './investigations.ts';
import { asSentence } from './parts/asSentence.ts';
import { counted, day, limitPercent, percent, plain } from './parts/figures.ts';
import { quantityWords, routeWords } from './parts/words.ts';

export interface Known {
  seen: Observations;
  facts: readonly Fact[];
  /** What the run is off in; null where it is off in nothing. */
  off: Quantity | null;
}

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
