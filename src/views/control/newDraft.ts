/** The form of a new control: empty, but for what the logbook knows already. Pure. */
import type { Investigation } from '../../journal/entries.ts';
import type { Analyzer, Logbook } from '../../journal/logbook.ts';
import { subjectStateAt } from '../../journal/standing.ts';
import {
  type BiologicalDraft,
  type ControlDraft,
  emptyLevel,
  isHalfTyped,
  type LevelDraft,
  type SimulatorDraft,
  targetOf,
} from './controlDraft.ts';
import { sessionsBefore } from './readSimulator.ts';

interface Begun {
  analyzer: Analyzer;
  investigates: Investigation | null;
}

const begin = ({ analyzer, investigates }: Begun) => ({
  analyzerId: analyzer.id,
  technologistId: '',
  madeAt: '',
  comment: '',
  investigates,
});

/** `at`: this moment, an ISO 8601 instant. */
function newBiological(logbook: Logbook, begun: Begun, at: string): BiologicalDraft {
  const active = [...logbook.subjects.values()].filter(
    ({ id, retired }) => retired === null && subjectStateAt(logbook, id, at) === 'active',
  );
  const [only] = active;
  const newest = logbook.controls.findLast(
    ({ control, voided }) =>
      voided === null && control.kind === 'biological' && control.haemoglobin !== undefined,
  )?.control;
  return {
    kind: 'biological',
    ...begin(begun),
    subjectId: active.length === 1 && only !== undefined ? only.id : '',
    dlco: '',
    dlcoUnit: begun.analyzer.description.dlcoUnit,
    va: '',
    inspiredVolume: '',
    haemoglobin: '',
    haemoglobinUnit: (newest?.kind === 'biological' ? newest.haemoglobin?.unit : undefined) ?? 'g/dL',
  };
}

/** The targets are those of the analyzer's last session, and say so; the readings are typed anew. */
function newSimulator(logbook: Logbook, begun: Begun): SimulatorDraft {
  const { dlcoUnit, pressureUnit } = begun.analyzer.description;
  const last = sessionsBefore(logbook, { analyzerId: begun.analyzer.id }).at(-1)?.control;
  const carried = last?.kind === 'simulator' ? last : undefined;
  const levelOf = (name: 'low' | 'high'): LevelDraft => {
    const empty = emptyLevel(dlcoUnit, pressureUnit);
    if (carried === undefined) return empty;
    const level = carried.levels.find((one) => one.level === name);
    return level === undefined
      ? { ...empty, isMade: false }
      : { ...empty, ...targetOf(level), carriedFrom: carried.madeAt };
  };
  return {
    kind: 'simulator',
    ...begin(begun),
    simulator: carried?.simulator ?? '',
    low: levelOf('low'),
    high: levelOf('high'),
  };
}

export const newDraft = (
  kind: ControlDraft['kind'],
  logbook: Logbook,
  begun: Begun,
  at: string,
): ControlDraft => (kind === 'biological' ? newBiological(logbook, begun, at) : newSimulator(logbook, begun));

/** Once another analyzer is chosen. What was read stays as it was typed; where nothing was, units and targets are those of the other. */
export function draftOnAnalyzer(
  draft: ControlDraft,
  logbook: Logbook,
  analyzer: Analyzer,
  at: string,
): ControlDraft {
  if (isHalfTyped(draft)) return { ...draft, analyzerId: analyzer.id };
  const fresh = newDraft(draft.kind, logbook, { analyzer, investigates: draft.investigates }, at);
  const { madeAt } = draft;
  return fresh.kind === 'biological' && draft.kind === 'biological'
    ? { ...fresh, madeAt, subjectId: draft.subjectId }
    : { ...fresh, madeAt };
}
