/** The checks that would tell the causes of a failure apart: which come next, which were done, and how each begins. Pure. */
import {
  type Assessments,
  type CauseRanking,
  type CheckId,
  checkText,
  type Observations,
  type Quantity,
  rankCauses,
} from '../core/index.ts';
import type { FindingCheck } from '../journal/entries.ts';
import type { Analyzer, Logbook, LoggedRun } from '../journal/logbook.ts';
import { outOfService } from '../journal/standing.ts';
import { newControlHref } from './deskRoutes.ts';
import { whatIsKnown } from './investigationFacts.ts';
import type { Fact } from './investigationSources.ts';
import { type Inquiry, isVoided, type Step } from './investigations.ts';
import { routeWords } from './parts/words.ts';
import { checkHref } from './routes.ts';
import type { RunStart } from './startRun.ts';

/** How a check begins: a run on the bench, or the page on which it is noted or entered. */
export type Begin = { label: string } & ({ kind: 'run'; start: RunStart } | { kind: 'note'; href: string });

export interface OfferedCheck {
  check: FindingCheck;
  title: string;
  why: string;
  /** Oldest first, voided ones among them. */
  done: readonly Step[];
  /** `known`: nobody made it for this investigation, but the logbook tells what it would. */
  state: 'done' | 'known' | 'not-done';
  begins: readonly Begin[];
}

export interface WeighedInquiry {
  inquiry: Inquiry;
  /** Of the run that is looked into; null where it is off in nothing. */
  off: Quantity | null;
  facts: readonly Fact[];
  ranking: CauseRanking;
  /** What would tell most comes first. */
  checks: readonly OfferedCheck[];
}

/** `now`: ISO 8601 instant, for what is in service. */
export function weighInquiry(
  inquiry: Inquiry,
  { logbook, assessments, now }: { logbook: Logbook; assessments: Assessments; now: string },
): WeighedInquiry {
  const { seen, facts, off } = whatIsKnown(inquiry, logbook, assessments);
  const offered = offeredChecks(inquiry, logbook, now).map((each): OfferedCheck => {
    const isDone = each.done.some((step) => !isVoided(step));
    return { ...each, state: isDone ? 'done' : isKnown(each.check, seen) ? 'known' : 'not-done' };
  });
  const isOpen = (id: FindingCheck) =>
    offered.some(({ check, state }) => check === id && state === 'not-done');
  const settled = new Set(checkIds.filter((id) => !isOpen(id)));
  const order: FindingCheck[] = isOpen('repeat') ? ['repeat'] : [];
  // Each proposal in turn counts as done when the next is looked for.
  for (const done = new Set(settled); ; ) {
    const next = rankCauses(seen, done).nextCheck;
    if (next === null) break;
    order.push(next);
    done.add(next);
  }
  const placeOf = (check: FindingCheck) => (order.includes(check) ? order.indexOf(check) : order.length);
  return {
    inquiry,
    off,
    facts,
    ranking: rankCauses(seen, settled),
    checks: offered.toSorted((one, other) => {
      const openFirst = Number(isOpen(other.check)) - Number(isOpen(one.check));
      return openFirst || placeOf(one.check) - placeOf(other.check);
    }),
  };
}

/** What comes next and is not known yet, best first. */
export const nextChecks = ({ checks }: WeighedInquiry): readonly OfferedCheck[] =>
  checks.filter(({ state }) => state === 'not-done');

function isKnown(check: FindingCheck, seen: Observations): boolean {
  switch (check) {
    case 'volume-check':
      return seen.volumeCheckFraction !== undefined;
    case 'other-route':
      return seen.otherRoute !== undefined;
    case 'other-analyzer':
      return seen.acrossAnalyzers !== undefined;
    case 'biological-control':
      return seen.biologicalControl !== undefined;
    case 'repeat':
    case 'read-conditions':
    case 'other-gas':
      return false;
  }
}

const checkIds = Object.keys(checkText) as readonly CheckId[];

