import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Logbook } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField, choicesOf, IfKnown, InputField, TextAreaField } from '../parts/field.tsx';
import { inField } from '../parts/figures.ts';
import { localMinute, localZone } from '../parts/localTime.ts';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { useNow } from '../parts/useNow.ts';
import { useSave } from '../parts/useSave.ts';
import { useWriter } from '../parts/useWriter.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import { type AskedCheck, backFrom } from './checkAddress.ts';
import { checkText } from './checkTexts.ts';
import { type CheckDraft, holdsUntil, type Outcome, readCheck } from './readCheck.ts';
import { VolumeFields } from './volumeFields.tsx';

const outcomes = choicesOf<Outcome>({
  passed: 'Passed',
  failed: 'Failed',
  noted: 'Noted, without a judgement',
});

/** Notes that a check was done, by whom, when and how it came out. */
export function CheckForm({ asked }: { asked: AskedCheck }) {
  const { check, about, investigates } = asked;
  const { logbook } = useLogbook();
  const now = useNow(logbook);
  const [, goTo] = useLocation();
  const [draft, setDraft] = useState<CheckDraft>(() => ({
    doneAt: localMinute(Date.now()),
    outcome: '',
    readings: ['', '', ''],
    expected: usualVolume(logbook, about),
    validUntil: '',
    note: '',
  }));
  const [tried, setTried] = useState(false);
  const { saving, save } = useSave();
  const { id: by, canWrite } = useWriter();
  const { errors, content, judged } = readCheck(check, draft, now, localZone());
  const change = (changed: Partial<CheckDraft>) => setDraft({ ...draft, ...changed });
  const shown = <T,>(error: T) => (tried ? error : undefined);

  const submit = async (): Promise<Submission> => {
    setTried(true);
    if (content === null || !canWrite) return 'stopped';
    const body = { check, ...about, technologistId: by, ...content, investigates };
    const written = await save([draft, by], () => [
      {
        id: crypto.randomUUID(),
        by,
        kind: 'check-done',
        body: { checkId: crypto.randomUUID(), ...body },
      },
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
      {check === 'volume-check' ? (
        <VolumeFields draft={draft} errors={errors} judged={judged} onChange={change} tried={tried} />
      ) : null}
      {judged === null ? (
        <ChoiceField
          choices={outcomes}
          error={shown(errors.outcome)}
          hint={check === 'volume-check' ? 'Chosen by itself once a reading is typed.' : undefined}
          label="How it came out"
          onChoice={(outcome) => change({ outcome })}
          value={draft.outcome}
        />
      ) : null}
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
        hint={checkText(check).note}
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

/** What the analyzer's usual syringe holds, as a field takes it: as certified, where a certificate says. */
function usualVolume({ analyzers, syringes }: Logbook, { analyzerId }: AskedCheck['about']): string {
  const { syringeId = '' } = analyzers.get(analyzerId ?? '')?.description ?? {};
  const syringe = syringes.get(syringeId)?.description;
  return syringe === undefined ? '' : inField(syringe.certifiedVolumeL ?? syringe.volumeL);
}
