import { describe, expect, it } from 'vitest';
import { askAboutSubject, readSubject } from '../../../src/views/equipment/readSubject.ts';

describe('the code of a biological control', () => {
  it.each([
    ['', /^Type the code/],
    ['   ', /^Type the code/],
    ['BIOCONTROL-13', /has 13 letters: 12 at most/],
  ])('stops at %j', (code, message) => {
    expect(readSubject({ code, note: '' })).toMatchObject({
      ok: false,
      errors: { code: expect.stringMatching(message) },
    });
  });

  it('is taken without the spaces around it', () => {
    expect(readSubject({ code: ' BC1 ', note: ' mornings only ' })).toEqual({
      ok: true,
      description: { code: 'BC1', note: 'mornings only' },
    });
  });

  it.each(['BC1', 'C-07', 'KP2', 'b3', '7', 'BIO12', 'QC-A'])('of the form %s is not asked about', (code) => {
    expect(askAboutSubject({ code, note: '' }, { left: [] })).toEqual([]);
  });

  it.each([
    ['Ida', /looks like a name/],
    ['ORLA', /looks like a name/],
    ['Ørjan', /looks like a name/],
    ['12.03.85', /looks like a date of birth/],
    ['1985-03-12', /looks like a date of birth/],
    ['120385', /looks like a date of birth/],
    ['3/12/1985', /looks like a date of birth/],
    ['BC 1', /has a space in it/],
    ['Ida F', /looks like a name, and has a space in it/],
  ])('such as %j is asked about', (code, question) => {
    const questions = askAboutSubject({ code, note: '' }, { left: [] });
    expect(questions).toHaveLength(1);
    expect(questions[0]).toMatch(question);
  });

  it('is not asked about again where only the note changes', () => {
    const before = { code: 'Ida', note: '' };
    expect(askAboutSubject({ code: 'Ida', note: 'mornings only' }, { before, left: [] })).toEqual([]);
  });

  it('that somebody bore who has left is asked about', () => {
    expect(askAboutSubject({ code: 'bc1', note: '' }, { left: ['BC1'] })[0]).toMatch(
      /stood for somebody who has left/,
    );
  });

  it('comes with a note that holds no date either', () => {
    expect(askAboutSubject({ code: 'BC1', note: 'b. 12.03.1985' }, { left: [] })[0]).toMatch(
      /^The note holds/,
    );
  });
});
