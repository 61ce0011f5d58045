/** What a shared day says, in words: its line in the list, the sentence of each quantity, and each row of the table. */
import { normalTail, type Quantity } from '../../core/index.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { fittingAt } from '../../journal/standing.ts';
import { initialsIn } from '../amendments.ts';
import { counted, plain, signedDlco, signedMillilitres, temperature, zOnChart } from '../parts/figures.ts';
import { quantityWords, routeWords } from '../parts/words.ts';
import { runHref } from '../routes.ts';
import type { SharedDay } from './sharedDays.ts';
import { hasMoved, type SplitQuantity, type SplitRow } from './splitDay.ts';

export const labelOf = (logbook: Pick<Logbook, 'analyzers'>, analyzerId: string) =>
  logbook.analyzers.get(analyzerId)?.description.label ?? 'Unknown analyzer';

export const syringeOf = (logbook: Pick<Logbook, 'syringes'>, syringeId: string) =>
  logbook.syringes.get(syringeId)?.description.label ?? 'Unknown syringe';

/** `VA: moved together; DLCO: one moved by itself`; empty where nothing did that is worth a look back. */
export function dayInShort(split: readonly SplitQuantity[]): string {
  return split
    .flatMap((each) => {
      const words = inShort(each);
      return words === '' ? [] : [`${quantityWords[each.quantity]}: ${words}`];
    })
    .join('; ');
}

/** Beyond this many SD one analyzer's own shift is more than what chance brings among several every few days. */
const beyondChanceSd = 3;

const ownSdOf = ({ split }: SplitRow) => Math.abs(split?.ownSd ?? 0);

function inShort({ kind, rows }: SplitQuantity): string {
  switch (kind) {
    case 'common':
      return 'moved together';
    case 'untold':
      return 'moved, cannot be split';
    case 'own': {
      const alone = rows.filter((row) => ownSdOf(row) > beyondChanceSd).length;
      if (alone === 0) return '';
      return alone === 1 ? 'one moved by itself' : `${alone} moved by themselves`;
    }
    case 'parts':
    case 'neither':
    case 'unjudged':
      return '';
  }
}

/** What the shift of one quantity says. */
export function sentenceOf({ quantity, unit, rows, kind }: SplitQuantity, logbook: Logbook): string {
  const name = quantityWords[quantity];
  const judged = rows.filter(({ z }) => z !== null);
  const alone = rows.filter(({ split }) => split?.kind === 'own' || split?.kind === 'both');
  const named = alone.map(
    ({ analyzerId, split }) => `${labelOf(logbook, analyzerId)} (${inSd(split?.ownSd ?? 0)})`,
  );
  switch (kind) {
    case 'common': {
      const commonSd = rows.find(({ split }) => split !== undefined)?.split?.commonSd ?? 0;
      const sizes = judged.map(({ perSd }) => commonSd * (perSd ?? 0));
      const besides = named.length === 0 ? '' : ` Besides, by themselves: ${named.join(', ')}.`;
      return `${name}: the ${judged.length} analyzers have a shift of ${inSd(commonSd)} in common, ${span(sizes, unit)}. It points to what they share: the syringe, the operator, the room or the gas, not the analyzers.${besides}`;
    }
    case 'own': {
      const [itself, that] =
        named.length === 1 ? ['itself', 'that analyzer'] : ['themselves', 'those analyzers'];
      const points = `It points to ${that}.`;
      const chance = alone.every((row) => ownSdOf(row) <= beyondChanceSd)
        ? ` ${chanceSentence(judged.length)}`
        : '';
      return `${name}: ${named.join(' and ')} moved by ${itself}, the others with the same syringe did not. ${points}${chance}`;
    }
    case 'parts': {
      const moved = judged
        .filter(hasMoved)
        .map(({ analyzerId, z }) => `${labelOf(logbook, analyzerId)} (${inSd(z ?? 0)})`);
      return `${name}: ${moved.join(' and ')} moved, in part with the others and in part alone; neither part lies beyond 2 SD.`;
    }
    case 'untold':
      return `${name} moved beyond 2 SD, but two analyzers do not tell whose shift it is: run a third with this syringe.`;
    case 'neither':
      return `${name}: neither a common shift nor one of a single analyzer beyond 2 SD.`;
    case 'unjudged':
      return `${name}: fewer than two of the analyzers had own limits on that day, so nothing can be split.`;
  }
}

/** By the normal tail; the analyzers taken to be independent of each other. */
function chanceSentence(analyzers: number): string {
  const ofOneDay = 1 - (1 - 2 * normalTail(2)) ** analyzers;
  return `By chance alone one of ${analyzers} analyzers lies beyond 2 SD on about one day in ${Math.round(1 / ofOneDay)}.`;
}

