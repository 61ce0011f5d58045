import { describe, expect, it } from 'vitest';
import { readNewPassphrase } from '../../../src/views/parts/readNewPassphrase.ts';

const read = (chosen: string, again = chosen, reason: string | null = null) =>
  readNewPassphrase({ chosen, again, reason });
const marked = (chosen: string, again = chosen, reason: string | null = null) => {
  const reading = read(chosen, again, reason);
  return reading.ok ? {} : reading.errors;
};

// At least eight characters and no rule on which: NIST SP 800-63B (2017), section 5.1.1.2 (from memory).
describe('readNewPassphrase', () => {
  it('takes eight characters, whichever they are, as typed', () => {
    for (const typed of ['aaaaaaaa', '12345678', '  heron ', 'ÆØÅæøåÆØ', '四羽の灰色の鷺だ']) {
      expect(read(typed)).toEqual({ ok: true, passphrase: typed, reason: '' });
    }
  });

  it('says how many there are where they are too few', () => {
    expect(marked('')).toEqual({ chosen: 'Choose a passphrase of 8 characters or more.' });
    expect(marked('1234567')).toEqual({ chosen: 'This has 7. Choose 8 characters or more.' });
  });

  // U+1D49C lies in two halves in memory; e and U+0301 are one letter (Unicode Annex 15).
  it('counts letters, not what they are stored in', () => {
    expect(marked('\u{1d49c}'.repeat(7))).toEqual({ chosen: 'This has 7. Choose 8 characters or more.' });
    expect(marked('e\u0301'.repeat(7))).toEqual({ chosen: 'This has 7. Choose 8 characters or more.' });
  });

  it('wants it twice, the same', () => {
    expect(marked('four grey herons', '')).toEqual({ again: 'Type it a second time, against a slip.' });
    expect(marked('four grey herons', 'four grey heron')).toHaveProperty('again');
    expect(marked('four grey herons', 'four grey herons ')).toHaveProperty('again');
  });

  it('does not ask for it a second time while the first is too short', () => {
    expect(Object.keys(marked('heron', ''))).toEqual(['chosen']);
  });

  it('wants a reason where one is asked for, and trims it', () => {
    expect(Object.keys(marked('four grey herons', 'four grey herons', ' \n'))).toEqual(['reason']);
    expect(read('four grey herons', 'four grey herons', ' Forgotten. ')).toMatchObject({
      ok: true,
      reason: 'Forgotten.',
    });
  });
});
