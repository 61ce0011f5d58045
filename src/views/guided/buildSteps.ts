/**
 * What each step says. Short and spoken: it is read at arm's length with gloves on. Where a sentence is more than handling
 * a syringe its ground is named beside it.
 */
import type { PublishedLimits } from '../../core/index.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { litresTyped, plain } from '../parts/figures.ts';
import type { BenchDraft } from '../runForm/benchDraft.ts';
import { numberOf, type StepId, stepIds } from './guideSteps.ts';
import { holdRange } from './hold.ts';

export interface GuideStep {
  id: StepId;
  /** In the list of steps. */
  word: string;
  heading: string;
  say: readonly string[];
  cautions: readonly string[];
  /** On the button that goes on: what is done, or what comes. */
  goOn: string;
}

type StepWords = Omit<GuideStep, 'id'>;

interface SetUp {
  analyzer: string;
  syringe: string;
  strokeL: number;
  volumeInsideL: number;
  isBuiltIn: boolean;
  hasSampleBag: boolean;
  limits: PublishedLimits;
}

/** With everything known of what was chosen so far; before that "the analyzer" and "the syringe". */
export function buildSteps(
  draft: Pick<BenchDraft, 'analyzerId' | 'syringeId' | 'route'>,
  { analyzers, syringes }: Pick<Logbook, 'analyzers' | 'syringes'>,
  limits: PublishedLimits,
): GuideStep[] {
  const analyzer = analyzers.get(draft.analyzerId)?.description;
  const syringe = syringes.get(draft.syringeId)?.description;
  const volumeInsideL = analyzer?.volumeInsideL ?? 0;
  const setUp: SetUp = {
    analyzer: analyzer?.label ?? 'the analyzer',
    syringe: syringe?.label ?? 'the syringe',
    strokeL: (syringe?.volumeL ?? 3) - volumeInsideL,
    volumeInsideL,
    isBuiltIn: draft.route === 'built-in',
    hasSampleBag: analyzer?.gasAnalysis === 'sample-bag',
    limits,
  };
  return stepIds.map((id) => ({ id, ...wordsOf[id](setUp) }));
}

