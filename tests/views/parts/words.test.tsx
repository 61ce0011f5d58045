import { render, screen } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { type Finding, ruleIds } from '../../../src/core/index.ts';
import {
  eventTypeSchema,
  roleSchema,
  routeSchema,
  runReasonSchema,
} from '../../../src/journal/vocabulary.ts';
import { VerdictBadge } from '../../../src/views/parts/verdictMark.tsx';
import {
  conversionWords,
  disagreementSentence,
  eventWords,
  findingSentence,
  reasonWords,
  roleWords,
  routeWords,
  ruleWords,
} from '../../../src/views/parts/words.ts';

describe('findingSentence', () => {
  const findings: [Finding, string][] = [
    [
      { kind: 'published-limit', quantity: 'va', value: 0.37, target: 3, limit: 0.3, unit: 'L' },
      'Simulated VA is outside the published 300 mL.',
    ],
    [
      {
        kind: 'published-limit',
        quantity: 'dlco',
        value: 0.2,
        target: 0,
        limit: 0.166,
        unit: 'mmol/min/kPa',
      },
      'DLCO is not below the published 0.166 mmol/min/kPa.',
    ],
    [
      { kind: 'signal', quantity: 'va', rule: '2-2s', severity: 'action', ids: [] },
      'VA: 2-2s, two runs in a row beyond 2 SD on the same side.',
    ],
    [
      { kind: 'volume-check', fraction: -0.0412, limit: 0.03 },
      'The volume check is 4.1 % low, outside ±3 %: look at volume measurement first.',
    ],
    [
      // As a laboratory may adopt it: rounded to ±3 %, the sentence would contradict itself.
      { kind: 'volume-check', fraction: 0.0272, limit: 0.025 },
      'The volume check is 2.7 % high, outside ±2.5 %: look at volume measurement first.',
    ],
    [
      { kind: 'breath-hold', breathHoldS: 12.5, targetS: 10, toleranceS: 2 },
      'Breath-hold time 12.5 s is outside 10 ± 2 s.',
    ],
  ];

  it.each(findings)('says %j as a sentence', (finding, sentence) => {
    expect(findingSentence(finding)).toBe(sentence);
  });

  it('has words for every rule, each its own', () => {
    const words = ruleIds.map((rule) => ruleWords[rule]);
    for (const each of words) expect(each).toMatch(/^[a-z].{15,}[^.]$/);
    expect(new Set(words).size).toBe(ruleIds.length);
  });
});

describe('words of what can be chosen', () => {
  it.each([
    ['event', eventTypeSchema.options, eventWords],
    ['role', roleSchema.options, roleWords],
    ['route', routeSchema.options, routeWords],
    ['reason', runReasonSchema.options, reasonWords],
  ] as const)('every %s has its own, beginning with a capital', (_, options, words) => {
    const table = new Map<string, string>(Object.entries(words));
    expect([...table.keys()].sort()).toEqual([...options].sort());
    expect(new Set(table.values()).size).toBe(options.length);
    for (const word of table.values()) expect(word).toMatch(/^[A-Z]/);
  });

  it('a conversion says whether it is computed, for which gas, or fixed at what', () => {
    expect(conversionWords({ kind: 'fixed', factor: 0.91 })).toBe('fixed factor 0.91');
    expect(conversionWords({ kind: 'computed', assumed: 'ATPD' })).toMatch(/computed.*dry/);
    expect(conversionWords({ kind: 'computed', assumed: 'ATPS' })).toMatch(/computed.*saturated/);
  });
});

// A positive DLCO of a syringe is CO that reads low against the tracer: the single-breath equation, derived.
describe('disagreementSentence', () => {
  it('names the analyzer that reads off, which way and how far', () => {
    expect(disagreementSentence(0.0216)).toBe('CO reads 2.16 % low against the tracer');
    expect(disagreementSentence(-0.0216)).toBe('CO reads 2.16 % high against the tracer');
  });

  it('does not write 0.00 % low', () => {
    expect(disagreementSentence(0.00004)).toBe('CO and tracer agree within 0.005 %');
    expect(disagreementSentence(-0)).toBe('CO and tracer agree within 0.005 %');
  });
});

describe('VerdictBadge', () => {
  const shapeOf = (element: HTMLElement) => element.querySelector('path')?.getAttribute('d');

  it('says every verdict by a word and a shape of its own, never by colour alone', () => {
    render(
      <>
        <VerdictBadge word="pass" />
        <VerdictBadge word="warn" />
        <VerdictBadge word="fail" />
      </>,
    );
    const badges = ['Pass', 'Warning', 'Fail'].map((word) => screen.getByText(word));
    const shapes = badges.map(shapeOf);
    expect(new Set(shapes).size).toBe(3);
    for (const shape of shapes) expect(shape).toMatch(/^M/);
  });

  it('hides the drawing from screen readers, which have the word', () => {
    render(<VerdictBadge word="fail" />);
    expect(screen.getByText('Fail').querySelector('svg')).toHaveAttribute('aria-hidden', 'true');
  });

  it('adds to the verdict that there is no own baseline yet, in words and a dotted box', () => {
    render(<VerdictBadge establishing word="pass" />);
    expect(screen.getByText('Pass')).toBeInTheDocument();
    const aside = screen.getByTitle('No own baseline yet');
    expect(aside).toHaveTextContent('No own baseline yet');
    expect(aside.querySelector('path')).toHaveAttribute('stroke-dasharray');
  });
});
