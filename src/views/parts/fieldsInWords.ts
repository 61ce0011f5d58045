/** A description field by field, and what one entry after another changed in it. Pure. */
import type { Change } from './history.tsx';

export interface FieldInWords {
  name: string;
  value: string;
}

/** By name: a description may gain or lose a field. */
export function changedFields(before: readonly FieldInWords[], after: readonly FieldInWords[]): Change[] {
  const names = [...new Set([...before, ...after].map(({ name }) => name))];
  const valueIn = (fields: readonly FieldInWords[], named: string) =>
    fields.find(({ name }) => name === named)?.value ?? '–';
  return names.flatMap((name) => {
    const from = valueIn(before, name);
    const to = valueIn(after, name);
    return from === to ? [] : [{ name, from, to }];
  });
}
