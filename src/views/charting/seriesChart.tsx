import { type ReactNode, useId, useMemo, useRef, useState } from 'react';
import { axisView } from './axisView.ts';
import { beforeAfter, turnings } from './beforeAfter.ts';
import { BeforeAfterPanel } from './beforeAfterPanel.tsx';
import { type ChartStory, timeSpan } from './buildControlChart.ts';
import { buildMemoryPanels } from './buildMemoryPanels.ts';
import { buildStrip } from './buildStrip.ts';
import { useChartChoices } from './chartChoices.ts';
import { ChartControls } from './chartControls.tsx';
import './charting.css';
import { TermLine } from '../parts/term.tsx';
import type { Span } from './chartWindow.ts';
import { ControlChart } from './controlChart.tsx';
import type { ControlChartModel } from './controlChartModel.ts';
import { bandSentence, overlaySentence, type SeriesWords, shownSentence } from './describeSeries.ts';
import { failureSpans } from './failureSpans.ts';
import { MemoryPanels } from './memoryPanels.tsx';
import { SaveChart } from './saveChart.tsx';
import { SignalPanel } from './signalPanel.tsx';
import { idsBehind } from './signalsShown.ts';
import { ZoomStrip } from './zoomStrip.tsx';

/** The chart with what is chosen beside it, and with its words. */
export function SeriesChart({
  model,
  story,
  words,
  measured,
  heading,
  labelledBy,
  linkTo,
  part = '',
  onShow,
}: {
  model: ControlChartModel;
  story: ChartStory;
  words: SeriesWords;
  /** What is measured, as a saved picture names it: `Simulated VA`. */
  measured: string;
  heading: string;
  labelledBy: string;
  /** When one was made, as the way to its page. */
  linkTo: (id: string) => ReactNode;
  /** Of a page with several charts, which this one is: what stands under each must be told apart. */
  part?: string;
  onShow: (shown: Span | null) => void;
}) {
  const descriptionId = useId();
  const drawing = useRef<HTMLDivElement>(null);
  const { axis, showMemory } = useChartChoices();
  const [turningId, setTurningId] = useState('');
  const [signalAt, setSignalAt] = useState('');
  const { items, noun } = story;
  const { from, to, whole } = model;
  const strip = useMemo(() => stripOf(story), [story]);
  const panels = useMemo(
    () => (showMemory ? buildMemoryPanels(story, { from, to }) : []),
    [showMemory, story, from, to],
  );
  const choices = useMemo(() => turnings(story.events, story.baselineStarts), [story]);
  const turning = useMemo(() => {
    const at = choices.find(({ id }) => id === turningId);
    if (at === undefined) return null;
    return beforeAfter(story.items, at, {
      others: choices,
      view: axisView({ ...story, axis }),
      noun: story.noun,
    });
  }, [story, choices, turningId, axis]);
  const isAll = from === whole.from && to === whole.to;
  const shown = isAll ? null : { from, to };
  const chosen = items.find(({ id }) => id === signalAt);
  const shownWords = shownSentence(model);
  const hasPublished = model.rails.length > 0 || items.some(({ published }) => published !== null);
  return (
    <figure className="stack">
      <ChartControls isAll={isAll} model={model} onShow={onShow} />
      <div ref={drawing}>
        <ControlChart
          behind={chosen ? idsBehind(chosen) : []}
          describedBy={descriptionId}
          labelledBy={labelledBy}
          model={model}
          name={heading}
          onChoose={setSignalAt}
          scale={story.scale}
          turning={turning}
        />
        {showMemory ? <MemoryPanels noun={noun} panels={panels} /> : null}
      </div>
      {showMemory ? <TermLine ids={['rule EWMA', 'rule CUSUM']} /> : null}
      <ZoomStrip onShow={onShow} shown={shown} strip={strip} whole={whole} />
      <figcaption className="chart-caption">
        <span className="for-readers" id={descriptionId}>
          {[words.description, shownWords, overlaySentence(model), turning?.difference ?? ''].join(' ')}
        </span>
        <span>{words.counts}</span>
        {shownWords === '' ? null : <span>{shownWords}</span>}
        <span>
          {bandSentence(story.inForce.policy, noun)} {hasPublished ? 'Long dashes: published. ' : ''}Open dot:
          before own limits could judge. Ringed dot: not in the mean and SD. Crossed dot: voided.
        </span>
      </figcaption>
      <SignalPanel
        chosen={signalAt}
        items={items}
        linkTo={linkTo}
        noun={noun}
        onChoose={setSignalAt}
        part={part}
        span={model}
      />
      <BeforeAfterPanel choices={choices} found={turning} noun={noun} onChoose={setTurningId} part={part} />
      <SaveChart
        drawing={drawing}
        source={{
          heading,
          measured,
          scale: story.scale,
          model,
          sentences: [
            words.published,
            words.counts,
            shownWords,
            overlaySentence(model),
            turning?.difference ?? '',
            ...panels.map((panel) => panel.words),
          ],
        }}
      />
    </figure>
  );
}

function stripOf(story: ChartStory) {
  const whole = timeSpan(story);
  return buildStrip(story.items, failureSpans(story.failures, whole.to), whole);
}
