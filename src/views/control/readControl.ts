/** Reads a control's form by its kind. Pure. */
import type { Control } from '../../journal/entries.ts';
import type { ControlDraft } from './controlDraft.ts';
import { readBiological } from './readBiological.ts';
import type { ControlReading, Surroundings } from './readInCommon.ts';
import { readSimulator } from './readSimulator.ts';

export const readControl = (draft: ControlDraft, surroundings: Surroundings): ControlReading<Control> =>
  draft.kind === 'biological' ? readBiological(draft, surroundings) : readSimulator(draft, surroundings);
