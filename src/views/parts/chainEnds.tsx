import type { ChainSummary } from '../../journal/chain.ts';
import { FigureList } from './figureList.tsx';

/** Each workstation's chain by its last entry, to compare with what was noted elsewhere. */
export function ChainEnds({ chains }: { chains: readonly ChainSummary[] }) {
  return chains.map(({ workstation, count, headSeq, headHash }) => (
    <FigureList
      key={workstation}
      rows={[
        { name: 'Workstation', value: <span className="hash">{workstation}</span> },
        { name: 'Entries', value: `${count}, the last is number ${headSeq}` },
        { name: 'Head hash', value: <span className="hash">{headHash}</span> },
      ]}
    />
  ));
}
