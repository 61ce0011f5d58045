import type { SignatureCheck } from '../../journal/signature.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { counted, dayAndTime } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { signatureSentence } from '../parts/signatureSentence.ts';
import { whatItProves } from '../parts/signing.tsx';
import { useSignatureChecks } from '../parts/useSignatureChecks.ts';

/** How many closings and sign-offs are signed, and each whose signature does not verify. */
export function SignatureState() {
  const checks = useSignatureChecks();
  const countOf = (verdict: SignatureCheck['verdict']) =>
    checks?.filter((check) => check.verdict === verdict).length ?? '…';
  const ofKind = (kind: SignatureCheck['entry']['kind']) =>
    checks?.filter(({ entry }) => entry.kind === kind).length ?? '…';
  const wrong = checks?.filter(({ verdict }) => verdict !== 'valid' && verdict !== 'unsigned') ?? [];
  return (
    <section className="stack group">
      <h2>Signatures</h2>
      <p>
        A supervisor signs a closing and a sign-off with a passphrase of their own. In every copy the
        signature shows that it was made with the key registered in that person’s name and that no word of it
        was changed since. {whatItProves}
      </p>
      <p>
        It does not show who sat at the workstation when the key was registered: each registration, with its
        reason where it replaced another, stands in the person’s history under Equipment.
      </p>
      <FigureList
        rows={[
          { name: 'Closings', value: ofKind('failure-closed') },
          { name: 'Closings of controls', value: ofKind('control-closed') },
          { name: 'Sign-offs', value: ofKind('period-signed') },
          { name: 'Signed and verified', value: countOf('valid') },
          { name: 'Not signed', value: countOf('unsigned') },
          { name: 'Do not verify', value: checks ? wrong.length : '…' },
        ]}
      />
      {wrong.length > 0 ? <Wrong checks={wrong} /> : null}
    </section>
  );
}

const kindWords: Record<SignatureCheck['entry']['kind'], string> = {
  'failure-closed': 'Closing',
  'control-closed': 'Closing of a control',
  'period-signed': 'Sign-off',
};

function Wrong({ checks }: { checks: readonly SignatureCheck[] }) {
  const { logbook } = useLogbook();
  return (
    <Notice
      title={`${counted(checks.length, 'signature does', 'signatures do')} not verify`}
      tone="fail"
      urgent
    >
      <ul className="plain-list">
        {checks.map((check) => (
          <li key={check.entry.hash}>
            {kindWords[check.entry.kind]} of {dayAndTime(check.entry.at, check.entry.zone)}:{' '}
            {signatureSentence(check, logbook)} <span className="hash quiet">Entry {check.entry.id}</span>
          </li>
        ))}
      </ul>
    </Notice>
  );
}
