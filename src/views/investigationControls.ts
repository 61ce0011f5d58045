/** What a person's test, or a simulator, tells of a run that is looked into. Pure. */
import type { Logbook, LoggedControl } from '../journal/logbook.ts';
import { judgedAsWritten, standingOfControl } from './controlAsWritten.ts';
import { isSameDay } from './investigationShift.ts';
import { type Fact, notedFor, nothing, type Part, type Sources } from './investigationSources.ts';
import { day } from './parts/figures.ts';

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
export function biologicalControl(sources: Sources): Part {
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
export function simulator(sources: Sources): Part {
  const session = controlsFor(sources, 'simulator').at(-1);
  if (session === undefined) return nothing;
  return { seen: {}, facts: [factOfControl(session, 'Precision-gas simulator', standingOfControl(session))] };
}

function factOfControl(control: LoggedControl, name: string, standing: 'good' | 'off' | undefined): Fact {
  const rules = judgedAsWritten(control).series.flatMap(({ signals }) => signals.map(({ rule }) => rule));
  const by = standing === 'off' && rules.length > 0 ? ` (${[...new Set(rules)].join(', ')})` : '';
  const notJudged = control.excluded ? 'made, and counts in no mean' : 'made, but nothing can judge it yet';
  const what = standing === undefined ? notJudged : `${standing}${by}`;
  return { key: control.id, sentence: `${name}, ${day(control.at)}: ${what}.`, runs: [], control };
}

const codeOf = ({ control }: LoggedControl, { subjects }: Pick<Logbook, 'subjects'>) => {
  const code = control.kind === 'biological' ? subjects.get(control.subjectId)?.description.code : undefined;
  return code === undefined ? '' : ` ${code}`;
};
