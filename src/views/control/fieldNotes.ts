/** What is to be said beside the fields of a control's form while they are read. */
import { type NumberSpec, readNumber, type Slip } from '../parts/readNumber.ts';
import type { ControlField } from './controlDraft.ts';

export interface FieldTrouble {
  message: string;
  slip: Slip | null;
}

export class FieldNotes {
  readonly errors: Partial<Record<ControlField, FieldTrouble>> = {};
  /** What must be filled in before it can be recorded, with the sentence that asks for it. */
  readonly missing: Partial<Record<ControlField, string>> = {};
  readonly warnings: Partial<Record<ControlField, string>> = {};

  /** Undefined where nothing is typed or it cannot be; `wanted` is said where it must be. */
  number(field: ControlField, text: string, spec: NumberSpec, wanted?: string): number | undefined {
    const read = readNumber(text, spec);
    if (read.state === 'number') return read.value;
    if (read.state === 'wrong') this.refuse(field, read.message, read.slip);
    else if (wanted !== undefined) this.want(field, wanted);
    return undefined;
  }

  refuse(field: ControlField, message: string, slip: Slip | null = null): void {
    this.errors[field] ??= { message, slip };
  }

  want(field: ControlField, sentence: string): void {
    this.missing[field] ??= sentence;
  }

  warn(field: ControlField, sentence: string | null): void {
    if (sentence !== null) this.warnings[field] = [this.warnings[field], sentence].filter(Boolean).join(' ');
  }

  get isClear(): boolean {
    return Object.keys(this.errors).length === 0;
  }
}
