/** How it stands with a biological control: what each state means, and what is asked before it is set. Pure. */
import type { SubjectState } from '../../journal/entries.ts';
import type { Logbook, Subject } from '../../journal/logbook.ts';
import { subjectStateAt } from '../../journal/standing.ts';
import { counted, dayAndTime } from '../parts/figures.ts';

export const stateWords: Record<SubjectState, string> = {
  active: 'is tested',
  paused: 'paused',
  excluded: 'excluded',
};

export interface StateSetting {
  action: string;
  title: (code: string) => string;
  what: string;
  /** Under the reason. */
  reasonHint: string;
  only: 'supervisor' | undefined;
  /** What the history says was done. */
  done: string;
}

export const settings: Record<SubjectState, StateSetting> = {
  paused: {
    action: 'Pause',
    title: (code) => `Pause ${code}`,
    what: 'The person is not tested for a while. What was recorded stays, and counts as before. Anybody may pause; a supervisor goes on with the tests.',
    reasonHint:
      'In the words of the laboratory, without anything about the person’s health: “not available”.',
    only: undefined,
    done: 'Paused',
  },
  excluded: {
    action: 'Exclude',
    title: (code) => `Exclude ${code} from the means`,
    what: 'Tests made from then on stand as they are written, and count in no mean, no limit and no pattern. For what changes the person and not the analyzer.',
    reasonHint: 'Why the tests say nothing of the analyzer, without anything about the person’s health.',
    only: 'supervisor',
    done: 'Excluded',
  },
  active: {
    action: 'Go on with the tests',
    title: (code) => `Go on with ${code}`,
    what: 'Tests made from then on count again, beside those from before.',
    reasonHint:
      'What shows that the person is as before. Whoever is not is better taken up under another code.',
    only: 'supervisor',
    done: 'Tests go on',
  },
};

/** Why a state may not be set; undefined where it may. `at`: ISO 8601 instant. */
export function refusedBecause(
  logbook: Pick<Logbook, 'subjectStates'>,
  { id, description: { code } }: Pick<Subject, 'id' | 'description'>,
  state: SubjectState,
  at: string,
): string | undefined {
  return subjectStateAt(logbook, id, at) === state ? `${code} ${isSo[state]} already.` : undefined;
}

const isSo: Record<SubjectState, string> = {
  active: 'is tested',
  paused: 'is paused',
  excluded: 'is excluded',
};

/** `from`: the ISO 8601 instant from which on it holds. */
export function askAboutState(
  { subjectStates, controls }: Pick<Logbook, 'subjectStates' | 'controls'>,
  { id, description: { code } }: Pick<Subject, 'id' | 'description'>,
  state: SubjectState,
  from: string,
): string[] {
  const questions: string[] = [];
  const later = subjectStates
    .filter(({ body }) => body.subjectId === id && body.from > from)
    .toSorted((one, other) => (one.body.from < other.body.from ? -1 : 1));
  const last = later.at(-1);
  if (last !== undefined) {
    questions.push(
      `${code} ${isSo[last.body.state]} since ${dayAndTime(last.body.from)}, and that stays so: this would end there. Is the time right?`,
    );
  }
  const until = later[0]?.body.from;
  const before = subjectStateAt({ subjectStates }, id, from);
  const moved = controls.filter(
    ({ control, voided }) =>
      voided === null &&
      control.kind === 'biological' &&
      control.subjectId === id &&
      control.madeAt >= from &&
      (until === undefined || control.madeAt < until),
  ).length;
  if (moved > 0 && state === 'paused') {
    questions.push(
      `${code} was tested ${counted(moved, 'time')} since then, and while paused nothing can be recorded, not even late. Is the time right?`,
    );
  }
  if (moved > 0 && (state === 'excluded') !== (before === 'excluded')) {
    questions.push(
      state === 'excluded'
        ? `${counted(moved, 'test')} made since then would count in no mean any more. Is that meant?`
        : `${counted(moved, 'test')} made since then would count again. Is that meant?`,
    );
  }
  return questions;
}
