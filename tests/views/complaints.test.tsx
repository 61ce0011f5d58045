import { render, screen } from '@testing-library/react';
import { createElement } from 'react';
import { describe, expect, it } from 'vitest';
import { takeComplaints } from './complaints.ts';

describe('component tests', () => {
  it("hear React's complaint about children without keys", () => {
    const items = ['pass', 'warn'].map((word) => createElement('li', null, word));
    render(createElement('ul', null, items));
    expect(takeComplaints().join('\n')).toMatch(/unique "key" prop/);
  });

  it('start with an empty page and a silent console', () => {
    expect(screen.queryByText('pass')).not.toBeInTheDocument();
    expect(takeComplaints()).toEqual([]);
  });
});
