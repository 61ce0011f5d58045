/**
 * Which runs, checks and controls belong together as one investigation: the run whose failure is looked into, and all that were
 * made to find out why, over whatever chain of runs. Pure; nothing of it is stored but each entry's own `investigates`.
 */
import type { FindingCheck, Investigation } from '../journal/entries.ts';
import type { Logbook, LoggedCheck, LoggedControl, LoggedRun } from '../journal/logbook.ts';
import type { Failure } from './failures.ts';

/** One thing that was done to find out: a run, a check that was noted, or a control that was made. */
export type Step = { check: FindingCheck; at: string } & (
  | { kind: 'run'; run: LoggedRun }
  | { kind: 'check'; noted: LoggedCheck }
  | { kind: 'control'; control: LoggedControl }
);

export interface Inquiry {
  /** The run that is looked into. */
  about: LoggedRun;
  /** Oldest first. Voided ones stay among them. */
  steps: readonly Step[];
}

/**
 * The run that an investigation of `runId` is about: what that run itself investigates, and what opened the failure it
 * lies in, as far back as that leads. Undefined where the logbook has no such run. Entries that point at each other in a
 * ring, as only a foreign file can hold, end at the first that comes round.
 */
export function runLookedInto(
  { runs }: Pick<Logbook, 'runs'>,
  failures: readonly Failure[],
  runId: string,
): LoggedRun | undefined {
  return lookedInto(rootFinder(runs, failures), runId);
}

export function inquiryInto(
  { runs, checks, controls }: Pick<Logbook, 'runs' | 'checks' | 'controls'>,
  failures: readonly Failure[],
  runId: string,
): Inquiry | null {
  const finder = rootFinder(runs, failures);
  const about = lookedInto(finder, runId);
  if (about === undefined) return null;
  const isAbout = ({ runId: id }: Investigation) => lookedInto(finder, id)?.id === about.id;
  const byRuns = runs.flatMap((run): Step[] => {
    const { investigates, madeAt } = run.body;
    return investigates === undefined || run.id === about.id || !isAbout(investigates)
      ? []
      : [{ kind: 'run', check: investigates.check, at: madeAt, run }];
  });
  const byChecks = checks.flatMap((noted): Step[] => {
    const { investigates, doneAt } = noted.entry.body;
    return investigates === null || !isAbout(investigates)
      ? []
      : [{ kind: 'check', check: investigates.check, at: doneAt, noted }];
  });
  const byControls = controls.flatMap((logged): Step[] => {
    const { investigates, madeAt } = logged.control;
    return investigates === undefined || !isAbout(investigates)
      ? []
      : [{ kind: 'control', check: investigates.check, at: madeAt, control: logged }];
  });
  const steps = [...byRuns, ...byChecks, ...byControls].sort(
    (one, other) => Date.parse(one.at) - Date.parse(other.at),
  );
  return { about, steps };
}

export function isVoided(step: Step): boolean {
  switch (step.kind) {
    case 'run':
      return step.run.voided !== null;
    case 'check':
      return step.noted.voided !== null;
    case 'control':
      return step.control.voided !== null;
  }
}

interface RootFinder {
  byId: ReadonlyMap<string, LoggedRun>;
  openers: ReadonlyMap<string, string>;
}

function rootFinder(runs: readonly LoggedRun[], failures: readonly Failure[]): RootFinder {
  const openers = new Map<string, string>();
  // In the order in which they opened: a run that lies in two failures belongs to the one that opened first.
  for (const { openedBy, runs: lying } of failures) {
    for (const { id } of lying) if (!openers.has(id)) openers.set(id, openedBy.id);
  }
  return { byId: new Map(runs.map((run) => [run.id, run])), openers };
}

function lookedInto({ byId, openers }: RootFinder, runId: string): LoggedRun | undefined {
  const passed = new Set<string>();
  let run = byId.get(runId);
  while (run !== undefined && !passed.has(run.id)) {
    passed.add(run.id);
    const before = byId.get(run.body.investigates?.runId ?? openers.get(run.id) ?? '');
    if (before === undefined || before.id === run.id) return run;
    run = before;
  }
  return run;
}
