/** The comparison of technologists in words. */
import { counted, day, signedDlco, signedMillilitres } from '../parts/figures.ts';
import { fewestRuns, type Technique, type TechnologistPair } from './technologists.ts';

export interface PairCells {
  key: string;
  /** `AB less CD`. */
  names: string;
  difference: string;
  byItself: string;
  together: string;
  says: string;
}

type Unit = Technique['quantities'][number]['unit'];

export function pairCells(pairs: readonly TechnologistPair[], unit: Unit): readonly PairCells[] {
  const write = (value: number) => (unit === 'mL' ? signedMillilitres(value) : signedDlco(value, unit));
  return pairs.map(({ one, other, byItself, together }) => {
    const names = {
      key: `${one.technologistId} ${other.technologistId}`,
      names: `${one.initials} less ${other.initials}`,
    };
    if (byItself === undefined || together === undefined)
      return {
        ...names,
        difference: '–',
        byItself: '–',
        together: '–',
        says: 'All their readings are alike',
      };
    const interval = ({ lower, upper }: { lower: number; upper: number }) =>
      `${write(lower)} to ${write(upper)}`;
    const isShown = together.lower > 0 || together.upper < 0;
    return {
      ...names,
      difference: write(byItself.difference),
      byItself: interval(byItself),
      together: interval(together),
      says: isShown ? 'They read apart' : 'No difference is shown',
    };
  });
}

/** `AB 12 runs, CD 9 runs, since the newest baseline, from … to ….` */
export function whoSentence({ compared, from, to }: Technique): string {
  const named = compared.map(({ initials, runs }) => `${initials} ${counted(runs, 'run')}`).join(', ');
  return `Accepted runs since the newest baseline began, from ${day(from)} to ${day(to)}: ${named}.`;
}

/** Empty where nobody is left out. */
export function leftOutSentence({ leftOut }: Pick<Technique, 'leftOut'>): string {
  if (leftOut.length === 0) return '';
  const named = leftOut.map(({ initials, runs }) => `${initials} (${runs})`).join(', ');
  return `Left out, with fewer than ${fewestRuns} accepted runs: ${named}.`;
}

/** How the intervals are to be read. */
export function intervalSentence(pairs: number): string {
  const each = 'Each interval is Welch’s, by Student’s t: where it holds zero, no difference is shown.';
  if (pairs === 1) return `${each} There is one pair, so one interval.`;
  return `${each} There are ${pairs} pairs, and of so many intervals one may miss by chance: the second is widened so that all ${pairs} hold together at 95 % (Bonferroni), and the last column goes by it.`;
}
