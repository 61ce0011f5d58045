import { describe, expect, it } from 'vitest';
import { asSentence } from '../../../src/views/parts/asSentence.ts';

describe('asSentence', () => {
  it.each([
    ['Valve sticks', 'Valve sticks.'],
    ['Valve sticks.', 'Valve sticks.'],
    ['Valve sticks?', 'Valve sticks?'],
    [' Valve sticks! ', 'Valve sticks!'],
    ['Sensor 3', 'Sensor 3.'],
  ])('ends what was typed as %j once', (typed, sentence) => {
    expect(asSentence(typed)).toBe(sentence);
  });
});
