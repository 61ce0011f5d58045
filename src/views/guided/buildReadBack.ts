/** What the typed readings come to, one by one, before there is a whole run to judge. */
import { isDlcoWithinPublished, publishedDlcoLimit, reduceRun } from '../../core/index.ts';
import { dlcoTyped, litres, millilitres, plain } from '../parts/figures.ts';
import type { BenchDraft } from '../runForm/benchDraft.ts';
import type { BenchSurroundings } from '../runForm/readBenchDraft.ts';
import { readWith } from './standIn.ts';

export function buildReadBack(draft: BenchDraft, surroundings: BenchSurroundings): string[] {
  const lines: string[] = [];
  const withVa =
    draft.va.trim() === '' ? null : readWith(['va', 'vaReportedAs', 'inspiredVolume'], draft, surroundings);
  if (withVa) {
    const { simulatedVaL, vaOffTargetMl, vaWithinPublished } = reduceRun(withVa);
    const off = Math.abs(vaOffTargetMl);
    const where =
      Math.round(off) === 0 ? 'on target' : `${millilitres(off)} mL ${vaOffTargetMl > 0 ? 'high' : 'low'}`;
    const limitMl = millilitres(withVa.limits.vaToleranceL * 1000);
    lines.push(
      `Simulated VA comes to ${litres(simulatedVaL)} L: ${where}, ${vaWithinPublished ? 'inside' : 'outside'} the published ${limitMl} mL.`,
    );
  }
  const withDlco = draft.dlco.trim() === '' ? null : readWith(['dlco'], draft, surroundings);
  if (withDlco) {
    const { limits, reading } = withDlco;
    const isBelow = isDlcoWithinPublished(reading.dlco, reading.dlcoUnit, limits);
    lines.push(
      `DLCO ${dlcoTyped(reading.dlco, reading.dlcoUnit)} ${reading.dlcoUnit} is ${isBelow ? 'below' : 'not below'} the published ${plain(publishedDlcoLimit(reading.dlcoUnit, limits))}.`,
    );
  }
  return lines;
}
