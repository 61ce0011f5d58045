/** The columns of how a run came out: its own limits on the day, its verdict, and what became of it since. */
import type { Judgement } from '../journal/entries.ts';
import { computed, type RunRow, text, truth, type WrittenColumn, whole } from './columnKinds.ts';
import { oneOf } from './columns.ts';
import { amendedColumns, setAsideColumns, verdictWords, voidedColumns } from './standingColumns.ts';

const body = ({ run }: RunRow) => run.body;
const signalNames = (judged: Judgement['va'] | undefined) =>
  judged?.signals.map(({ rule }) => rule).join(' ');

/** What the run's own limits of one quantity were on the day. */
function ownLimits(quantity: 'va' | 'dlco', label: string, suffix: string, unit: string): WrittenColumn[] {
  const judged = ({ run }: RunRow) => run.body.judged?.[quantity];
  return [
    computed(
      `${quantity}_judged_${suffix}`,
      unit,
      `${label[0]?.toUpperCase()}${label.slice(1)} that was judged on the day, before any amendment`,
      (row) => judged(row)?.value,
    ),
    whole(
      `${quantity}_n`,
      `Accepted runs that mean and SD of ${label} rested on, on the day`,
      (row) => judged(row)?.n,
    ),
    computed(
      `${quantity}_mean_${suffix}`,
      unit,
      `Mean of ${label} in force on the day; empty while too few runs`,
      (row) => judged(row)?.mean,
    ),
    computed(
      `${quantity}_sd_${suffix}`,
      unit,
      `Sample SD of ${label} in force on the day`,
      (row) => judged(row)?.sd,
    ),
    computed(`${quantity}_z`, 'SD', `Distance of ${label} from the mean on the day`, (row) => judged(row)?.z),
    text(`${quantity}_signals`, `Control rules that fired on ${label} on the day, parted by a space`, (row) =>
      signalNames(judged(row)),
    ),
  ];
}

export const verdictColumns: readonly WrittenColumn[] = [
  ...ownLimits('va', 'simulated VA', 'l', 'L'),
  ...ownLimits('dlco', 'DLCO', 'ml_min_mmhg', 'mL/min/mmHg'),

  text(
    'verdict',
    'pass, warn or fail, as the technologist saw it on the day; empty for an imported run',
    (row) => body(row).judged?.word,
    oneOf(verdictWords),
  ),
  truth('establishing', 'true while VA or DLCO had no own limits', (row) => body(row).judged?.establishing),
  truth(
    'failure_open',
    'true when a failure of VA or DLCO was open, from the run that opened it on',
    (row) => body(row).judged?.failureOpen,
  ),
  text(
    'verdict_recomputed',
    'The verdict as it comes out of the journal now; empty for a voided run, which is not judged',
    ({ run, assessment }) => (run.voided === null ? assessment?.verdict.word : undefined),
    oneOf(verdictWords),
  ),
  text('comment', 'Comment of the technologist', (row) => body(row).comment),
  ...amendedColumns<RunRow>(({ run }) => run),
  ...voidedColumns<RunRow>(({ run }) => run),
  ...setAsideColumns<RunRow>(({ run }) => run),
];