const inSd = (sd: number) => `${zOnChart(sd)} SD`;

/** A common shift in SD is another one in mL on each analyzer. */
function span(sizes: readonly number[], unit: SplitQuantity['unit']): string {
  const written = [Math.min(...sizes), Math.max(...sizes)].map((size) => signedSize(size, unit));
  const [least, most] = written;
  return least === most ? `${least} ${unit}` : `${least} to ${most} ${unit}`;
}

export const signedSize = (size: number, unit: SplitQuantity['unit']) =>
  unit === 'mL' ? signedMillilitres(size) : signedDlco(size, unit);

export interface RowCells {
  analyzerId: string;
  analyzer: string;
  route: string;
  href: string;
  /** `2 more runs that day`; empty for none. */
  more: string;
  off: string;
  z: string;
  common: string;
  own: string;
  says: string;
}

export function rowCells(
  { quantity, unit, rows }: { quantity: Quantity } & Pick<SplitQuantity, 'unit' | 'rows'>,
  day: SharedDay,
  logbook: Logbook,
): readonly RowCells[] {
  const judged = rows.filter(({ z }) => z !== null).length;
  return rows.map((row) => {
    const { analyzerId, run, z, perSd, split } = row;
    const size = (sd: number) => (perSd === null ? '' : `${zOnChart(sd)} (${signedSize(sd * perSd, unit)})`);
    const more = (day.analyzers.get(analyzerId)?.length ?? 1) - 1;
    return {
      analyzerId,
      analyzer: labelOf(logbook, analyzerId),
      route: routeWords[run.body.route],
      href: runHref(run.id),
      more: more === 0 ? '' : `${more} more that day`,
      off: z === null || perSd === null ? '–' : signedSize(z * perSd, unit),
      z: z === null ? '–' : zOnChart(z),
      common: split === undefined ? '–' : size(split.commonSd),
      own: split === undefined ? '–' : size(split.ownSd),
      says: saysOf(row, judged, quantity),
    };
  });
}

function saysOf(row: SplitRow, judged: number, quantity: Quantity): string {
  const { z, split } = row;
  if (z === null) return `No own ${quantityWords[quantity]} limits on that day`;
  switch (split?.kind) {
    case 'common':
      return 'Moved with the others';
    case 'own':
      return 'Moved by itself';
    case 'both':
      return split.ownSd * split.commonSd > 0
        ? 'Moved with the others, and further by itself'
        : 'A shift of its own against that of the others';
    case 'neither':
      return hasMoved(row) ? 'Moved, in part with the others' : 'Did not move';
    case undefined:
      if (!hasMoved(row)) return 'Did not move';
      return judged < 2 ? 'No other to compare with' : 'Cannot be told from two analyzers';
  }
}

/** What the analyzers shared on the day, besides the syringe; a sentence for each that can be the cause. */
export function whatTheyShare(
  { analyzers }: SharedDay,
  logbook: Logbook,
): readonly { name: string; value: string }[] {
  const runs = [...analyzers.values()].flat();
  return [
    {
      name: 'Operator',
      value: tally(runs, ({ body }) => initialsIn(logbook.technologists, body.technologistId)),
    },
    {
      name: 'Room',
      value: tally(
        runs,
        ({ body: { ambient, pressureAsTyped } }) =>
          `${temperature(ambient.temperatureC)} °C, ${plain(pressureAsTyped.value)} ${pressureAsTyped.unit}`,
      ),
    },
    { name: 'Gas', value: tally(runs, (run) => cylinderOf(run, logbook)) },
  ];
}

function cylinderOf({ body }: LoggedRun, logbook: Logbook): string {
  const fitting = fittingAt(logbook, body.analyzerId, body.madeAt);
  const id = fitting?.body.cylinderId ?? null;
  const cylinder = id === null ? undefined : logbook.cylinders.get(id);
  return cylinder?.description.label ?? 'cylinder not written down';
}

/** `AB for all 4 runs`, or `AB for 3 runs; CD for 1 run`. */
function tally(runs: readonly LoggedRun[], what: (run: LoggedRun) => string): string {
  const counts = new Map<string, number>();
  for (const run of runs) counts.set(what(run), (counts.get(what(run)) ?? 0) + 1);
  const [only] = counts.size === 1 ? counts.keys() : [];
  if (only !== undefined) return `${only}, for all ${runs.length} runs`;
  return [...counts].map(([value, count]) => `${value} (${counted(count, 'run')})`).join('; ');
}
