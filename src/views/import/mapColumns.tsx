import type { ReactNode } from 'react';
import type { ImportField } from '../../exchange/importFields.ts';
import type { KnownLogbook } from '../../exchange/importKnown.ts';
import { dateEvidence, decimalEvidence, missingChoices } from '../../exchange/importPlan.ts';
import { type Delimiter, delimiters } from '../../exchange/importTable.ts';
import { ChoiceField, choicesOf, TickField } from '../parts/field.tsx';
import { counted } from '../parts/figures.ts';
import { fileSize } from '../parts/fileSize.ts';
import { Notice } from '../parts/notice.tsx';
import { ColumnField } from './columnField.tsx';
import { ConstantOf, Constants } from './constants.tsx';
import {
  dateOrderEvidence,
  dateOrderWords,
  decimalMarkEvidence,
  decimalMarkWords,
  delimiterEvidence,
  delimiterWords,
  mainFields,
  missingWords,
  moreFields,
  outlineSentence,
  unitEvidence,
} from './importWords.ts';
import { NameFields } from './nameFields.tsx';
import { withColumn, withPlan, withUnit } from './planChanges.ts';
import type { Mapping } from './useImport.ts';

interface MappingProps {
  mapping: Mapping;
  known: KnownLogbook;
  onChange: (mapping: Mapping) => void;
}

/** What each column is, in which unit and by which order of day and month: proposed with its evidence, and confirmed. */
export function MapColumns({
  mapping,
  known,
  trouble,
  onChange,
  onPartBy,
  onJudge,
  onLeave,
}: MappingProps & {
  trouble: string | null;
  onPartBy: (delimiter: Delimiter) => void;
  onJudge: () => void;
  onLeave: () => void;
}) {
  const { file, plan } = mapping;
  const { outline } = file;
  const missing = missingChoices(plan, outline);
  return (
    <form
      className="stack stack--loose"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        if (missing.length === 0 && mapping.isConfirmed) onJudge();
      }}
    >
      <section className="stack">
        <h2 className="import-file-name">{file.fileName}</h2>
        <p className="quiet">
          {outlineSentence(outline)} {fileSize(file.bytes)}, {file.encoding}.
        </p>
        <ChoiceField
          choices={choicesOf<Delimiter>(delimiterWords).filter(({ value }) => delimiters.includes(value))}
          hint={delimiterEvidence(outline.delimiterCounts, outline.delimiter)}
          label="Cells are parted by"
          onChoice={onPartBy}
          value={outline.delimiter}
        />
        {plan.isOwnExport ? (
          <Notice title="This is an export of this logbook’s own kind." tone="quiet">
            <p>Its columns, units and dates are known. Only who and what they belong to has to be right.</p>
          </Notice>
        ) : (
          <NumbersAndDates mapping={mapping} onChange={onChange} />
        )}
      </section>
      {plan.isOwnExport ? null : (
        <>
          <section className="stack group">
            <h2>Columns</h2>
            <ColumnFields fields={mainFields} known={known} mapping={mapping} onChange={onChange} />
          </section>
          <details className="group">
            <summary>More columns</summary>
            <div className="stack details-body">
              <ColumnFields fields={moreFields} known={known} mapping={mapping} onChange={onChange} />
            </div>
          </details>
        </>
      )}
      <NameFields known={known} mapping={mapping} onChange={onChange} />
      {plan.isOwnExport ? null : (
        <details className="group">
          <summary>What is the same for the whole file</summary>
          <div className="stack details-body">
            <Constants known={known} mapping={mapping} onChange={onChange} />
          </div>
        </details>
      )}
      <section className="stack group">
        <TickField
          checked={mapping.isConfirmed}
          label="The first rows are understood as they were meant: dates, numbers and units."
          onTick={(isConfirmed) => onChange({ ...mapping, isConfirmed })}
        />
        {trouble ? (
          <Notice title="The rows could not be judged." tone="fail" urgent>
            <p>{trouble}</p>
          </Notice>
        ) : null}
        <div className="line">
          <button data-weight="main" disabled={missing.length > 0 || !mapping.isConfirmed} type="submit">
            Judge {counted(outline.rowCount, 'row')}
          </button>
          <button onClick={onLeave} type="button">
            Leave it
          </button>
          <StillMissing isConfirmed={mapping.isConfirmed}>{missing.map(missingWords)}</StillMissing>
        </div>
      </section>
    </form>
  );
}

function StillMissing({ children, isConfirmed }: { children: readonly string[]; isConfirmed: boolean }) {
  if (children.length > 0) return <span className="quiet">Still to choose: {children.join(', ')}.</span>;
  return isConfirmed ? null : <span className="quiet">Compare the first rows and confirm them.</span>;
}

function NumbersAndDates({ mapping, onChange }: Omit<MappingProps, 'known'>): ReactNode {
  const { plan, file } = mapping;
  const dates = dateEvidence(file.outline, plan.columns);
  return (
    <>
      <ChoiceField
        choices={choicesOf(dateOrderWords)}
        error={plan.dateOrder === null && dates !== null ? dateOrderEvidence(dates) : undefined}
        hint={plan.dateOrder === null && dates !== null ? undefined : dateOrderEvidence(dates)}
        label="Dates are written"
        onChoice={(dateOrder) => onChange(withPlan(mapping, { dateOrder }))}
        value={plan.dateOrder ?? ''}
      />
      <ChoiceField
        choices={choicesOf(decimalMarkWords)}
        hint={decimalMarkEvidence(decimalEvidence(file.outline, plan.columns))}
        label="Decimal mark"
        onChoice={(decimalMark) => onChange(withPlan(mapping, { decimalMark }))}
        value={plan.decimalMark ?? ''}
      />
    </>
  );
}

function ColumnFields({
  fields,
  mapping,
  known,
  onChange,
}: MappingProps & { fields: readonly ImportField[] }) {
  const { plan, proposed, file } = mapping;
  const missing = missingChoices(plan, file.outline);
  return fields.map((field) => {
    const index = plan.columns.get(field);
    const column = index === undefined ? undefined : file.outline.columns[index];
    const examples =
      column && column.examples.length > 0 ? `e.g. ${column.examples.slice(0, 2).join(', ')}. ` : '';
    const evidence = unitEvidence(
      proposed.unitSources.get(field),
      column?.middle ?? null,
      proposed.rivals.get(field),
    );
    return (
      <ColumnField
        field={field}
        key={field}
        lacksUnit={missing.some((choice) => choice.of === 'unit' && choice.field === field)}
        message={column ? `${examples.slice(0, 120)}${evidence}` : null}
        onColumn={(chosen) => onChange(withColumn(mapping, field, chosen))}
        onUnit={(unit) => onChange(withUnit(mapping, field, unit))}
        outline={file.outline}
        plan={plan}
      >
        <ConstantOf field={field} known={known} mapping={mapping} onChange={onChange} />
      </ColumnField>
    );
  });
}
