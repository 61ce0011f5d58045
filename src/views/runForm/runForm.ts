import type { BenchDraft, BenchField } from './benchDraft.ts';
import type { BenchReading } from './readBenchDraft.ts';

/** What the fields of a run show and tell, wherever they stand. */
export interface RunForm {
  draft: BenchDraft;
  reading: BenchReading;
  /** What stands under a field that is in order. */
  hints: Partial<Record<'analyzerId' | 'madeAt', string>>;
  /** The time that an empty field for it stands for, in ms. */
  unlessTyped: number;
  /** Who made the run that is amended: may be chosen though retired by now. */
  technologistId?: string;
  /** Whether writing was tried: what is missing is then said. */
  tried: boolean;
  change: (changes: Partial<BenchDraft>) => void;
  chooseAnalyzer: (analyzerId: string) => void;
  leaveField: (field: BenchField) => void;
  showsTrouble: (field: BenchField) => boolean;
}
