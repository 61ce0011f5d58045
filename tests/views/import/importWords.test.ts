import { describe, expect, it } from 'vitest';
import {
  dateOrderEvidence,
  decimalMarkEvidence,
  delimiterEvidence,
  missingWords,
  unitEvidence,
} from '../../../src/views/import/importWords.ts';

const noDates = { clear: 0, dayFirst: 0, monthFirst: 0, either: 0, other: 0 };

describe('what a proposal rests on', () => {
  it.each([
    [
      { dayFirst: 40, either: 29 },
      '40 dates can only have the day first, none only the month. 29 dates could be either.',
    ],
    [{ monthFirst: 1 }, '1 date can only have the month first, none only the day.'],
    [
      { dayFirst: 2, monthFirst: 3 },
      '2 dates can only have the day first and 3 only the month: choose one, the others will be refused.',
    ],
    [{ either: 8 }, 'No day above 12 tells day from month in 8 dates: you have to say which it is.'],
    [{ clear: 5 }, 'All 5 dates can be read in one way only.'],
    [{ other: 5 }, 'No cell of this column looks like a date.'],
  ])('of dates %o is "%s"', (counts, sentence) => {
    expect(dateOrderEvidence({ ...noDates, ...counts })).toBe(sentence);
  });

  it.each([
    [{ pointed: 3 }, '3 numbers with a point, none with a comma.'],
    [{ comma: 1, whole: 9 }, '1 number with a comma, none with a point.'],
    [
      { pointed: 2, comma: 5 },
      '2 numbers with a point and 5 with a comma: choose one, the others will be refused.',
    ],
    [{ whole: 4 }, 'Every number is whole: nothing tells.'],
    [{}, 'The columns chosen hold no numbers.'],
  ])('of numbers %o is "%s"', (counts, sentence) => {
    expect(decimalMarkEvidence({ pointed: 0, comma: 0, whole: 0, ...counts })).toBe(sentence);
  });

  it('of units says where they are from, and which other column it could be', () => {
    expect(unitEvidence('name', 3.4)).toBe('The unit is in the column’s name.');
    expect(unitEvidence('values', 71.6, ['Temp 2'])).toBe(
      'The unit is guessed from its numbers: 71.6 in the middle. “Temp 2” could be it too.',
    );
    expect(unitEvidence(undefined, null)).toBe('');
  });

  it('of what parts the cells counts rows', () => {
    const counts = [{ delimiter: ';' as const, columns: 7, agreeing: 58, rows: 60 }];
    expect(delimiterEvidence(counts, ';')).toBe('It parts 58 of the first 60 rows into 7 cells.');
    expect(delimiterEvidence(counts, '\t')).toBe('It parts none of the first rows.');
  });
});

describe('missingWords', () => {
  it('names the field or its unit, an abbreviation as it is', () => {
    expect(missingWords({ of: 'unit', field: 'pressure' })).toBe('the unit of barometric pressure');
    expect(missingWords({ of: 'field', field: 'va' })).toBe('VA as reported');
    expect(missingWords({ of: 'dateOrder' })).toBe('the order of day and month');
  });
});
