/** What the forms of controls hold, as typed, and the first six tests of a person. */
import {
  type BiologicalDraft,
  emptyLevel,
  type LevelDraft,
  type SimulatorDraft,
} from '../../../src/views/control/controlDraft.ts';
import { biological, subject } from '../controlDrafts.ts';
import { draft, ids } from '../laboratory.ts';

export const subjectSet = (
  state: 'active' | 'paused' | 'excluded',
  from: string,
  reason = 'On leave.',
  subjectId = subject,
) => draft('subject-state-set', { settingId: `setting-from-${from}`, subjectId, state, from, reason });

/** Weeks 0 to 5: a mean of 25.0 mL/min/mmHg, from which 12 % are 3.00 too; VA about 6 L. */
export const firstSix = () =>
  [24.6, 25.4, 25.1, 24.9, 25.3, 24.7].map((dlco, index) =>
    biological(index, dlco, {
      vaL: index % 2 === 0 ? 6.03 : 5.97,
      haemoglobin: { value: 14.2, unit: 'g/dL' },
    }),
  );

export const typedTest = (changes: Partial<BiologicalDraft> = {}): BiologicalDraft => ({
  kind: 'biological',
  analyzerId: ids.analyzer,
  technologistId: ids.supervisor,
  madeAt: '',
  comment: '',
  investigates: null,
  subjectId: subject,
  dlco: '25.4',
  dlcoUnit: 'mL/min/mmHg',
  va: '5.92',
  inspiredVolume: '',
  haemoglobin: '',
  haemoglobinUnit: 'g/dL',
  ...changes,
});

export const typedLevel = (changes: Partial<LevelDraft> = {}): LevelDraft => ({
  ...emptyLevel('mL/min/mmHg', 'mmHg'),
  target: '14',
  dlco: '14.2',
  ...changes,
});

/** What the gases of one level hold: by hand, ln(0.7/0.4) · 60000/760 · 273.15/310.15 · 4.5 L / 10 s is 17.51 mL/min/mmHg. */
export const typedGases = (changes: Partial<LevelDraft> = {}): LevelDraft =>
  typedLevel({
    basis: 'computed',
    target: '',
    inspiredCo: '0.300',
    inspiredTracer: '0.300',
    alveolarCo: '0.120',
    alveolarTracer: '0.210',
    targetVa: '4.5',
    targetBreathHold: '10',
    pressure: '760',
    dlco: '17.9',
    ...changes,
  });

export const typedSession = (changes: Partial<SimulatorDraft> = {}): SimulatorDraft => ({
  kind: 'simulator',
  analyzerId: ids.analyzer,
  technologistId: ids.supervisor,
  madeAt: '',
  comment: '',
  investigates: null,
  simulator: 'Simulator 1',
  low: typedLevel(),
  high: typedGases(),
  ...changes,
});
