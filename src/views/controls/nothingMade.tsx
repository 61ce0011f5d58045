import type { ListedKind } from './buildControlList.ts';
import { WaysOn } from './waysOn.tsx';

const willStand: Record<ListedKind, string> = {
  'biological-control':
    'Here will stand the control chart of a person’s tests on this analyzer, with the published limits from the seventh test on.',
  simulator: 'Here will stand a control chart for each level, of how far the analyzer read from the target.',
  'volume-check': 'Here will stand how far each flow read from the syringe, over time.',
  linearity: 'Here will stand how far each gas analyzer read from known dilutions, over time.',
};

/** The page of a series that has nothing yet: what will stand there, and the one next step. */
export function NothingMade({
  analyzerId,
  heading,
  kind,
}: {
  analyzerId: string;
  heading: string;
  kind: ListedKind;
}) {
  return (
    <div className="stack">
      <h1>{heading}</h1>
      <p>Nothing of this kind is in the logbook yet. {willStand[kind]}</p>
      <WaysOn analyzerId={analyzerId} kind={kind} />
    </div>
  );
}
