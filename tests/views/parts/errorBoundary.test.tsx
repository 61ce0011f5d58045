import { render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { ErrorBoundary } from '../../../src/views/parts/errorBoundary.tsx';

function Broken(): never {
  throw new Error('made up for this test');
}

const page = (address: string) => (
  <ErrorBoundary address={address}>{address === '/charts' ? <Broken /> : <p>The bench.</p>}</ErrorBoundary>
);

describe('a page that cannot be drawn', () => {
  // React tells the console of every caught fault.
  beforeEach(() => vi.spyOn(console, 'error').mockImplementation(() => {}));
  afterEach(() => vi.restoreAllMocks());

  it('says what happened, and that what is recorded is safe', () => {
    render(page('/charts'));
    expect(screen.getByRole('alert')).toHaveTextContent('What is recorded is safe');
    expect(screen.getByRole('alert')).toHaveTextContent('made up for this test');
  });

  it('leaves every other page standing', () => {
    const { rerender } = render(page('/charts'));
    rerender(page('/bench'));
    expect(screen.getByText('The bench.')).toBeInTheDocument();
    rerender(page('/charts'));
    expect(screen.getByRole('alert')).toBeInTheDocument();
  });
});
