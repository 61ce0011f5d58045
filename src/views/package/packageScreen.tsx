import { useMemo, useState } from 'react';
import { Link } from 'wouter';
import { reportHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { localDay, localZone } from '../parts/localTime.ts';
import { Spread } from '../parts/spread.tsx';
import { useNow } from '../parts/useNow.ts';
import { Contents } from './contents.tsx';
import { PackageForm } from './packageForm.tsx';
import { readScope, usualScope } from './readScope.ts';
import { usePackage } from './usePackage.ts';
import './package.css';

/** The assessor's package: for which period and analyzers on the left, what will be in it on the right. */
export default function PackageScreen() {
  const { logbook } = useLogbook();
  const today = localDay(useNow());
  const [draft, setDraft] = useState(() => usualScope(today));
  const read = useMemo(
    () => readScope(draft, { today, zone: localZone(), analyzerIds: [...logbook.analyzers.keys()] }),
    [draft, today, logbook],
  );
  const { making, counting, make, stop, forget } = usePackage(read.ok ? read.scope : null);

  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <div className="stack">
            <h1>Package for an assessor</h1>
            <p>
              One ZIP file with everything of a period: tables that a spreadsheet opens, a description of
              every column for other programs, and a text that explains both. An assessor needs no logbook to
              read it.
            </p>
          </div>
          <PackageForm
            draft={draft}
            errors={read.ok ? {} : read.errors}
            making={making}
            onChange={(changes) => {
              setDraft((now) => ({ ...now, ...changes }));
              forget();
            }}
            onMake={() => void make()}
            onStop={stop}
          />
          <p className="group">
            The same period to be read on paper: <Link href={reportHref}>Printed report</Link>. The runs alone
            as one CSV file stand under <Link href="/records">Records</Link>.
          </p>
        </div>
      }
      right={<Contents counting={read.ok ? counting : null} />}
    />
  );
}
