/** A small chart of marks between rails, in its own units; where they lie on paper is the drawing's. */
import type { ValueAxis } from '../parts/valueAxis.ts';

/** Told apart without colour. */
export type Shape = 'triangle' | 'circle' | 'square' | 'diamond';

export interface Mark {
  key: string;
  x: number;
  y: number;
  shape: Shape;
  /** Outside a rail: drawn larger, with `label` beside it. */
  isOut: boolean;
  label: string;
  /** All that is known of it, for whoever points at it. */
  told: string;
}

export interface MarkChartModel {
  title: string;
  /** The chart for those who do not see it. */
  description: string;
  x: { from: number; to: number; ticks: readonly { at: number; text: string }[]; title: string };
  y: ValueAxis;
  yTicks: ReadonlyMap<number, string>;
  yTitle: string;
  /** Limits, each with its name at the right end. */
  rails: readonly { y: number; text: string }[];
  /** Hairlines from mark to mark. */
  lines: readonly { key: string; points: readonly { x: number; y: number }[] }[];
  /** In the order in which the keys of the arrows pass them. */
  marks: readonly Mark[];
  /** What the shapes stand for; empty where there is one alone. */
  shapes: readonly { shape: Shape; name: string }[];
}
