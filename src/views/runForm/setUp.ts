/**
 * What a run takes over from the descriptions of its analyzer and syringe: nobody types it with the readings. A new run
 * takes it as it stands; an amended one keeps what it has, or takes that of the day on which it was written down.
 */
import { ambientFactor } from '../../core/index.ts';
import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import type {
  AnalyzerDescription,
  Attachment,
  RunContent,
  SyringeDescription,
} from '../../journal/entries.ts';
import type { Analyzer, LoggedRun, Syringe } from '../../journal/logbook.ts';
import { litresTyped } from '../parts/figures.ts';
import { volumeOf } from './attached.ts';

export type RunSetUp = Pick<RunContent, 'conversion' | 'syringe' | 'analyzerDeadSpaceL'>;

/** `attached`: what is left on the syringe for this run, whose volume the dead space then holds. */
export function setUpOf(
  analyzer: Analyzer,
  syringe: Syringe,
  attached: readonly Attachment[],
  amending: LoggedRun | undefined,
): RunSetUp {
  const kept = amending?.body;
  const isSameAnalyzer = kept?.analyzerId === analyzer.id;
  const isSameSyringe = kept?.syringeId === syringe.id;
  const { conversion, analyzerDeadSpaceL, volumeInsideL } = isSameAnalyzer
    ? { ...kept, volumeInsideL: kept.syringe.volumeInsideL }
    : analyzerAsOf(analyzer, amending?.entry.at);
  const { volumeL, ...described } = isSameSyringe
    ? { ...kept.syringe, volumeL: kept.syringe.strokeL + kept.syringe.volumeInsideL }
    : syringeAsOf(syringe, amending?.entry.at);
  const countedL = isSameSyringe ? volumeOf(kept.attached) : 0;
  const attachedL = volumeOf(attached);
  // To the last digit as it was, where nothing was put on or taken off.
  const deadSpaceL =
    attachedL === countedL
      ? described.deadSpaceL
      : withoutBinaryNoise(Math.max(0, described.deadSpaceL - countedL) + attachedL);
  const strokeL = isSameAnalyzer && isSameSyringe ? kept.syringe.strokeL : volumeL - volumeInsideL;
  return { conversion, analyzerDeadSpaceL, syringe: { strokeL, volumeInsideL, deadSpaceL } };
}

export function analyzerAsOf(
  { description, history }: Analyzer,
  at: string | undefined,
): AnalyzerDescription {
  const described = history.filter(
    (entry) => entry.kind === 'analyzer-added' || entry.kind === 'analyzer-changed',
  );
  return asOf(described, at) ?? description;
}

function syringeAsOf({ description, history }: Syringe, at: string | undefined): SyringeDescription {
  const described = history.filter(
    (entry) => entry.kind === 'syringe-added' || entry.kind === 'syringe-changed',
  );
  return asOf(described, at) ?? description;
}

/** The newest description up to an instant; the first where all are later; undefined, for the present one, without an instant. */
function asOf<D>(described: readonly { at: string; body: D }[], at: string | undefined): D | undefined {
  if (at === undefined) return undefined;
  return (described.findLast((entry) => entry.at <= at) ?? described[0])?.body;
}

/** Whether anything is left of the nominal breath once the plunger's start and the subtracted dead space are taken off. */
export function breathProblemOf(
  { syringe: { strokeL, volumeInsideL }, analyzerDeadSpaceL }: RunSetUp,
  analyzer: Analyzer,
  syringe: Syringe,
): string | null {
  if (strokeL > analyzerDeadSpaceL) return null;
  return (
    `${syringe.description.label} holds ${litresTyped(strokeL + volumeInsideL)} L: too small for ${analyzer.description.label}, ` +
    `which starts with ${litresTyped(volumeInsideL)} L inside and subtracts ${litresTyped(analyzerDeadSpaceL)} L.`
  );
}

export function inspiredVolumeProblem(run: RunContent, analyzer: Analyzer): string | null {
  const { inspiredVolumeL, vaReportedAs } = run.reading;
  if (inspiredVolumeL === undefined) return null;
  const { relativeHumidity, ...room } = run.ambient;
  const ambient = relativeHumidity === undefined ? room : { ...room, relativeHumidity };
  const ambientL = inspiredVolumeL * ambientFactor(vaReportedAs, ambient, run.conversion);
  if (ambientL > run.analyzerDeadSpaceL) return null;
  return (
    `${litresTyped(ambientL)} L at the room’s conditions is not more than the ${litresTyped(run.analyzerDeadSpaceL)} L ` +
    `of dead space that ${analyzer.description.label} subtracts: nothing would be left of the breath. Check both.`
  );
}
