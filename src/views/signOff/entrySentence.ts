/** What one entry did, as a line of the worklist. Pure. */
import type { Entry } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { civilDay, counted, dayAndTime } from '../parts/figures.ts';
import { eventWords, quantityWords, roleWords, routeWords, verdictWords } from '../parts/words.ts';
import { checkWords, outcomeWords } from '../scheduleWords.ts';

type Named = Pick<
  Logbook,
  'analyzers' | 'syringes' | 'cylinders' | 'technologists' | 'runs' | 'checks' | 'subjects' | 'controls'
>;

const subjectStateWords = {
  active: 'is tested again',
  paused: 'pauses',
  excluded: 'counts no more',
} as const;

export function entrySentence(entry: Entry, named: Named): string {
  const from = (instant: string) => dayAndTime(instant, entry.zone);
  const labelOf = (things: ReadonlyMap<string, { description: { label: string } }>, id: string | null) =>
    things.get(id ?? '')?.description.label ?? 'unknown';
  const initials = (id: string | null) => named.technologists.get(id ?? '')?.initials ?? 'somebody unknown';
  const runOf = (id: string) => {
    const run = named.runs.find((one) => one.id === id);
    return run ? `the run of ${dayAndTime(run.body.madeAt, run.entry.zone)}` : 'a run that is not here';
  };
  const codeOf = (id: string) => named.subjects.get(id)?.description.code ?? 'unknown';
  const controlOf = (id: string) => {
    const found = named.controls.find((one) => one.id === id);
    if (!found) return 'a control that is not here';
    const { control, entry: recorded } = found;
    const of =
      control.kind === 'biological' ? `test of subject ${codeOf(control.subjectId)}` : 'simulator session';
    return `the ${of} of ${dayAndTime(control.madeAt, recorded.zone)}`;
  };
  const failures = (closed: readonly { quantity: 'va' | 'dlco'; route: 'patient-test' | 'built-in' }[]) =>
    closed
      .map(({ quantity, route }) => `${quantityWords[quantity]}, ${routeWords[route].toLowerCase()}`)
      .join('; ');
  switch (entry.kind) {
    case 'run-recorded':
      return `Recorded ${runOf(entry.body.runId)}`;
    case 'run-amended':
      return `Amended ${runOf(entry.body.runId)}: ${entry.body.reason}`;
    case 'run-voided':
      return `Voided ${runOf(entry.body.runId)}: ${entry.body.reason}`;
    case 'run-set-aside':
      return `${entry.body.isSetAside ? 'Set aside' : 'Took back in'} ${runOf(entry.body.runId)}: ${entry.body.reason}`;
    case 'runs-imported':
      return `Imported ${counted(entry.body.accepted, 'run')} from ${entry.body.fileName}`;
    case 'import-voided':
      return `Voided an import and all its runs: ${entry.body.reason}`;
    case 'event-recorded':
      return `${eventWords[entry.body.type]}, ${from(entry.body.happenedAt)}: ${entry.body.description}`;
    case 'service-set':
      return `${entry.body.inService ? 'Put back in service' : 'Taken out of service'} from ${from(entry.body.from)}: ${entry.body.reason}`;
    case 'cylinder-fitted':
      return entry.body.cylinderId === null
        ? `Cylinder taken off, ${from(entry.body.fittedAt)}`
        : `Cylinder fitted, ${from(entry.body.fittedAt)}: ${labelOf(named.cylinders, entry.body.cylinderId)}`;
    case 'baseline-started':
      return `New baseline from ${from(entry.body.from)}: ${entry.body.reason}`;
    case 'baseline-accepted':
      return `Baseline of ${counted(entry.body.runIds.length, 'run')} accepted (${failures([entry.body.series])}): ${entry.body.reason}`;
    case 'action-taken':
      return `Done about ${failures(entry.body.failures)}, ${from(entry.body.doneAt)}: ${entry.body.what}`;
    case 'look-back-reviewed':
      return `Look-back of ${failures(entry.body.failures)} reviewed by ${initials(entry.body.reviewerId)}, from ${from(entry.body.from)} to ${from(entry.body.to)}`;
    case 'failure-closed':
      return `Closed ${failures(entry.body.failures)}: ${entry.body.reason}`;
    case 'check-done':
      return `${checkWords[entry.body.check]} ${outcomeWords[entry.body.outcome]}, ${from(entry.body.doneAt)}${entry.body.note === '' ? '' : `: ${entry.body.note}`}`;
    case 'check-voided': {
      const check = named.checks.find(({ id }) => id === entry.body.checkId);
      const name = check ? checkWords[check.entry.body.check] : 'A check that is not here';
      return `${name} voided: ${entry.body.reason}`;
    }
    case 'policy-set':
      return `Control policy set from ${from(entry.body.from)}: ${entry.body.reason}`;
    case 'limits-adopted':
      return `Published limits “${entry.body.limits.edition}” adopted from ${from(entry.body.from)}: ${entry.body.reason}`;
    case 'schedule-set':
      return `Schedule of ${checkWords[entry.body.check]} set: ${entry.body.reason}`;
    case 'laboratory-described':
      return `Laboratory described: ${entry.body.reason}`;
    case 'closing-rules-set':
      return `What a closure needs was set: ${entry.body.reason}`;
    case 'analyzer-added':
      return `Analyzer ${entry.body.label} added`;
    case 'analyzer-changed':
      return `Analyzer ${entry.body.label} changed: ${entry.body.reason}`;
    case 'analyzer-retired':
      return `Analyzer ${labelOf(named.analyzers, entry.body.analyzerId)} retired: ${entry.body.reason}`;
    case 'syringe-added':
      return `Syringe ${entry.body.label} added`;
    case 'syringe-changed':
      return `Syringe ${entry.body.label} changed: ${entry.body.reason}`;
    case 'syringe-retired':
      return `Syringe ${labelOf(named.syringes, entry.body.syringeId)} retired: ${entry.body.reason}`;
    case 'syringe-dropped':
      return `Syringe ${labelOf(named.syringes, entry.body.syringeId)} dropped, ${from(entry.body.droppedAt)}: ${entry.body.description}`;
    case 'cylinder-added':
      return `Cylinder ${entry.body.label} added`;
    case 'cylinder-changed':
      return `Cylinder ${entry.body.label} changed: ${entry.body.reason}`;
    case 'cylinder-retired':
      return `Cylinder ${labelOf(named.cylinders, entry.body.cylinderId)} retired: ${entry.body.reason}`;
    case 'technologist-added':
      return `${roleWords[entry.body.role]} ${entry.body.initials}, ${entry.body.name}, added`;
    case 'technologist-changed':
      return `${entry.body.initials}, ${entry.body.name}, changed: ${entry.body.reason}`;
    case 'technologist-retired':
      return `${initials(entry.body.technologistId)} retired: ${entry.body.reason}`;
    case 'key-registered':
      return `Passphrase of ${initials(entry.body.technologistId)} registered${entry.body.reason === '' ? '' : `: ${entry.body.reason}`}`;
    case 'period-signed':
      return `Signed off, ${civilDay(entry.body.from)} to ${civilDay(entry.body.to)}`;
    case 'subject-added':
      return `Subject ${entry.body.code} added`;
    case 'subject-changed':
      return `Subject ${entry.body.code} changed: ${entry.body.reason}`;
    case 'subject-retired':
      return `Subject ${codeOf(entry.body.subjectId)} has left: ${entry.body.reason}`;
    case 'subject-state-set':
      return `Subject ${codeOf(entry.body.subjectId)} ${subjectStateWords[entry.body.state]} from ${from(entry.body.from)}: ${entry.body.reason}`;
    case 'control-recorded':
      return `Recorded ${controlOf(entry.body.controlId)}: ${verdictWords[entry.body.judged.word].toLowerCase()}`;
    case 'control-amended':
      return `Amended ${controlOf(entry.body.controlId)}: ${entry.body.reason}`;
    case 'control-voided':
      return `Voided ${controlOf(entry.body.controlId)}: ${entry.body.reason}`;
    case 'control-set-aside':
      return `${entry.body.isSetAside ? 'Set aside' : 'Took back in'} ${controlOf(entry.body.controlId)}: ${entry.body.reason}`;
    case 'control-closed':
      return `Closed ${counted(entry.body.failures.length, 'failure', 'failures')} of controls: ${entry.body.cause}`;
    case 'check-limits-adopted':
      return `Limits of the other checks “${entry.body.limits.edition}” adopted from ${from(entry.body.from)}: ${entry.body.reason}`;
    case 'gap-explained':
      return `${checkWords[entry.body.check]} not made from ${civilDay(entry.body.from)} to ${civilDay(entry.body.to)}: ${entry.body.reason}`;
    case 'entries-lost':
      return `${counted(entry.body.known.count - entry.body.found, 'entry was', 'entries were')} lost from the browser`;
    default:
      return entry satisfies never;
  }
}
