/** What an analyzer's gases are called, and how much of each is usual in a cylinder. Pure. */
import { withoutBinaryNoise } from '../journal/binaryNoise.ts';
import type { AnalyzerDescription, CylinderDescription, Gas, GasAnalysis } from '../journal/entries.ts';
import { gasFormulas, gasWords } from './gasNames.ts';
import { plain } from './parts/figures.ts';

export type Tracer = NonNullable<AnalyzerDescription['tracer']>;

export const tracerWords: Record<Tracer, string> = {
  CH4: gasWords.CH4,
  He: gasWords.He,
  Ne: gasWords.Ne,
};

export const gasAnalysisWords: Record<GasAnalysis, string> = {
  continuous: 'Continuous, all along the breath',
  'sample-bag': 'With a sample bag',
};

/** In %. Common practice, no source (recalled): beyond these a slip of the decimal mark is likelier than the gas. */
export const usualPercent: Partial<Record<Gas, { lowest: number; highest: number; usual: number }>> = {
  CO: { lowest: 0.1, highest: 0.5, usual: 0.3 },
  CH4: { lowest: 0.1, highest: 0.5, usual: 0.3 },
  He: { lowest: 2, highest: 20, usual: 10 },
  Ne: { lowest: 0.2, highest: 1, usual: 0.5 },
  C2H2: { lowest: 0.1, highest: 1, usual: 0.3 },
  O2: { lowest: 10, highest: 25, usual: 21 },
};

/** 0.003 · 100 is 0.3, but 0.07 · 100 is 7.000000000000001. */
export const percentOf = (fraction: number) => withoutBinaryNoise(fraction * 100);

/** `CO 0.3 %, CH₄ 0.3 %`: by formula, where the names would be too long. */
export const contentsInShort = ({ contents }: Pick<CylinderDescription, 'contents'>) =>
  contents.map(({ gas, fraction }) => `${gasFormulas[gas]} ${plain(percentOf(fraction))} %`).join(', ');

/** What the contents leave of the whole, in %. */
export const balancePercent = ({ contents }: Pick<CylinderDescription, 'contents'>) =>
  withoutBinaryNoise(100 - contents.reduce((sum, { fraction }) => sum + fraction * 100, 0));

const tracers = Object.keys(tracerWords);

/** The gases in a cylinder that can serve as a tracer. */
export const tracersIn = ({ contents }: Pick<CylinderDescription, 'contents'>) =>
  contents.map(({ gas }) => gas).filter((gas) => tracers.includes(gas));
