import { describe, expect, it } from 'vitest';
import { buildChartLayout } from '../../../src/views/charting/buildChartLayout.ts';
import { bandPath, railsOnAxis, steppedPath, stretchesPath } from '../../../src/views/charting/chartPaths.ts';
import { limitStep } from '../../../src/views/charting/limitSteps.ts';
import { estimatedWidth } from '../../../src/views/charting/placeLabels.ts';
import { plainWidths } from '../../../src/views/judgedBy.ts';
import { chartOf } from '../charts/chart.ts';
import { runId, steadyVa, weeklyRuns } from '../charts/madeUpLogbook.ts';

const same = (value: number) => value;

describe('chart paths', () => {
  const steps = [
    { from: 0, to: 10, ...limitStep(5, 1, plainWidths) },
    { from: 10, to: 20, ...limitStep(6, 1, plainWidths) },
    { from: 30, to: 40, ...limitStep(7, 1, plainWidths) },
  ];

  it('steps upright where limits changed and leaves a gap where there were none', () => {
    expect(steppedPath(steps, ({ mean }) => mean, same, same)).toBe(
      'M0.0 5.0L10.0 5.0L10.0 6.0L20.0 6.0M30.0 7.0L40.0 7.0',
    );
  });

  it('closes the band along its lower line backwards', () => {
    const low = ({ low2 }: { low2: number }) => low2;
    const high = ({ high2 }: { high2: number }) => high2;
    expect(bandPath(steps.slice(0, 1), low, high, same, same)).toBe('M0.0 7.0L10.0 7.0L10.0 3.0L0.0 3.0Z');
  });

  it('joins the runs of each stretch and nothing between stretches', () => {
    const stretches = [
      [
        { at: 1, value: 2 },
        { at: 3, value: 4 },
      ],
      [{ at: 5, value: 6 }],
    ];
    expect(stretchesPath(stretches, same, same)).toBe('M1.0 2.0L3.0 4.0M5.0 6.0');
    expect(stretchesPath([], same, same)).toBe('');
  });

  it('leaves out a rail beyond the axis', () => {
    const rails = [
      { from: 0, to: 1, low: 2.7, high: 3.3 },
      { from: 1, to: 2, low: 2.8, high: 3.2 },
    ];
    expect(railsOnAxis(rails, ({ high }) => high, { from: 2.9, to: 3.25 })).toEqual([rails[1]]);
  });
});

describe('buildChartLayout', () => {
  const model = chartOf(weeklyRuns([...steadyVa, 3.1, 3.1]));
  const plotOf = (width: number) => ({ x: 50, y: 20, width, height: 300 });
  const layoutOf = (width: number, shown = model) => {
    const plot = plotOf(width);
    const x = (at: number) => plot.x + ((at - shown.from) / (shown.to - shown.from)) * plot.width;
    const { from, to } = shown.valueAxis;
    const y = (value: number) => plot.y + ((to - value) / (to - from)) * plot.height;
    return buildChartLayout(shown, plot, x, y);
  };

  it('puts the rule beside its mark and names the lines in their order', () => {
    const layout = layoutOf(900);
    expect(layout.ruleLabels.map(({ key, text }) => [key, text])).toContainEqual([runId(20), '1-3s']);
    expect(layout.lineNames.map(({ key }) => key)).toEqual(['high3', 'mean', 'low3']);
  });

  it('lifts the words of a rail beyond the axis off those of a failure when the paper is narrow', () => {
    const belowAt = (width: number) =>
      layoutOf(width).outsideWords.find(({ key }) => key === 'below')?.y ?? 0;
    const failureAt = (width: number) => layoutOf(width).failureWords[0]?.y ?? 0;
    expect(layoutOf(230).failureWords).toHaveLength(1);
    expect(failureAt(230) - belowAt(230)).toBeGreaterThanOrEqual(15);
  });

  it('puts the words of a rail beyond the axis to the left where a mark stands in their way at the right', () => {
    // A run of 2.88 L, 6 SD low, is the lowest point of the chart and its last.
    const low = chartOf(weeklyRuns([...steadyVa, 2.88]));
    const word = layoutOf(900, low).outsideWords.find(({ key }) => key === 'below');
    expect(word?.text).toMatch(/^↓ published 2\.700 L/);
    expect(word?.x).toBe(50 + estimatedWidth(word?.text ?? '') + 4);
  });

  it('keeps every word on the paper at 390 px', () => {
    const layout = layoutOf(230);
    const right = 50 + 230;
    const words = [...layout.failureWords, ...layout.epochWords];
    for (const { x, text } of words) expect(x + estimatedWidth(text)).toBeLessThanOrEqual(right);
    for (const { x, text } of layout.ruleLabels) {
      expect(x - estimatedWidth(text) / 2).toBeGreaterThanOrEqual(50);
      expect(x + estimatedWidth(text) / 2).toBeLessThanOrEqual(right);
    }
  });
});