const titles: Record<FindingCheck, string> = {
  repeat: 'Repeat the run',
  'other-route': 'The other route',
  'volume-check': 'Volume check',
  'other-analyzer': 'Another analyzer, same syringe',
  'read-conditions': 'Read the room anew',
  'other-gas': 'Gas and zero',
  'biological-control': 'Biological control',
};

/** Only what makes sense for this run in this laboratory. */
function offeredChecks(
  { about, steps }: Inquiry,
  logbook: Logbook,
  now: string,
): Omit<OfferedCheck, 'state'>[] {
  const { analyzerId, route, syringeId } = about.body;
  const run = (check: FindingCheck, label: string, start: Partial<RunStart> = {}): Begin => ({
    kind: 'run',
    label,
    start: {
      analyzerId,
      route,
      syringeId,
      reason: check === 'repeat' ? 'repeat' : 'suspected-fault',
      investigates: { runId: about.id, check },
      ...start,
    },
  });
  const otherRoute = route === 'patient-test' ? 'built-in' : 'patient-test';
  const begins: Record<FindingCheck, readonly Begin[]> = {
    repeat: [run('repeat', 'Repeat this run')],
    'volume-check': [
      {
        kind: 'note',
        label: 'Note a volume check',
        href: checkHref('volume-check', analyzerId, { runId: about.id, check: 'volume-check' }),
      },
    ],
    'other-route': [
      run(
        'other-route',
        `Run the ${routeWords[otherRoute].toLowerCase()}${hasRoute(about, otherRoute, logbook) ? '' : ', if it has one'}`,
        { route: otherRoute },
      ),
    ],
    'other-analyzer': companions(about, logbook, now)
      .filter(({ id }) => !steps.some((step) => isRunOf(step, id)))
      .map(({ id, description }) =>
        run('other-analyzer', `Run ${description.label}`, { analyzerId: id, route: description.route }),
      ),
    'read-conditions': [run('read-conditions', 'Read the room, run again')],
    'other-gas': [run('other-gas', 'Check the gas, run again')],
    'biological-control': [
      {
        kind: 'note',
        label: 'Enter a biological control',
        href: newControlHref('biological', analyzerId, about.id),
      },
    ],
  };
  return (Object.keys(titles) as readonly FindingCheck[]).flatMap((check) => {
    const done = steps.filter((step) => step.check === check);
    if (begins[check].length === 0 && done.length === 0) return [];
    return [{ check, title: titles[check], why: whyOf(check), done, begins: begins[check] }];
  });
}

const isRunOf = (step: Step, analyzerId: string) =>
  step.kind === 'run' && !isVoided(step) && step.run.body.analyzerId === analyzerId;

function whyOf(check: FindingCheck): string {
  return check === 'repeat'
    ? 'Same analyzer, route and syringe once more: a slip does not come twice.'
    : checkText[check];
}

/** An analyzer has a route that was ever run on it, or that its description names as the usual one. */
function hasRoute({ body }: LoggedRun, route: 'patient-test' | 'built-in', logbook: Logbook): boolean {
  const { analyzerId, method } = body;
  return (
    logbook.analyzers.get(analyzerId)?.description.route === route ||
    logbook.runs.some(
      (run) =>
        run.voided === null &&
        run.body.analyzerId === analyzerId &&
        run.body.method === method &&
        run.body.route === route,
    )
  );
}

const recentlyMs = 90 * 86_400_000;

/** The other analyzers in service that are tested with the same syringe: by description, or in the last ninety days. */
function companions({ body, simulation }: LoggedRun, logbook: Logbook, now: string): Analyzer[] {
  const used = new Set<string>();
  for (let index = logbook.runs.length - 1; index >= 0; index -= 1) {
    const run = logbook.runs[index];
    if (run === undefined || run.simulation.at < simulation.at - recentlyMs) break;
    if (run.voided === null && run.body.syringeId === body.syringeId) used.add(run.body.analyzerId);
  }
  return [...logbook.analyzers.values()].filter(
    ({ id, description, retired }) =>
      id !== body.analyzerId &&
      retired === null &&
      outOfService(logbook, id, now) === null &&
      (description.syringeId === body.syringeId || used.has(id)),
  );
}