const wordsOf: Record<StepId, (setUp: SetUp) => StepWords> = {
  'set-up': () => ({
    word: 'Who and with what',
    heading: 'Who are you, and what stands before you?',
    say: ['Choose what is here now, not what is usual.'],
    cautions: [
      // Common practice, and the yearly check of the ATS laboratory manual "after any drop".
      'Has the syringe been dropped? Then do not use it until its leak check is done.',
      'A hose or filter left on the syringe holds gas too: its volume counts.',
    ],
    goOn: 'On to the room',
  }),
  room: () => ({
    word: 'The room',
    heading: 'Read the room',
    say: [
      'Read the thermometer and the barometer now.',
      'Take the pressure here in the room. A weather report gives it for sea level.',
    ],
    cautions: ['A wrong temperature or pressure shifts VA, and looks like a fault of the analyzer.'],
    goOn: 'On to the syringe',
  }),
  syringe: ({ analyzer, syringe, volumeInsideL }) => ({
    word: 'Attach the syringe',
    heading: 'Empty the syringe and attach it',
    say: [
      // The residue would dilute the next breath less (mass balance): VA would read low.
      'Off the analyzer, pump room air through the syringe three times.',
      'Push the plunger home: all the way in, against its stop.',
      `Attach ${syringe} to ${analyzer} where the mouthpiece goes. It must sit tight.`,
      ...(volumeInsideL > 0
        ? [`The start at ${litresTyped(volumeInsideL)} L comes later, at step ${numberOf('start')}.`]
        : []),
    ],
    cautions: [
      'The test gas holds carbon monoxide: ventilate the room.',
      'It comes from a compressed-gas cylinder: secure it before you open its valve. Follow your local rules.',
      'Hold the syringe by its ends. A barrel warmed by hands warms the gas.',
    ],
    goOn: 'It is attached: on to the volume check',
  }),
  'volume-check': ({ analyzer, isBuiltIn }) => ({
    word: 'Volume check',
    heading: 'Check the volume first',
    say: [
      isBuiltIn
        ? `On ${analyzer}, start a vital-capacity test, or the volume check of its own routine.`
        : `On ${analyzer}, start a slow vital-capacity test.`,
      'Pull the plunger out to its stop, then push it home. Slow and even.',
      'Type the volume that the screen shows.',
    ],
    cautions: ['No test gas yet. A leak or a wrong flow sensor shows here, before it spoils the run.'],
    goOn: 'On to the run',
  }),
  start: ({ analyzer, volumeInsideL, isBuiltIn }) => ({
    word: 'Start the test',
    heading:
      volumeInsideL > 0
        ? `Set the plunger at ${litresTyped(volumeInsideL)} L and start the test`
        : 'Plunger home, then start the test',
    say: [
      volumeInsideL > 0
        ? `Pull the plunger to the ${litresTyped(volumeInsideL)} L mark. That much room air stays inside.`
        : 'Push the plunger home, against its stop.',
      isBuiltIn
        ? `On ${analyzer}, start its own syringe routine. Where its screen says otherwise, follow its screen.`
        : `On ${analyzer}, start the DLCO test as for a patient, under your laboratory’s code for the syringe.`,
      'Then wait. Do not touch the plunger until the analyzer asks for a breath.',
    ],
    cautions: [
      'From here on carbon monoxide flows: keep the room ventilated.',
      // 2017 ERS/ATS DLCO standard, equipment table: weekly, in the normal patient-test mode.
      ...(isBuiltIn
        ? [
            'The published standard asks for the patient test. The routine can pass by a part that patients breathe through.',
          ]
        : []),
    ],
    goOn: 'It asks for a breath',
  }),
  inhale: ({ strokeL }) => ({
    word: 'Inhale',
    heading: 'Inhale: pull the plunger out',
    say: [
      'When the analyzer says “inhale”, pull out to the stop.',
      `One quick, even pull: ${litresTyped(strokeL)} L without a halt.`,
    ],
    cautions: ['All the way to the stop. A short pull draws too little gas.'],
    goOn: 'It is out: start the timer',
  }),
  hold: ({ limits: { breathHoldS, edition } }) => ({
    word: 'Hold',
    heading: `Hold still for ${plain(breathHoldS.target)} s`,
    say: ['Keep the plunger at its stop. If the analyzer says “exhale” first, obey the analyzer.'],
    cautions: [
      'Do not let the plunger creep: gas that moves now changes the result.',
      `${plain(holdRange(breathHoldS).shortest)} to ${plain(holdRange(breathHoldS).longest)} s are in order (${edition}).`,
    ],
    goOn: 'On to exhaling',
  }),
  exhale: ({ hasSampleBag }) => ({
    word: 'Exhale',
    heading: 'Exhale: push the plunger home',
    say: [
      'Push home in one even push, to the stop.',
      hasSampleBag
        ? 'Leave all as it is until the analyzer has measured its sample bag and shows a result.'
        : 'Leave all as it is until the analyzer shows a result.',
    ],
    cautions: ['What comes out holds carbon monoxide. Take the syringe off only when the analyzer is done.'],
    goOn: 'It shows a result',
  }),
  read: () => ({
    word: 'Read',
    heading: 'Read the analyzer’s screen',
    say: ['Type what it shows, digit for digit. Leave empty what it does not show.'],
    cautions: [
      'Type the breath-hold time that the analyzer shows, not the timer’s: each analyzer counts it in its own way.',
      'Close the cylinder as your local rules say.',
    ],
    goOn: 'To the verdict',
  }),
  verdict: () => ({
    word: 'Verdict',
    heading: 'What the run says',
    say: [],
    cautions: [
      'A failed run: no patients on this analyzer until your laboratory’s responsible person says so.',
      'This page advises. It is not a medical device.',
    ],
    goOn: 'Record run',
  }),
};

/** Under the cautions of every step. */
export const whoDecides =
  'Local procedure and the manufacturer’s instructions decide where they say otherwise.';
