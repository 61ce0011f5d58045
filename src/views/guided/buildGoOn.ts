/** What the button that goes on says, where that depends on what was found on the step. */
import type { BenchDraft } from '../runForm/benchDraft.ts';
import type { GuideStep } from './buildSteps.ts';
import { type Hold, hasStarted } from './hold.ts';
import type { VolumeCheck } from './volumeCheck.ts';

export function buildGoOn(
  { id, goOn }: Pick<GuideStep, 'id' | 'goOn'>,
  {
    draft,
    hold,
    volumeCheck,
  }: { draft: Pick<BenchDraft, 'volumeCheck'>; hold: Hold; volumeCheck: VolumeCheck | null },
): string {
  if (id === 'hold' && !hasStarted(hold)) return 'Start the timer';
  if (id !== 'volume-check') return goOn;
  if (draft.volumeCheck.trim() === '') return 'Go on without a volume check';
  return volumeCheck?.outcome?.isInside === false ? 'Go on all the same' : goOn;
}
