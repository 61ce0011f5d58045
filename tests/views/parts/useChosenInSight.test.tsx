import { render } from '@testing-library/react';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { useChosenInSight } from '../../../src/views/parts/useChosenInSight.ts';

/** Its top stands so many px below the top of a window of 800 px. */
function RightPage({ chosen, top }: { chosen: string; top: number }) {
  const page = useChosenInSight(chosen);
  const standsAt = (element: HTMLDivElement | null) => {
    page.current = element;
    if (element) element.getBoundingClientRect = () => new DOMRect(0, top, 390, 900);
  };
  return <div ref={standsAt} />;
}

describe('the right page of what is chosen', () => {
  const broughtUp = vi.fn();
  beforeEach(() => {
    broughtUp.mockClear();
    window.innerHeight = 800;
    Element.prototype.scrollIntoView = broughtUp;
  });

  it('comes up once for each choice where it stands below the list', () => {
    const { rerender } = render(<RightPage chosen="" top={700} />);
    expect(broughtUp).not.toHaveBeenCalled();
    rerender(<RightPage chosen="person/1" top={700} />);
    rerender(<RightPage chosen="person/1" top={700} />);
    expect(broughtUp).toHaveBeenCalledTimes(1);
    rerender(<RightPage chosen="person/2" top={700} />);
    expect(broughtUp).toHaveBeenCalledTimes(2);
  });

  it('stays where it is beside the list', () => {
    const { rerender } = render(<RightPage chosen="" top={60} />);
    rerender(<RightPage chosen="person/1" top={60} />);
    expect(broughtUp).not.toHaveBeenCalled();
  });
});
