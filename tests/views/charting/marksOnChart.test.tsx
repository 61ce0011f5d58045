import { render } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { clearingsPath, dotsPath, marksPath } from '../../../src/views/charting/chartPaths.ts';
import { MarkPath } from '../../../src/views/parts/verdictMark.tsx';

const same = (value: number) => value;

/** The corners that a path of M, h, v, H and z goes through, in its order. */
function corners(d: string): string[] {
  let [x, y] = [0, 0];
  let start: readonly [number, number] = [0, 0];
  return [...d.matchAll(/([MhvHz])([^MhvHz]*)/g)].map(([, command, rest = '']) => {
    const [first = 0, second = 0] = rest.trim().split(' ').map(Number);
    if (command === 'M') {
      [x, y] = [first, second];
      start = [x, y];
    } else if (command === 'h') x += first;
    else if (command === 'H') x = first;
    else if (command === 'v') y += first;
    else [x, y] = start;
    return `${x} ${y}`;
  });
}

describe('the marks on a chart', () => {
  it.each(['warn', 'fail'] as const)('have the shape that %s has everywhere', (shape) => {
    const { container } = render(
      <svg>
        <title>Mark</title>
        <MarkPath shape={shape} />
      </svg>,
    );
    const everywhere = container.querySelector('path')?.getAttribute('d') ?? '';
    expect(corners(marksPath([{ at: 8, drawnAt: 8 }], shape, same, same))).toEqual(corners(everywhere));
  });

  it('stand each at its own run', () => {
    const two = [
      { at: 10, drawnAt: 20 },
      { at: 30, drawnAt: 40 },
    ];
    expect(marksPath(two, 'warn', same, same)).toBe('M10.0 13.5v13M30.0 33.5v13');
    expect(clearingsPath(two, same, same)).toBe('M4.0 16.0h12v8h-12zM24.0 36.0h12v8h-12z');
    expect(dotsPath(two.slice(0, 1), 3, same, same)).toBe('M7.0 20.0a3 3 0 1 0 6 0a3 3 0 1 0 -6 0');
  });
});
