/** What a failure needs before it can be closed: in words, as its form holds it, and as an entry. Pure. */
import type { EntryDraft } from '../../journal/entries.ts';
import type { ClosingRules } from '../../journal/standing.ts';
import type { FieldInWords } from '../parts/fieldsInWords.ts';
import { counted, plain } from '../parts/figures.ts';
import { type Errors, type FormReading, finish } from '../parts/formReading.ts';
import type { NumberSpec } from '../parts/readNumber.ts';
import { readCount } from './readSetting.ts';

export interface ClosingDraft {
  proofRuns: string;
  needsAction: boolean;
  needsLookBack: boolean;
}

/** All of it in one line, for the list of settings. */
export const closingInShort = ({ proofRuns, needsAction, needsLookBack }: ClosingRules) =>
  [
    counted(proofRuns, 'passing run'),
    ...(needsAction ? ['action'] : []),
    ...(needsLookBack ? ['look-back'] : []),
  ].join(', ');

const neededWords = (isNeeded: boolean) => (isNeeded ? 'needed' : 'not needed');

export const closingInWords = ({ proofRuns, needsAction, needsLookBack }: ClosingRules): FieldInWords[] => [
  { name: 'Passing runs', value: `${plain(proofRuns)}, after the last failing one and the last action` },
  { name: 'Corrective action', value: neededWords(needsAction) },
  { name: 'Patient look-back', value: neededWords(needsLookBack) },
];

export const closingDraft = ({ proofRuns, needsAction, needsLookBack }: ClosingRules): ClosingDraft => ({
  proofRuns: plain(proofRuns),
  needsAction,
  needsLookBack,
});

/** The journal keeps 20 at most. None would let a failure be closed that nothing has shown to be over. */
const proofSpec: NumberSpec = {
  name: 'number of passing runs',
  unit: '',
  lowest: 1,
  highest: 20,
  example: '2',
};

export function readClosing(draft: ClosingDraft): FormReading<ClosingDraft, ClosingRules> {
  const errors: Errors<ClosingDraft> = {};
  const proofRuns = readCount(draft.proofRuns, proofSpec, 'Type how many runs have to pass.');
  if (proofRuns.message !== undefined) errors.proofRuns = proofRuns.message;
  const { needsAction, needsLookBack } = draft;
  return finish(errors, { proofRuns: proofRuns.value, needsAction, needsLookBack });
}

/** What to know before a step is no longer asked for. */
export function closingWarnings({ needsAction, needsLookBack }: ClosingRules): string[] {
  return [
    ...(needsAction ? [] : ['A failure can then be closed without a word on what was done about it.']),
    ...(needsLookBack
      ? []
      : [
          'A failure can then be closed although nobody has looked at the results of the patients tested meanwhile.',
        ]),
  ];
}

export function setClosing(rules: ClosingRules, by: string, reason: string): EntryDraft[] {
  return [
    {
      id: crypto.randomUUID(),
      by,
      kind: 'closing-rules-set',
      body: { closingRulesId: crypto.randomUUID(), ...rules, reason },
    },
  ];
}
