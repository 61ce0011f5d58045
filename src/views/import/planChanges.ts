/** What a person changes in a plan. Any change takes back the confirmation: it was given to what stood there before. */
import { guessColumn, type ImportField } from '../../exchange/importFields.ts';
import type { KnownLogbook } from '../../exchange/importKnown.ts';
import { isNameField, type NameField, nameReader } from '../../exchange/importNames.ts';
import type { ColumnOutline } from '../../exchange/importOutline.ts';
import {
  type ConstantField,
  dateEvidence,
  dateOrderBy,
  decimalEvidence,
  decimalMarkBy,
  type ImportPlan,
  numberFields,
  proposeUnit,
} from '../../exchange/importPlan.ts';
import type { ImportUnit } from '../../exchange/importUnits.ts';
import type { Mapping } from './useImport.ts';

export function withPlan(mapping: Mapping, change: Partial<ImportPlan>): Mapping {
  return { ...mapping, plan: { ...mapping.plan, ...change }, isConfirmed: false };
}

/** A column chosen by hand gets proposals of its own, as the first guess did. */
export function withColumn(mapping: Mapping, field: ImportField, index: number | null): Mapping {
  const { plan, proposed, file } = mapping;
  const { outline } = file;
  const columns = new Map(plan.columns);
  const units = new Map(plan.units);
  const unitSources = new Map(proposed.unitSources);
  units.delete(field);
  unitSources.delete(field);
  if (index === null) columns.delete(field);
  else {
    columns.set(field, index);
    const guess = guessColumn(outline.header[index] ?? '', outline.units[index]);
    const unit = proposeUnit(field, guess, outline.columns[index]);
    if (unit) {
      units.set(field, unit.unit);
      unitSources.set(field, unit.source);
    }
  }
  const changed = { ...mapping, proposed: { ...proposed, unitSources } };
  return withPlan(changed, {
    columns,
    units,
    ...(field === 'madeAt' ? { dateOrder: dateOrderBy(dateEvidence(outline, columns)) } : {}),
    ...(numberFields.includes(field)
      ? { decimalMark: decimalMarkBy(decimalEvidence(outline, columns)) }
      : {}),
  });
}

export function withUnit(mapping: Mapping, field: ImportField, unit: ImportUnit): Mapping {
  const unitSources = new Map(mapping.proposed.unitSources).set(field, 'choice');
  return withPlan(
    { ...mapping, proposed: { ...mapping.proposed, unitSources } },
    { units: new Map(mapping.plan.units).set(field, unit) },
  );
}

export function withConstant(mapping: Mapping, field: ConstantField, value: string): Mapping {
  return withPlan(mapping, { constants: { ...mapping.plan.constants, [field]: value } });
}

export function withName(mapping: Mapping, field: NameField, text: string, id: string): Mapping {
  const ofField = new Map(mapping.plan.names.get(field)).set(text, id);
  return withPlan(mapping, { names: new Map(mapping.plan.names).set(field, ofField) });
}

export interface NamesOfColumn {
  field: NameField;
  /** Null where they are too many to be names. */
  names: readonly { text: string; id: string | null; label: string | null }[] | null;
}

/** An export of this logbook's own kind names equipment by ids, with the label that each had then in a column beside it. */
const labelledIds: Partial<Record<NameField, { id: string; label: string }>> = {
  analyzer: { id: 'analyzer_id', label: 'analyzer' },
  syringe: { id: 'syringe_id', label: 'syringe' },
};

/** Each id has one label, and both are listed as they first come: as many of one as of the other belong together in turn. */
function labelsOf(
  field: NameField,
  { outline }: Mapping['file'],
  ids: ColumnOutline,
): ReadonlyMap<string, string> {
  const named = labelledIds[field];
  const labels = outline.columns.find(({ name }) => name === named?.label)?.names ?? [];
  if (named === undefined || ids.name !== named.id || labels.length !== ids.names?.length) return new Map();
  return new Map(ids.names.map((id, index) => [id, labels[index] ?? '']));
}

const askedFor: readonly NameField[] = ['analyzer', 'technologist', 'syringe', 'route', 'reason'];

/** Every different name of the columns that hold names, with what it stands for; the ones without need a person. */
export function namesToTell({ plan, file }: Mapping, known: KnownLogbook): readonly NamesOfColumn[] {
  const read = nameReader(plan, known);
  return askedFor.filter(isNameField).flatMap((field): NamesOfColumn[] => {
    const column = file.outline.columns[plan.columns.get(field) ?? -1];
    if (!column) return [];
    if (column.names === null) return [{ field, names: null }];
    const labels = labelsOf(field, file, column);
    const names = column.names.map((text) => {
      const named = read(field, text);
      return { text, id: named.state === 'name' ? named.id : null, label: labels.get(text) ?? null };
    });
    // Names that the logbook knows by themselves need no answer; one that was given stays to be changed.
    const open = names.filter(({ text, id }) => id === null || plan.names.get(field)?.has(text));
    return open.length > 0 ? [{ field, names: open }] : [];
  });
}
