/** A report as paper has it: chapters of sections of blocks, in words. What is in them is the builders'; drawing them the view's. */

import type { ControlChartModel } from '../charting/controlChartModel.ts';
import type { MarkShape } from '../parts/verdictMark.tsx';

/** A text, with a verdict's mark before it where it says one. */
export type Cell = string | { text: string; mark: MarkShape };

export interface Column {
  head: string;
  /** After the heading, lighter. */
  unit?: string;
  isNumber?: boolean;
  /** Share of the table's width, in percent; left out: as wide as its words need. */
  width?: number;
}

type Tone = 'quiet' | 'warn' | 'lead';

export type Block =
  /** `lead`: introduces what follows and stays with it on the page, as does what is quiet. */
  | { kind: 'words'; text: string; tone?: Tone }
  | { kind: 'facts'; rows: readonly { name: string; value: string }[] }
  | { kind: 'lines'; lines: readonly string[] }
  | {
      kind: 'table';
      id: string;
      caption: string;
      columns: readonly Column[];
      rows: readonly (readonly Cell[])[];
    }
  | { kind: 'chart'; title: string; caption: string; chart: ControlChartModel }
  | { kind: 'heading'; text: string }
  /** Long texts of letters without a space, such as hashes. */
  | { kind: 'hashes'; lines: readonly string[] }
  | { kind: 'signatures'; roles: readonly string[] };

export interface Section {
  id: string;
  title: string;
  blocks: readonly Block[];
}

export interface Chapter {
  id: string;
  title: string;
  sections: readonly Section[];
}

export const words = (text: string, tone?: Tone): Block =>
  tone === undefined ? { kind: 'words', text } : { kind: 'words', text, tone };

/** Nothing where there is nothing to say: then the section is left out. */
export const section = (id: string, title: string, blocks: readonly Block[]): readonly Section[] =>
  blocks.length === 0 ? [] : [{ id, title, blocks }];
