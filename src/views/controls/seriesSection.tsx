import { type ReactNode, useId, useMemo } from 'react';
import { Link } from 'wouter';
import { buildControlChart } from '../charting/buildControlChart.ts';
import { useChartChoices } from '../charting/chartChoices.ts';
import type { Span } from '../charting/chartWindow.ts';
import { controlHeading } from '../charting/controlHeading.ts';
import type { SeriesOfControls } from '../charting/controlSeries.ts';
import type { ControlStory } from '../charting/controlStory.ts';
import { SeriesChart } from '../charting/seriesChart.tsx';
import { checkLimitsAt } from '../controlAssessments.ts';
import { controlFailureHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ControlLink } from '../parts/controlInTable.tsx';
import { counted, day } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { TermLine } from '../parts/term.tsx';
import { controlWords } from './describeControls.ts';

const kindTerms = {
  biological: ['first-six', 'coefficient-of-variation'],
  simulator: ['r-4s-across-levels'],
} as const;

/** One series of controls: its figures, what judges it, and its chart. */
export function SeriesSection({
  named,
  story,
  title,
  part = '',
  days,
  onShow,
  children,
}: {
  named: SeriesOfControls;
  /** With at least one control. */
  story: ControlStory;
  title: ReactNode;
  /** Of a page with several series, which this one is. */
  part?: string;
  /** The part of the time that the address asks for; null for all of it. */
  days: Span | null;
  onShow: (shown: Span | null) => void;
  /** Under the figures. */
  children?: ReactNode;
}) {
  const { logbook } = useLogbook();
  const { axis, showPublished } = useChartChoices();
  const headingId = useId();
  const charted = useMemo(() => ({ ...story, compared: [] }), [story]);
  const model = useMemo(
    () => buildControlChart(charted, { axis, showPublished, window: days }),
    [charted, axis, showPublished, days],
  );
  const words = controlWords(named, story, checkLimitsAt(logbook, new Date().toISOString()));
  const open = story.failures.find(({ ended }) => ended === null);
  // Without an own mean it would say again what the limits are laid about.
  const published = story.inForce.own === null ? '' : words.published;
  const sentences = [words.missing, words.laidAbout, published, words.spread];
  return (
    <div className="stack stack--loose">
      <div className="stack">
        <div id={headingId}>{title}</div>
        {words.figures.length === 0 ? null : (
          <p className="series-figures">
            {words.figures.map(({ name, value, unit }) => (
              <span key={name}>
                <span className="quiet">{name}</span> {value} <span className="unit">{unit}</span>
              </span>
            ))}
          </p>
        )}
        {sentences
          .filter((sentence) => sentence !== '')
          .map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        <TermLine
          ids={[
            ...kindTerms[named.series.kind],
            'published-limit',
            'own-limits',
            'epoch',
            'z',
            'establishing',
          ]}
        />
        {children}
        {open === undefined ? null : (
          <Notice title={`A failure of this series is open since ${day(open.from)}.`} tone="fail">
            <p>
              No {story.noun} enters its mean until a supervisor closes it.{' '}
              <Link href={controlFailureHref(open.id, named.series)}>What was done about it</Link>
            </p>
          </Notice>
        )}
        {story.impossible > 0 ? (
          <Notice
            title={`${counted(story.impossible, story.noun)} of this series cannot be: left out here.`}
            tone="warn"
          />
        ) : null}
      </div>
      <SeriesChart
        heading={controlHeading(named, logbook)}
        labelledBy={headingId}
        linkTo={(id) => {
          const item = story.items.find((one) => one.id === id);
          return item ? <ControlLink logged={item.logged} /> : null;
        }}
        measured={story.scale.measured}
        model={model}
        onShow={onShow}
        part={part}
        story={charted}
        words={words}
      />
    </div>
  );
}
