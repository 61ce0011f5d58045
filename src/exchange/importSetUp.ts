/** What of a row describes the equipment: from the file, from a person, or from the descriptions in the logbook. */
import type { Conversion, PublishedLimits } from '../core/index.ts';
import { withoutBinaryNoise } from '../journal/binaryNoise.ts';
import type { AnalyzerDescription, Attachment, RunContent, SyringeDescription } from '../journal/entries.ts';
import { type CellReader, type Or, typedNumber, unread } from './importCells.ts';
import { undefused } from './importOwn.ts';
import type { ImportConstants } from './importPlan.ts';

export function readConversion(
  cells: CellReader,
  constants: ImportConstants,
  analyzer: AnalyzerDescription,
  vaReportedAs: string,
): Or<Conversion> {
  const inFile =
    cells.text('conversion') === '' ? '' : cells.word('conversion', ['computed', 'fixed'], '', null);
  if (inFile === unread) return unread;
  if (inFile === 'computed') {
    const assumed = cells.word('assumed', ['ATPD', 'ATPS'], '', null);
    return assumed === unread ? unread : { kind: 'computed', assumed };
  }
  if (inFile === 'fixed') {
    // The factor in the file is the one used: only for a VA in BTPS is that the fixed one.
    if (vaReportedAs !== 'BTPS' && analyzer.conversion.kind === 'fixed') return analyzer.conversion;
    const factor = cells.described('fixedFactor');
    if (factor === undefined) return cells.refuse('The fixed factor is missing.');
    return factor === unread ? unread : { kind: 'fixed', factor };
  }
  switch (constants.conversion) {
    case 'ATPD':
    case 'ATPS':
      return { kind: 'computed', assumed: constants.conversion };
    case 'fixed': {
      const factor = typedNumber(constants.fixedFactor);
      if (factor >= 0.5 && factor <= 1.5) return { kind: 'fixed', factor };
      return cells.refuse('The fixed factor chosen for the file does not lie between 0.5 and 1.5.');
    }
    default:
      return analyzer.conversion;
  }
}

export function readSyringe(
  cells: CellReader,
  constants: ImportConstants,
  analyzer: AnalyzerDescription,
  syringe: SyringeDescription,
  attached: readonly Attachment[] | undefined,
): Or<RunContent['syringe']> {
  const inside = cells.described('volumeInside');
  const stroke = cells.described('stroke');
  const dead = cells.described('syringeDeadSpace');
  const typedDead = typedMillilitres(cells, constants.syringeDeadSpace, 'syringe’s dead space');
  if (inside === unread || stroke === unread || dead === unread || typedDead === unread) return unread;
  const volumeInsideL = inside ?? analyzer.volumeInsideL;
  return {
    strokeL: stroke ?? syringe.volumeL - volumeInsideL,
    volumeInsideL,
    deadSpaceL: dead ?? typedDead ?? withoutBinaryNoise(syringe.deadSpaceL + volumeOf(attached)),
  };
}

const volumeOf = (attached: readonly Attachment[] = []) =>
  attached.reduce((sum, { volumeL }) => sum + volumeL, 0);

/** A constant that a person typed in millilitres, in litres; undefined where nothing was typed. */
export function typedMillilitres(cells: CellReader, typed: string, name: string): Or<number> | undefined {
  if (typed.trim() === '') return undefined;
  const litres = typedNumber(typed) / 1000;
  if (litres >= 0 && litres <= 1) return litres;
  return cells.refuse(`The ${name} chosen for the file does not lie between 0 and 1000 mL.`);
}

/**
 * What the file says of those of the day, as an edition that is known here where it is one; else those in force here. An
 * export of an earlier release does not say how far volume check and breath-hold time may lie: these are then those in force here.
 */
export function readLimits(
  cells: CellReader,
  inForce: PublishedLimits,
  known: readonly PublishedLimits[],
): Or<PublishedLimits> {
  const edition = undefused(cells.text('limitsEdition'));
  if (edition === '' || edition.length > 120) return inForce;
  const vaToleranceL = cells.described('limitVa');
  const dlcoMlMinMmHg = cells.described('limitDlcoMl');
  const dlcoMmolMinKPa = cells.described('limitDlcoMmol');
  const volumeCheck = cells.described('limitVolumeCheck');
  const target = cells.described('limitHoldTarget');
  const tolerance = cells.described('limitHoldTolerance');
  if (vaToleranceL === unread || dlcoMlMinMmHg === unread || dlcoMmolMinKPa === unread) return unread;
  if (volumeCheck === unread || target === unread || tolerance === unread) return unread;
  if (vaToleranceL === undefined || dlcoMlMinMmHg === undefined || dlcoMmolMinKPa === undefined)
    return inForce;
  const sourceInFile = undefused(cells.text('limitsSource')).slice(0, longestSource);
  const isSaid = (limits: PublishedLimits) =>
    limits.edition === edition &&
    limits.vaToleranceL === vaToleranceL &&
    limits.dlcoMlMinMmHg === dlcoMlMinMmHg &&
    limits.dlcoMmolMinKPa === dlcoMmolMinKPa &&
    (volumeCheck ?? limits.volumeCheckFraction) === limits.volumeCheckFraction &&
    (target ?? limits.breathHoldS.target) === limits.breathHoldS.target &&
    (tolerance ?? limits.breathHoldS.tolerance) === limits.breathHoldS.tolerance &&
    (sourceInFile === '' || sourceInFile === limits.source);
  return (
    [inForce, ...known].find(isSaid) ?? {
      edition,
      source: sourceInFile === '' ? `${edition}, as imported` : sourceInFile,
      vaToleranceL,
      dlcoMlMinMmHg,
      dlcoMmolMinKPa,
      volumeCheckFraction: volumeCheck ?? inForce.volumeCheckFraction,
      breathHoldS: {
        target: target ?? inForce.breathHoldS.target,
        tolerance: tolerance ?? inForce.breathHoldS.tolerance,
      },
    }
  );
}

const longestSource = 300;
