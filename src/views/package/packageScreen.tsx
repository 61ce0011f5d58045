import { useMemo, useState } from 'react';
import { Link } from 'wouter';
import { tablesInScope } from '../../exchange/package/tables.ts';
import { reportHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { localDay, localZone } from '../parts/localTime.ts';
import { Spread } from '../parts/spread.tsx';
import { useNow } from '../parts/useNow.ts';
import { useControlAssessments, useControlFailures } from '../useControlAssessments.ts';
import { useFailures } from '../useFailures.ts';
import { PackageContents } from './packageContents.tsx';
import { PackageForm } from './packageForm.tsx';
import { readScope, usualScope } from './readScope.ts';
import { usePackage } from './usePackage.ts';
import './package.css';

/** The assessor's package: for which period and analyzers on the left, what will be in it on the right. */
export default function PackageScreen() {
  const { logbook, assessments, snapshot } = useLogbook();
  const failures = useFailures();
  const controls = useControlAssessments();
  const controlFailures = useControlFailures();
  const today = localDay(useNow());
  const [draft, setDraft] = useState(() => usualScope(today));
  const { making, make, stop, forget } = usePackage();
  const { entries, rawRows } = snapshot;
  const read = useMemo(
    () => readScope(draft, { today, zone: localZone(), analyzerIds: [...logbook.analyzers.keys()] }),
    [draft, today, logbook],
  );
  const tables = useMemo(() => {
    if (!read.ok) return null;
    // What signatures are worth changes no count of rows.
    const source = {
      rawRows,
      entries,
      logbook,
      assessments,
      failures,
      controls,
      controlFailures,
      signatures: [],
    };
    return tablesInScope(source, read.scope).tables;
  }, [read, rawRows, entries, logbook, assessments, failures, controls, controlFailures]);

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
            making={making}
            onChange={(changes) => {
              setDraft((now) => ({ ...now, ...changes }));
              forget();
            }}
            onMake={() => {
              if (read.ok) void make(read.scope);
            }}
            onStop={stop}
            errors={read.ok ? {} : read.errors}
          />
          <p className="group">
            The same period to be read on paper: <Link href={reportHref}>Printed report</Link>. The runs alone
            as one CSV file stand under <Link href="/records">Records</Link>.
          </p>
        </div>
      }
      right={<PackageContents entryCount={entries.length} tables={tables} />}
    />
  );
}
