import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import { signedHref, signOffHref } from '../deskRoutes.ts';
import { InputField, TextAreaField, TickField } from '../parts/field.tsx';
import { civilDay, counted } from '../parts/figures.ts';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { SigningFields } from '../parts/signing.tsx';
import { useSave } from '../parts/useSave.ts';
import { useSigning } from '../parts/useSigning.ts';
import { useWriter } from '../parts/useWriter.ts';
import { VerdictMark } from '../parts/verdictMark.tsx';
import { quantityWords, routeWords } from '../parts/words.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import { failureKey, type Worklist } from './buildWorklist.ts';
import { missingForSignOff, signOffBody } from './readSignOff.ts';
import type { SignOffInHand } from './useSignOff.ts';

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

function PageList({
  worklist: { pages },
  seen,
  chosen,
}: {
  worklist: Worklist;
  seen: readonly string[];
  chosen: string | null;
}) {
  return (
    <ul className="choose-list">
      {pages.map(({ id, label, count, stamp, openFailures }) => {
        const isSeen = seen.includes(stamp);
        return (
          <li key={id}>
            <Link aria-current={id === chosen ? 'true' : undefined} href={signOffHref(id)}>
              <span className="line page-name">
                <span data-shape={isSeen ? 'pass' : 'establishing'}>
                  <VerdictMark shape={isSeen ? 'pass' : 'establishing'} size={14} />
                </span>
                {label}
              </span>{' '}
              <span className="quiet small">
                {count === 0 ? 'nothing new' : `${count} new`}
                {openFailures.length > 0 ? `, ${counted(openFailures.length, 'open failure')}` : ''}
                {isSeen ? ', looked through' : ''}
              </span>
            </Link>
          </li>
        );
      })}
    </ul>
  );
}

/** An open failure does not keep a period from being signed; not having seen it does. */
function OpenFailures({ worklist, inHand }: { worklist: Worklist; inHand: SignOffInHand }) {
  const open = worklist.pages.flatMap(({ label, openFailures }) =>
    openFailures.map((failure) => ({ label, failure })),
  );
  if (open.length === 0) return null;
  return (
    <fieldset className="stack seen-failures">
      <legend>Open failures: tick each that you have seen</legend>
      {open.map(({ label, failure }) => {
        const key = failureKey(failure);
        const { quantity, route } = failure.series;
        return (
          <TickField
            checked={inHand.draft.seen.includes(key)}
            key={key}
            label={`${label}, ${quantityWords[quantity]}, ${routeWords[route].toLowerCase()}: open for ${counted(failure.runs.length, 'run')}`}
            onTick={(ticked) => inHand.tick(key, ticked)}
          />
        );
      })}
    </fieldset>
  );
}

function Missing({ missing }: { missing: readonly string[] }) {
  if (missing.length === 0) return null;
  return (
    <section aria-label="Still missing" className="stack">
      <p className="quiet">Still missing:</p>
      <ul className="missing-list small">
        {missing.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </section>
  );
}
