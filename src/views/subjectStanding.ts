/** How it stands with a biological control's person, as lists and charts say it. Pure. */
import type { SubjectState } from '../journal/entries.ts';
import type { Logbook } from '../journal/logbook.ts';
import { subjectSettingAt } from '../journal/standing.ts';
import { day } from './parts/figures.ts';

export interface SubjectStanding {
  code: string;
  state: SubjectState | 'left';
  /** Why it is not active; empty where nothing was said, or it is active. */
  reason: string;
  /** `paused since 3 Mar 2026`; empty while active. */
  words: string;
}

const stateVerbs = { paused: 'paused since', excluded: 'excluded since', left: 'left on' } as const;

/** At an ISO 8601 instant. */
export function subjectStanding(
  { subjects, subjectStates }: Pick<Logbook, 'subjects' | 'subjectStates'>,
  subjectId: string,
  instant: string,
): SubjectStanding {
  const subject = subjects.get(subjectId);
  const code = subject?.description.code ?? 'unknown';
  const retired = subject?.retired ?? null;
  if (retired !== null && retired.at <= instant) {
    return { code, state: 'left', reason: retired.reason, words: `${stateVerbs.left} ${day(retired.at)}` };
  }
  const setting = subjectSettingAt({ subjectStates }, subjectId, instant);
  if (setting === undefined || setting.state === 'active') {
    return { code, state: 'active', reason: '', words: '' };
  }
  const { state, reason, from } = setting;
  return { code, state, reason, words: `${stateVerbs[state]} ${day(from)}` };
}
