import { render } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { placeStillChart } from '../../../src/views/charting/placeStillChart.ts';
import { StillChart } from '../../../src/views/charting/stillChart.tsx';
import { chartOf } from '../charts/chart.ts';
import { analyzerId, entry, instant, steadyVa, week, weeklyRuns } from '../charts/madeUpLogbook.ts';

const event = (at: number) =>
  entry(
    'event-recorded',
    { eventId: `event-${at}`, analyzerId, happenedAt: instant(at), type: 'cylinder', description: 'New' },
    at,
  );
/** Twenty steady runs, then one 5.3 SD above their mean. */
const drifted = weeklyRuns([...steadyVa, 3.1]);

describe('placeStillChart', () => {
  it('puts the ends of the axes on the ends of the plot', () => {
    const model = chartOf(drifted);
    const { plot, x, y } = placeStillChart(model);
    expect([x(model.from), x(model.to)]).toEqual([plot.x, plot.x + plot.width]);
    expect([y(model.valueAxis.from), y(model.valueAxis.to)]).toEqual([plot.y + plot.height, plot.y]);
  });

  it.each([3, 20, 53, 104, 300])('keeps the words of the time axis of %i weeks apart', (count) => {
    const values = Array.from({ length: count }, (_, index) => 3 + (index % 2) / 100);
    const { timeWords, plot } = placeStillChart(chartOf(weeklyRuns(values)));
    expect(timeWords.length).toBeGreaterThan(0);
    const steps = timeWords.slice(1).map(({ x }, index) => x - (timeWords[index]?.x ?? 0));
    // `Mar 2026` in 13 px is some 60 px wide.
    expect(Math.min(...steps, plot.width)).toBeGreaterThanOrEqual(55);
  });

  it('leaves room for flags only where something happened', () => {
    const plain = placeStillChart(chartOf(drifted));
    const flagged = placeStillChart(chartOf([...drifted, event(week(5))]));
    expect(flagged.height).toBeGreaterThan(plain.height);
    expect(flagged.plot).toEqual(plain.plot);
  });
});

describe('StillChart', () => {
  it('draws every run within its picture, the failing one with its mark and its rule', () => {
    const model = chartOf(drifted);
    const { container, getByText, getByRole } = render(<StillChart model={model} name="VA, Room 2" />);
    expect(getByRole('img', { name: 'VA, Room 2' })).toBeInTheDocument();
    const dots = [...container.querySelectorAll('.control-chart__dots path')]
      .map((path) => path.getAttribute('d') ?? '')
      .join('');
    // Each dot begins with a move; the failing run is a mark in its place.
    expect(dots.match(/M/g)).toHaveLength(steadyVa.length);
    expect(container.querySelector('[data-shape="fail"] .mark')).not.toBeNull();
    expect(getByText(/1-3s/)).toBeInTheDocument();
    const { width } = placeStillChart(model);
    const lefts = [...dots.matchAll(/M([\d.]+)/g)].map(([, left]) => Number(left));
    expect(Math.min(...lefts)).toBeGreaterThan(0);
    expect(Math.max(...lefts)).toBeLessThan(width);
  });
});
