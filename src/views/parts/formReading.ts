/** What a form that describes something is read to. Pure. */

export type Errors<T> = Partial<Record<keyof T, string>>;
/** What draws a form's fields; reading them is done beside it. */
export interface FieldsProps<T> {
  draft: T;
  errors: Errors<T>;
  onChange: (changes: Partial<T>) => void;
}
export type FormReading<T, D> = { ok: true; description: D } | { ok: false; errors: Errors<T> };

export function finish<T, D>(errors: Errors<T>, description: D): FormReading<T, D> {
  return Object.keys(errors).length === 0 ? { ok: true, description } : { ok: false, errors };
}
