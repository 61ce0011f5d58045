import { describe, expect, it } from 'vitest';
import { rateInWords, waitInSentence, waitInWords } from '../../../src/views/notice/waitWords.ts';

describe('a wait in words', () => {
  it.each([
    [1, 'next run'],
    [1.09, 'next run'],
    [1.3, '1 week'],
    [1.69, '2 weeks'],
    [6.3, '6 weeks'],
    [43.9, '44 weeks'],
    [52.4, '52 weeks'],
    [52.6, '1 year'],
    [94.7, '1.8 years'],
    [184.2, '4 years'],
    [370.4, '7 years'],
    [520, '10 years'],
    [530, 'more than 10 years'],
    [Number.POSITIVE_INFINITY, 'more than 10 years'],
  ])('is for %d weekly runs “%s”', (runs, words) => {
    expect(waitInWords(runs, 1)).toBe(words);
  });

  it('is one of days where runs are daily', () => {
    expect(waitInWords(2, 7)).toBe('2 days');
    expect(waitInWords(1.2, 7)).toBe('1 day');
    expect(waitInWords(6, 7)).toBe('1 week');
  });

  it('stands in a sentence', () => {
    expect(waitInSentence(1, 1)).toBe('at the next run');
    expect(waitInSentence(6.3, 1)).toBe('after 6 weeks');
  });
});

describe('a rate in words', () => {
  it.each([
    [31.4, '31 a year'],
    [9.96, '10 a year'],
    [1.69, '1.7 a year'],
    [1, '1 a year'],
    [0.5, '1 in 2 years'],
    [0.4, '1 in 2.5 years'],
    [0.14, '1 in 7 years'],
    [0.09, 'fewer than 1 in 10 years'],
  ])('of %d a year is “%s”', (perYear, words) => {
    expect(rateInWords(perYear)).toBe(words);
  });
});
