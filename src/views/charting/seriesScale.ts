/** How one series writes its numbers: its unit, the way there from the core's unit, and its decimals. */
export interface SeriesScale {
  unit: string;
  /** From the core's unit (L, or mL/min/mmHg) to this one. No offset, so that it serves means and SDs alike. */
  inUnit: (value: number) => number;
  /** The smallest step that the analyzer displays, in `unit`. */
  resolution: number;
  value: (value: number) => string;
  mean: (value: number) => string;
  sd: (value: number) => string;
  /** A published limit, as it is printed in the standard or one digit more. */
  limit: (value: number) => string;
  /** A tick label, with one precision for an axis whose ticks lie `step` apart. */
  tick: (value: number, step: number) => string;
}
