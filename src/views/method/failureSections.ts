/** What a verdict leads to: failures, their closing, their look-back, and the routes held against each other. Pure. */
import { defaultControlPolicy, driftLimitSd, logLikelihoodStep, partedBeyondSd } from '../../core/index.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { closingRulesOf } from '../../journal/standing.ts';
import { counted, plain } from '../parts/figures.ts';
import { sources } from '../terms.ts';
import { equation, facts, type MethodSection, text } from './methodModel.ts';

export function failuresSection(logbook: Logbook): MethodSection {
  const { proofRuns, needsAction, needsLookBack } = closingRulesOf(logbook);
  const isNeeded = (needed: boolean) => (needed ? 'needed' : 'not needed');
  return {
    place: 'failures',
    title: 'Verdicts, failures and their closing',
    terms: ['failure', 'proof'],
    blocks: [
      text(
        'A run fails at a breached published limit or an action rule, is a warning at a rule that warns, at a volume check or at a breath-hold outside its limits, and passes otherwise. The published limits and the own limits always both apply.',
      ),
      text(
        'A failure of a series opens at its first failing run. It ends when a supervisor closes it, or by a new baseline, which is refused while one is open. With the closing every pattern begins anew.',
      ),
      facts('What a closing needs here today', [
        {
          name: 'Passing runs',
          value: `${counted(proofRuns, 'run')} after the last failing one and the last action`,
        },
        { name: 'Corrective action', value: isNeeded(needsAction) },
        { name: 'Patient look-back', value: isNeeded(needsLookBack) },
      ]),
      text(
        'A proof is held only to what came after the action: patterns with runs from before it do not count against it, nor do EWMA and CUSUM, which forget nothing until the closing.',
      ),
    ],
    sources: [
      `When a failure opens and ends: ${sources.ownChoice}`,
      `That passing runs prove a repair: ${sources.commonPractice}`,
    ],
  };
}

export function lookBackSection(): MethodSection {
  const factor = plain(Number(Math.exp(logLikelihoodStep).toFixed(1)));
  return {
    place: 'look-back',
    title: 'When it began, and which patients are looked at again',
    terms: ['look-back', 'drift'],
    blocks: [
      text(
        `A step is dated where it explains the z of the runs best: the start from which on (number of runs) · (their mean z)² is greatest. It is claimed only where it makes the runs at least ${factor} times as likely as no step, and every other start that is no more than ${factor} times less likely stays plausible.`,
      ),
      equation('step: greatest n · (mean z)² / 2\ndrift: greatest (Σ k · z)² / (2 · Σ k²), k = 1, 2, …'),
      text(
        'A fault that grows is dated too late as a step, so a steady drift is asked about as well, and named unless a step explains the runs as much better.',
      ),
      text(
        'The look-back runs from the earlier of the last accepted run and the earliest plausible start, to when patient testing stopped; times out of service are left out. A stretch too long costs an hour, one too short a patient.',
      ),
      text(
        `Under rolling limits the mean that judges is held against the epoch’s first baseline: beyond ${plain(driftLimitSd)} SD of that baseline it has walked.`,
      ),
    ],
    sources: [
      'Step: Samuel, Pignatiello & Calvin, Quality Engineering 1998;10:521',
      `Factor ${factor}, a support of ${plain(logLikelihoodStep)}: Edwards, Likelihood (1972)`,
      'Drift: Perry & Pignatiello, Quality Technology & Quantitative Management 2006;3:325 (recalled)',
      `The stretch: derived, ${sources.ownChoice}`,
      `${plain(driftLimitSd)} SD of walk: ${sources.commonPractice}`,
    ],
  };
}

export function routesSection(): MethodSection {
  return {
    place: 'routes',
    title: 'Both routes of an analyzer',
    terms: ['route'],
    blocks: [
      text(
        'A patient test and a built-in run of one day and one epoch make a pair, those nearest in time first, each run in one pair at most. The difference of a pair, patient test less built-in, is free of the day’s room, syringe and hands.',
      ),
      text(
        `It is judged by the earlier pairs of the epoch, from ${counted(defaultControlPolicy.minimumSize, 'pair')} on. Beyond ${plain(partedBeyondSd)} SD of these the routes have parted. A pair that has parted, or that holds a run which was not accepted, makes no mean. It opens no failure: each run keeps its own verdict.`,
      ),
    ],
    sources: [
      'Paired differences: Bland & Altman, Lancet 1986;327:307; interval of their mean: NIST/SEMATECH e-Handbook, 7.2.2.1',
      `${plain(partedBeyondSd)} SD: ${sources.commonPractice}`,
    ],
  };
}
