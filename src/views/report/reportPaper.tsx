import { memo, useEffect } from 'react';
import { BlockView } from './reportBlocks.tsx';
import type { Paper } from './reportChoice.ts';
import type { Chapter } from './reportModel.ts';
import type { ReportInMaking } from './useReport.ts';

/** The report as it will be printed: as wide as the paper's text, one chapter after the other. */
export function ReportPaper({
  report: { chapters, isWhole },
  paper,
  head,
}: {
  report: ReportInMaking;
  paper: Paper;
  /** At the head of every page. */
  head: string;
}) {
  useHeadOfPages(head);
  return (
    <article aria-label="The report" className="report" data-paper={paper}>
      {chapters.map((chapter) => (
        <ChapterView chapter={chapter} key={chapter.id} />
      ))}
      {isWhole ? null : <p className="quiet screen-only">What comes next is being made…</p>}
    </article>
  );
}

/** Chapters that stand are not drawn again while the next ones come. */
const ChapterView = memo(function ChapterView({ chapter: { id, title, sections } }: { chapter: Chapter }) {
  return (
    <section className="report__chapter" data-chapter={id === 'cover' ? 'cover' : undefined}>
      <h2>{title}</h2>
      {sections.map((section) => (
        <section className="report__section" key={section.id}>
          <h3>{section.title}</h3>
          {section.blocks.map((block, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: blocks of a section stand still and have no names of their own.
            <BlockView block={block} key={index} of={title} />
          ))}
        </section>
      ))}
    </section>
  );
});

/** Style sheets read it where the margins of a page are written. */
function useHeadOfPages(head: string) {
  useEffect(() => {
    const { style } = document.documentElement;
    style.setProperty('--print-head', JSON.stringify(head));
    return () => {
      style.removeProperty('--print-head');
    };
  }, [head]);
}
