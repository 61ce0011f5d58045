import { useId, useMemo, useRef, useState } from 'react';
import { axisView } from './axisView.ts';
import { beforeAfter, turnings } from './beforeAfter.ts';
import { BeforeAfterPanel } from './beforeAfterPanel.tsx';
import { type ChartStory, timeSpan } from './buildControlChart.ts';
import { buildMemoryPanels } from './buildMemoryPanels.ts';
import { buildStrip } from './buildStrip.ts';
import { useChartChoices } from './chartChoices.ts';
import { ChartControls } from './chartControls.tsx';
import type { ChartSeries } from './chartSeries.ts';
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
  series,
  heading,
  labelledBy,
  onShow,
}: {
  model: ControlChartModel;
  story: ChartStory;
  words: SeriesWords;
  series: ChartSeries;
  heading: string;
  labelledBy: string;
  onShow: (shown: Span | null) => void;
}) {
  const descriptionId = useId();
  const drawing = useRef<HTMLDivElement>(null);
  const { axis, showMemory } = useChartChoices();
  const [turningId, setTurningId] = useState('');
  const [signalAt, setSignalAt] = useState('');
  const { from, to, whole } = model;
  const strip = useMemo(() => stripOf(story), [story]);
  const panels = useMemo(
    () => (showMemory ? buildMemoryPanels(story.runs, story.policySteps, { from, to }) : []),
    [showMemory, story, from, to],
  );
  const choices = useMemo(() => turnings(story.events, story.baselineStarts), [story]);
  const turning = useMemo(() => {
    const at = choices.find(({ id }) => id === turningId);
    return at ? beforeAfter(story.runs, at, choices, axisView({ ...story, axis })) : null;
  }, [story, choices, turningId, axis]);
  const isAll = from === whole.from && to === whole.to;
  const shown = isAll ? null : { from, to };
  const chosen = story.runs.find(({ run }) => run.id === signalAt);
  const shownWords = shownSentence(model);
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
        {showMemory ? <MemoryPanels panels={panels} /> : null}
      </div>
      <ZoomStrip onShow={onShow} shown={shown} strip={strip} whole={whole} />
      <figcaption className="chart-caption">
        <span className="for-readers" id={descriptionId}>
          {[words.description, shownWords, overlaySentence(model), turning?.difference ?? ''].join(' ')}
        </span>
        <span>{words.runs}</span>
        {shownWords === '' ? null : <span>{shownWords}</span>}
        <span>
          {bandSentence(story.inForce.policy)} Long dashes: published. Open dot: before own limits could
          judge. Ringed dot: not in the mean and SD. Crossed dot: voided.
        </span>
      </figcaption>
      <SignalPanel chosen={signalAt} onChoose={setSignalAt} runs={story.runs} span={model} />
      <BeforeAfterPanel choices={choices} found={turning} onChoose={setTurningId} />
      <SaveChart
        drawing={drawing}
        source={{
          heading,
          quantity: series.quantity,
          scale: story.scale,
          model,
          sentences: [
            words.published,
            words.runs,
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
  return buildStrip(story.runs, failureSpans(story, whole.to), whole);
}
