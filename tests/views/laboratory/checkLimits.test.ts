import { afterEach, describe, expect, it } from 'vitest';
import { publishedCheckLimits } from '../../../src/core/index.ts';
import { foldJournal } from '../../../src/journal/fold.ts';
import { limitInWords } from '../../../src/views/checkLimitWords.ts';
import {
  adoptCheckLimits,
  type CheckLimitsDraft,
  checkLimitsDraft,
  checkLimitsWarnings,
  readCheckLimits,
} from '../../../src/views/laboratory/adoptCheckLimits.ts';
import { setWriting, usualWriting } from '../../../src/views/parts/writing.ts';
import { sealChain } from '../../journal/fixtures.ts';
import { ids, laboratoryDrafts } from '../laboratory.ts';

const known = [publishedCheckLimits];
const read = (changes: Partial<CheckLimitsDraft>) =>
  readCheckLimits({ ...checkLimitsDraft(publishedCheckLimits), ...changes }, known);
const errorsOf = (changes: Partial<CheckLimitsDraft>) => {
  const reading = read(changes);
  return reading.ok ? {} : reading.errors;
};
const house = { edition: 'House 2026' };

afterEach(() => setWriting(usualWriting));

describe('the form of the limits of the other checks', () => {
  it('comes back as it was opened, with a decimal comma too', () => {
    expect(read({})).toEqual({ ok: true, description: publishedCheckLimits });
    setWriting({ ...usualWriting, decimalMark: 'comma' });
    expect(checkLimitsDraft(publishedCheckLimits)).toMatchObject({
      volumePercent: '2,5',
      linearityPercent: '0,5',
    });
    expect(read({})).toEqual({ ok: true, description: publishedCheckLimits });
  });

  // ±12 % or ±3.0 mL/min/mmHg and 6 %: Hegewald et al. 2012; ±2.0: Gallo, Crapo & Jensen 2007; ±2.5 % at three flows and
  // ±0.5 % of a syringe: ATS laboratory manual, 3rd ed.; ±2.5 % of a barometer: ERS/ATS 2017; linearity: recalled.
  it.each([
    ['biological', /^within 12 % and 3 mL\/min\/mmHg of the mean .* 6 %/],
    ['simulator', /^within 2 mL\/min\/mmHg of the target$/],
    ['volumeCalibration', /^±2\.5 % /],
    ['linearity', /^±0\.5 % of full scale$/],
    ['syringe', /^±0\.5 % of the nominal volume$/],
    ['barometer', /^±2\.5 % of the reference$/],
  ] as const)('starts from the published limit of %s', (check, words) => {
    expect(limitInWords(check, publishedCheckLimits)).toMatch(words);
  });

  it('takes another value with the edition and the source it stands in, and keeps the others', () => {
    expect(read({ ...house, linearityPercent: '1', linearitySource: 'Manual of the analyzer' })).toEqual({
      ok: true,
      description: {
        ...publishedCheckLimits,
        edition: 'House 2026',
        linearity: { fraction: 0.01, source: 'Manual of the analyzer' },
      },
    });
  });

  it('asks for the edition and the source of other values, each beside its own field', () => {
    expect(errorsOf({ barometerPercent: '1' })).toEqual({
      edition: `These are not the limits of “${publishedCheckLimits.edition}”: name the edition that they are of.`,
      barometerSource: 'This value does not stand in that source: name the one that it stands in.',
    });
    expect(errorsOf({ edition: ' ', syringeSource: ' ' })).toEqual({
      edition: expect.stringContaining('Type the edition'),
      syringeSource: expect.stringContaining('Type where this limit is published'),
    });
  });

  it('lets no edition that was adopted stand for other values', () => {
    const adopted = {
      ...publishedCheckLimits,
      ...house,
      simulator: { dlcoMlMinMmHg: 1.5, source: 'Procedure of the house' },
    };
    const again = readCheckLimits({ ...checkLimitsDraft(adopted), simulatorMl: '1' }, [...known, adopted]);
    expect(again).toMatchObject({ ok: false, errors: { edition: expect.stringContaining('House 2026') } });
    expect(readCheckLimits(checkLimitsDraft(adopted), [...known, adopted]).ok).toBe(true);
  });

  it.each([
    ['biologicalPercent', '0.12', /12 meant/],
    ['biologicalMl', '', /^Type the limit of a person’s DLCO/],
    ['biologicalCv', '60', /6 meant/],
    ['simulatorMl', 'two', /not a number/],
    ['volumePercent', '25', /2\.5 meant/],
    ['linearityPercent', '0.05', /0\.5 meant/],
    ['syringePercent', '15', /1\.5 meant/],
    ['barometerPercent', '-2.5', /cannot be/],
  ] as const)('refuses %s of “%s” beside the field', (field, typed, message) => {
    expect(errorsOf({ ...house, [field]: typed })[field]).toMatch(message);
  });

  it('warns of each limit that is wider than the published one, and of none that is not', () => {
    expect(checkLimitsWarnings(publishedCheckLimits)).toEqual([]);
    const tighter = { ...publishedCheckLimits, syringe: { fraction: 0.004, source: 'House' } };
    expect(checkLimitsWarnings(tighter)).toEqual([]);
    const [sentence, ...more] = checkLimitsWarnings({
      ...tighter,
      biological: { ...publishedCheckLimits.biological, dlcoMlMinMmHg: 4 },
      barometer: { fraction: 0.03, source: 'House' },
    });
    expect(sentence).toMatch(
      /biological control within 12 % and 4 mL.*; barometer check ±3 % of the reference/,
    );
    expect(sentence).not.toContain('syringe');
    expect(more).toEqual([]);
  });
});

it('an adoption is an entry that the logbook takes without a complaint', async () => {
  const limits = { ...publishedCheckLimits, ...house };
  const logbook = foldJournal(
    await sealChain([
      ...laboratoryDrafts(),
      ...adoptCheckLimits(limits, '2026-02-01T00:00:00.000Z', ids.supervisor, 'Decided.'),
    ]),
  );
  expect(logbook.problems).toEqual([]);
  expect(logbook.checkLimitEditions.map(({ body }) => body.limits)).toEqual([limits]);
});
