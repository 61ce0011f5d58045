import { useState } from 'react';
import { useLocation } from 'wouter';
import { checkLimitsAt } from '../controlAssessments.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField, choicesOf, IfKnown, InputField, TextAreaField } from '../parts/field.tsx';
import { localZone } from '../parts/localTime.ts';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { useNow } from '../parts/useNow.ts';
import { useSave } from '../parts/useSave.ts';
import { useWriter } from '../parts/useWriter.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import { type AskedCheck, backFrom } from './checkAddress.ts';
import { type CheckDraft, holdsUntil, newCheckDraft, type Outcome } from './checkDraft.ts';
import { checkText } from './checkTexts.ts';
import { FigureFields } from './figureFields.tsx';
import { noteCheck, recordTick, writeCertifiedVolume } from './makeCheckEntries.ts';
import { readCheck } from './readCheck.ts';

const outcomes = choicesOf<Outcome>({
  passed: 'Passed',
  failed: 'Failed',
  noted: 'Noted, without a judgement',
});

/** Notes that a check was done, by whom, when, with what figures and how it came out. */
export function CheckForm({ asked }: { asked: AskedCheck }) {
  const { check, about } = asked;
  const { logbook } = useLogbook();
  const now = useNow(logbook);
  const [, goTo] = useLocation();
  const [draft, setDraft] = useState<CheckDraft>(() => newCheckDraft(logbook, about.analyzerId, Date.now()));
  const [tried, setTried] = useState(false);
  const { saving, save } = useSave();
  const { id: by, canWrite } = useWriter();
  const syringe = logbook.syringes.get(about.syringeId ?? '');
  const { errors, figures, isJudged, limits, content } = readCheck(draft, {
    check,
    nominalL: syringe?.description.volumeL ?? Number.NaN,
    limitsAt: (instant) => checkLimitsAt(logbook, instant),
    now,
    zone: localZone(),
  });
  const tick = recordTick(
    check === 'syringe-calibration' ? syringe : undefined,
    figures.of === 'syringe' ? figures.measuredL : undefined,
    figures.of === 'syringe' && figures.judged?.within === true,
    draft.syringe.writesRecord,
  );
  const change = (changed: Partial<CheckDraft>) => setDraft({ ...draft, ...changed });
  const shown = <T,>(error: T) => (tried ? error : undefined);

  const submit = async (): Promise<Submission> => {
    setTried(true);
    if (content === null || !canWrite) return 'stopped';
    const written = await save([draft, by], () => [
      noteCheck(asked, content, by),
      ...(tick.isTicked && syringe && content.syringe
        ? [writeCertifiedVolume(syringe, content.syringe, by)]
        : []),
    ]);
    if (written) goTo(backFrom(asked));
    return 'tried';
  };

  return (
    <RecordForm onSubmit={submit} opens={false} title="Note that it was done">
      <InputField
        error={shown(errors.doneAt)}
        label="When"
        onText={(doneAt) => change({ doneAt })}
        type="datetime-local"
        value={draft.doneAt}
      />
      <FigureFields
        asked={asked}
        draft={draft}
        figures={figures}
        limits={limits}
        onChange={change}
        onRecord={
          tick.isOffered ? { isTicked: tick.isTicked, stands: syringe?.description.certifiedVolumeL } : null
        }
        tried={tried}
      />
      {isJudged ? null : (
        <ChoiceField
          choices={outcomes}
          error={shown(errors.outcome)}
          hint={
            figures.of === 'none' || check === 'syringe-leak'
              ? undefined
              : 'Chosen by itself once figures are typed.'
          }
          label="How it came out"
          onChoice={(outcome) => change({ outcome })}
          value={draft.outcome}
        />
      )}
      {holdsUntil(check) ? (
        <InputField
          error={shown(errors.validUntil)}
          hint="The last day named on the certificate: it is due then, and not by the usual interval."
          label={<IfKnown>Holds until</IfKnown>}
          onText={(validUntil) => change({ validUntil })}
          type="date"
          value={draft.validUntil}
        />
      ) : null}
      <TextAreaField
        error={shown(errors.note)}
        hint={checkText(check, limits).note}
        label="Note"
        onText={(note) => change({ note })}
        rows={3}
        value={draft.note}
      />
      <WrittenBy tried={tried} />
      <SaveLine action="Note this check" onCancel={() => goTo(backFrom(asked))} saving={saving} />
    </RecordForm>
  );
}
