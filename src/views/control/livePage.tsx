import { VerdictMark } from '../parts/verdictMark.tsx';
import { VerdictSoFar } from '../parts/verdictSoFar.tsx';
import type { ControlField } from './controlDraft.ts';
import { ControlVerdict } from './controlVerdict.tsx';
import { EarlierControls } from './earlierControls.tsx';
import { SameDayRuns } from './sameDayRuns.tsx';
import type { ControlForm } from './useControlForm.ts';

/** The right page while a control is typed: its verdict as far as it can be told, and those before it. */
export function LivePage({ form }: { form: ControlForm }) {
  const { assessment, reading } = form;
  const { control } = reading;
  return (
    <div className="stack stack--loose">
      <section
        aria-label="Verdict while typing"
        className="stack"
        data-state={assessment === null ? 'waiting' : 'live'}
      >
        {assessment === null || control === null ? (
          <Waiting form={form} />
        ) : (
          <>
            <p className="quiet">Not recorded yet</p>
            <ControlVerdict assessment={assessment} control={control} logged={undefined} />
          </>
        )}
        <VerdictSoFar word={assessment?.verdict.word} />
      </section>
      {control?.kind === 'biological' && assessment !== null && !('levels' in assessment) ? (
        <SameDayRuns assessment={assessment} control={control} />
      ) : null}
      <EarlierControls of={form.draft} />
    </div>
  );
}

const waitingFor: readonly [ControlField, string][] = [
  ['subjectId', 'the subject'],
  ['dlco', 'DLCO'],
  ['va', 'VA'],
  ['low', 'a level'],
  ['low.target', 'the low target'],
  ['low.dlco', 'DLCO of the low level'],
  ['high.target', 'the high target'],
  ['high.dlco', 'DLCO of the high level'],
];

function Waiting({ form: { reading, showsTrouble } }: { form: ControlForm }) {
  const wanted = waitingFor
    .filter(([field]) => reading.missing[field] !== undefined)
    .map(([, words]) => words);
  const isWrong = (Object.keys(reading.errors) as ControlField[]).some(showsTrouble);
  return (
    <>
      <p className="control-waiting quiet">
        <VerdictMark shape="establishing" size={28} /> No verdict yet
      </p>
      <p className="quiet">
        {isWrong
          ? 'A value in the form cannot be right; the message stands beside it.'
          : wanted.length > 0
            ? `Still to come: ${wanted.join(', ')}. The verdict appears here while you type.`
            : 'The verdict appears here when the values are typed to their end.'}
      </p>
    </>
  );
}
