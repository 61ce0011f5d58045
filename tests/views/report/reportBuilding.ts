/** A report's sources from drafts, and its chapters as text. */
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { foldJournal } from '../../../src/journal/fold.ts';
import { verifySignatures } from '../../../src/journal/signature.ts';
import { assessEach } from '../../../src/views/assessEach.ts';
import { listFailures } from '../../../src/views/failures.ts';
import { type ReportChoice, usualChoice } from '../../../src/views/report/reportChoice.ts';
import type { Block, Cell, Chapter } from '../../../src/views/report/reportModel.ts';
import { reportPlan } from '../../../src/views/report/reportPlan.ts';
import type { ReportSources } from '../../../src/views/report/reportSources.ts';
import { controlsOf } from '../../../src/views/useControlAssessments.ts';
import { sealChain } from '../../journal/fixtures.ts';
import { laboratoryDrafts, technologistDraft } from '../laboratory.ts';

/** Written from 1 January 2026 on, a minute apart; read on 30 June 2026. */
export async function sourcesOf(
  drafts: readonly EntryDraft[],
  changed: Partial<ReportSources> = {},
): Promise<ReportSources> {
  const entries = await sealChain([...laboratoryDrafts(), technologistDraft(), ...drafts], {
    from: '2026-01-01T00:00:00.000Z',
  });
  const logbook = foldJournal(entries);
  const { assessments } = assessEach(
    logbook.runs.map(({ simulation }) => simulation),
    logbook,
  );
  const controls = controlsOf(logbook);
  return {
    logbook,
    assessments,
    failures: listFailures(logbook, assessments),
    controlAssessments: controls.assessments,
    controlFailures: controls.failures,
    heads: new Map(entries.map(({ workstation, seq, hash }) => [workstation, { seq, hash }])),
    journal: { breaks: 0, leftOut: 0, lost: 0 },
    signatures: await verifySignatures(entries, logbook.keys),
    now: Date.parse('2026-06-30T12:00:00.000Z'),
    madeBy: null,
    zone: 'Europe/Oslo',
    demonstration: false,
    ...changed,
  };
}

export const halfYear: ReportChoice = {
  ...usualChoice('2026-06-30', 'd-mon-yyyy'),
  from: '2026-01-01',
  to: '2026-06-30',
};

export const chaptersOf = (sources: ReportSources, choice: Partial<ReportChoice> = {}) =>
  reportPlan({ ...halfYear, ...choice }, sources).flatMap((make) => make() ?? []);

export function chapterOf(chapters: readonly Chapter[], id: string): Chapter {
  const found = chapters.find((one) => one.id === id);
  if (!found) throw new Error(`no chapter ${id}`);
  return found;
}

export function blocksOf(chapter: Chapter, sectionId: string): readonly Block[] {
  const found = chapter.sections.find(({ id }) => id === sectionId);
  if (!found) throw new Error(`no section ${sectionId} in ${chapter.title}`);
  return found.blocks;
}

/** The rows of one table, each under the head of its column. */
export function rowsOf(blocks: readonly Block[], id: string): readonly Readonly<Record<string, string>>[] {
  const table = blocks.find((block) => block.kind === 'table' && block.id === id);
  if (table?.kind !== 'table') throw new Error(`no table ${id}`);
  return table.rows.map((cells) =>
    Object.fromEntries(cells.map((cell, index) => [table.columns[index]?.head ?? '', textOf(cell)])),
  );
}

const textOf = (cell: Cell | undefined) => (typeof cell === 'object' ? cell.text : (cell ?? ''));

/** Everything that a list of blocks says in words. */
export const wordsOf = (blocks: readonly Block[]): string => blocks.flatMap(saidBy).join('\n');

function saidBy(block: Block): readonly string[] {
  switch (block.kind) {
    case 'words':
    case 'heading':
      return [block.text];
    case 'facts':
      return block.rows.map(({ name, value }) => `${name}: ${value}`);
    case 'lines':
    case 'hashes':
      return block.lines;
    case 'table':
      return [block.caption, ...block.rows.flatMap((cells) => cells.map(textOf))];
    case 'chart':
      return [block.title, block.caption];
    case 'signatures':
      return block.roles;
  }
}
