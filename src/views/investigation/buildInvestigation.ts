/** The page of one investigation in words: what it is about, how it stands, and what the evidence supports. Pure. */
import type { CauseId, CauseRanking, EvidenceId, WeighedEvidence } from '../../core/index.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import type { Failure } from '../failures.ts';
import type { WeighedInquiry } from '../investigationChecks.ts';
import { day } from '../parts/figures.ts';
import { quantityWords } from '../parts/words.ts';

/** How the matter stands, where that is not simply "open". */
export interface Standing {
  tone: 'quiet' | 'pass' | 'warn';
  title: string;
  sentence: string;
  /** Further checks would find nothing of this fault. */
  isOver: boolean;
}

export interface CauseLine {
  id: CauseId;
  text: string;
  weight: string;
  for: readonly string[];
  against: readonly string[];
}

export interface InvestigationPage {
  standing: Standing | null;
  causes: readonly CauseLine[];
  /** Said where no cause is ranked. */
  noCause: string;
}

export function buildInvestigation(
  { inquiry: { about }, off, ranking }: WeighedInquiry,
  failures: readonly Failure[],
  logbook: Logbook,
): InvestigationPage {
  return {
    standing: standingOf(about, off === null, failures, logbook),
    causes: causeLines(ranking),
    noCause:
      off === null
        ? 'The run reads as it should: there is no cause to look for.'
        : 'Nothing known so far points to one cause more than to another. Begin with the first check.',
  };
}

function standingOf(
  about: LoggedRun,
  isGood: boolean,
  failures: readonly Failure[],
  logbook: Logbook,
): Standing | null {
  const { voided, amendments } = about;
  if (voided !== null) {
    return {
      tone: 'warn',
      title: `The run was voided by ${initialsIn(logbook.technologists, voided.by)}, ${day(voided.at)}`,
      sentence: `${voided.reason} It opens no failure any more.`,
      isOver: true,
    };
  }
  const amended = amendments.at(-1);
  if (isGood && amended !== undefined) {
    return {
      tone: 'warn',
      title: `The run was amended by ${initialsIn(logbook.technologists, amended.by)}, ${day(amended.at)}`,
      sentence: `${amended.body.reason} As it now stands it does not fail.`,
      isOver: true,
    };
  }
  const opened = failures.filter(({ runs }) => runs.includes(about));
  const ended = opened.flatMap(({ ended: end }) => (end === null ? [] : [end]));
  const last = ended.at(-1);
  if (last !== undefined && ended.length === opened.length) {
    if (last.by === 'new-baseline') {
      return {
        tone: 'quiet',
        title: `Put aside by the new baseline of ${day(last.from)}`,
        sentence: 'Nobody closed it in writing. What was found stays here.',
        isOver: true,
      };
    }
    const { closure } = last;
    const { correctiveAction, reason, closedAt } = closure.body;
    return {
      tone: 'pass',
      title: `Closed by ${initialsIn(logbook.technologists, closure.by)}, ${day(closedAt)}`,
      sentence: [correctiveAction, reason].filter((text) => text !== '').join(' '),
      isOver: true,
    };
  }
  const stillOpen = opened.filter(({ ended: end }) => end === null);
  if (stillOpen.length > 0) return null;
  return {
    tone: 'quiet',
    title: 'This run opened no failure',
    sentence: 'Checks can be linked to it all the same.',
    isOver: false,
  };
}

/** Weight words: the core's 3 decides nearly alone, 2 speaks clearly, 1 leans. */
function weightWords(score: number): string {
  if (score >= 3) return 'Much points here';
  return score === 2 ? 'Some of it points here' : 'A little points here';
}

function causeLines({ causes }: CauseRanking): CauseLine[] {
  return causes.map(({ id, text, score, for: pro, against }) => ({
    id,
    text,
    weight: weightWords(score),
    for: pro.map(patternWords),
    against: against.map(patternWords),
  }));
}

const patternWords = ({ evidence }: WeighedEvidence) => evidence.map((id) => evidenceWords[id]).join(', ');

const { va, dlco } = quantityWords;
export const evidenceWords: Record<EvidenceId, string> = {
  'volume-check-off-with-va': `the volume check is off like ${va}`,
  'volume-check-off-alone': `the volume check is off, not like ${va}`,
  'volume-check-good': 'the volume check is good',
  'va-high': `${va} is high`,
  'va-low': `${va} is low`,
  'va-good': `${va} is good`,
  'dlco-off': `${dlco} is off`,
  'dlco-good': `${dlco} is good`,
  'other-route-good': 'the other route is good',
  'other-route-off-alike': 'the other route is off alike',
  'all-analyzers-moved': 'other analyzers moved alike that day',
  'only-this-analyzer-moved': 'only this analyzer moved',
  'begins-at-event': 'it begins at something logged',
  'no-event-near': 'nothing was logged when it began',
  'same-conditions-typed': 'the same room was typed week after week',
  'biological-control-off': 'the biological control is off',
  'simulation-good': 'the simulation is good',
  'good-after-conditions': 'it is good with the room read anew',
  'off-after-conditions': 'it is off with the room read anew, too',
  'good-after-gas-check': 'it is good after the gas was checked',
  'off-after-gas-check': 'it is off after the gas was checked, too',
};
