import { Link } from 'wouter';
import { methodHref, packageHref, reportHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { Spread } from '../parts/spread.tsx';
import { demonstrationHref, laboratoryHref } from '../routes.ts';
import { ExportForm } from './exportForm.tsx';
import { JournalState } from './journalState.tsx';
import { SecondCopySection } from './secondCopySection.tsx';

export default function RecordsScreen() {
  const { demonstration } = useLogbook();
  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <h1>Records</h1>
          <section className="stack">
            <h2>Package for an assessor</h2>
            <p>
              Everything of a period in one file: runs, controls, checks, failures and what was done,
              baselines, sign-offs and the audit trail, with a description of every column.{' '}
              <Link href={packageHref}>Make a package</Link>
            </p>
          </section>
          <section className="stack group">
            <h2>Printed report</h2>
            <p>
              A period on paper, analyzer by analyzer: what was due and made, figures, charts, failures with
              their story, method and limits, and lines to sign. <Link href={reportHref}>Print a report</Link>
            </p>
          </section>
          <section className="stack group">
            <h2>Method</h2>
            <p>
              Every formula, limit and rule that your numbers are made by, with its source and edition, to be
              read or printed. <Link href={methodHref()}>How the numbers are made</Link>
            </p>
          </section>
          <ExportForm />
          <SecondCopySection />
          <section className="stack group">
            <h2>Runs of former years</h2>
            <p>
              A spreadsheet’s CSV file with years of runs can be taken over: every row is judged before
              anything is written. <Link href="/import">Import runs</Link>
            </p>
          </section>
          <section className="stack group">
            <h2>Demonstration</h2>
            {demonstration ? (
              <p>
                This is the invented laboratory. <a href={laboratoryHref}>Back to your own logbook</a>
              </p>
            ) : (
              <p>
                An invented laboratory with three analyzers and eighteen months of runs, in a database of its
                own. <a href={demonstrationHref}>Open the demonstration</a>
              </p>
            )}
          </section>
          <section className="stack group">
            <h2>Cautions</h2>
            <p>
              A failed run means that patients are not tested on that analyzer until the laboratory’s
              responsible person says so. This logbook advises; local procedure, the manufacturer’s
              instructions and licensed practice decide.
            </p>
            <p>
              Test gas holds carbon monoxide and comes from a compressed-gas cylinder: ventilate, secure,
              follow local rules.
            </p>
            <p className="quiet">
              It is not a medical device, stores no patient data and claims conformity with no regulation.
            </p>
          </section>
        </div>
      }
      right={<JournalState />}
    />
  );
}
