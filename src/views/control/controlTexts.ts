/** What each kind of control is, above its form, and the cautions that it needs. */
import type { Control } from '../../journal/entries.ts';

const gasCaution =
  'Test gas holds carbon monoxide under pressure: ventilate, secure the cylinder, follow local rules.';

interface ControlText {
  title: string;
  what: string;
  cautions: readonly string[];
  /** The button that writes it. */
  record: string;
  another: string;
  /** `Test of … `, with the day behind. */
  made: string;
}

export const controlTexts: Record<Control['kind'], ControlText> = {
  biological: {
    title: 'Biological control',
    what: 'A healthy person, known here by a code, is tested as a patient is. It exercises what a syringe cannot: warm moist gas, the breath and the whole patient circuit.',
    cautions: [
      'A code, never a name, a date of birth or a number of a record: this logbook holds no patient data.',
      gasCaution,
    ],
    record: 'Record test',
    another: 'Enter another test',
    made: 'Test',
  },
  simulator: {
    title: 'Precision-gas simulator',
    what: 'A simulator gives gas of known composition as a patient would. The analyzer should report the uptake that the gases stand for, at each level.',
    cautions: [`${gasCaution} The simulator’s instructions decide how it is connected.`],
    record: 'Record session',
    another: 'Enter another session',
    made: 'Session',
  },
};
