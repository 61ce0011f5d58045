import { useState } from 'react';
import { useLocation } from 'wouter';
import { signedHref } from '../deskRoutes.ts';
import { InputField, TextAreaField } from '../parts/field.tsx';
import { civilDay, counted } from '../parts/figures.ts';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { SigningFields } from '../parts/signing.tsx';
import { useSave } from '../parts/useSave.ts';
import { useSigning } from '../parts/useSigning.ts';
import { useWriter } from '../parts/useWriter.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import type { Worklist } from './buildWorklist.ts';
import { missingForSignOff, signOffBody } from './readSignOff.ts';
import type { SignOffInHand } from './useSignOff.ts';
import { Missing, OpenFailures, PageList } from './worklistParts.tsx';

/** The left page: the period, what is new in it, what was seen of it, and the signature. */
export function SignOffForm({
  inHand,
  chosen,
  onSigned,
}: {
  inHand: SignOffInHand;
  chosen: string | null;
  onSigned: (signOffId: string) => void;
}) {
  const [, goTo] = useLocation();
  const { id: by, canWrite } = useWriter('supervisor');
  const signing = useSigning(by, canWrite);
  const { saving, save } = useSave();
  const [tried, setTried] = useState(false);
  const { period, setPeriod, errors, worklist, draft, change } = inHand;
  const missing = worklist === null ? [] : missingForSignOff(worklist, draft);

  const submit = async (): Promise<Submission> => {
    setTried(true);
    const sign = signing.take();
    if (worklist === null || missing.length > 0 || sign === null) return 'stopped';
    const heads = worklist.heads.map(({ hash }) => hash).join(' ');
    const typed = [period.from, period.to, heads, draft, by, signing.revision];
    const written = await save(typed, () => {
      const body = { signOffId: crypto.randomUUID(), ...signOffBody(period, worklist, draft) };
      return sign([{ id: crypto.randomUUID(), by, kind: 'period-signed', body }]);
    });
    const signed = written?.find((entry) => entry.kind === 'period-signed');
    if (signed) {
      signing.clear();
      onSigned(signed.body.signOffId);
      goTo(signedHref(signed.body.signOffId));
    }
    return 'tried';
  };

  return (
    <RecordForm onSubmit={submit} opens={false} title="What is new">
      <div className="pairs">
        <InputField
          error={errors.from}
          label="From"
          onText={(from) => setPeriod({ from })}
          type="date"
          value={period.from}
        />
        <InputField
          error={errors.to}
          label="Up to and including"
          onText={(to) => setPeriod({ to })}
          type="date"
          value={period.to}
        />
      </div>
      {worklist === null ? null : (
        <>
          <p>{whatIsCovered(worklist, period.from)}</p>
          {worklist.isNothingNew ? null : (
            <>
              <PageList chosen={chosen} seen={draft.seen} worklist={worklist} />
              <OpenFailures inHand={inHand} worklist={worklist} />
            </>
          )}
        </>
      )}
      {worklist?.isNothingNew ? null : (
        <>
          <TextAreaField
            label="On the whole"
            onText={(comment) => change({ comment })}
            value={draft.comment}
          />
          <WrittenBy only="supervisor" tried={tried} />
          <SigningFields signing={signing} />
          <Missing missing={missing} />
          <SaveLine
            action="Sign off this period"
            saving={saving}
            trouble={
              tried && (worklist === null || missing.length > 0 || !canWrite || signing.isMarked)
                ? 'Nothing is signed yet: see what is marked and what is missing.'
                : undefined
            }
          />
        </>
      )}
    </RecordForm>
  );
}

function whatIsCovered({ listed, earlier, isNothingNew }: Worklist, from: string): string {
  if (listed.length === 0) return 'Nothing is new in this period.';
  if (isNothingNew) return 'Nothing is new in this period but the last sign-off itself.';
  const late =
    earlier === 0 ? '' : `, ${earlier} of them written before ${civilDay(from)} and not signed yet`;
  return `The signature covers ${counted(listed.length, 'entry', 'entries')}${late}. An entry that comes in afterwards belongs to the next sign-off.`;
}
