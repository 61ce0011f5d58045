import { describe, expect, it } from 'vitest';
import { type CheckDraft, readCheck } from '../../../src/views/checks/readCheck.ts';

const now = Date.parse('2026-03-02T10:00:00.000Z');
const typed = (changes: Partial<CheckDraft> = {}): CheckDraft => ({
  doneAt: '2026-03-02T08:00',
  outcome: 'passed',
  readings: ['', '', ''],
  expected: '3',
  validUntil: '',
  note: 'Held for a minute at three volumes.',
  ...changes,
});
const read = (check: Parameters<typeof readCheck>[0], changes: Partial<CheckDraft> = {}) =>
  readCheck(check, typed(changes), now, 'UTC');

describe('the form of a check', () => {
  it('is whole with a time, an outcome and a note', () => {
    const { content, errors, judged } = read('syringe-leak');
    expect(errors).toEqual({ readings: [undefined, undefined, undefined] });
    expect(judged).toBeNull();
    expect(content).toMatchObject({ outcome: 'passed', volume: null, validUntil: null });
  });

  it.each([
    ['', 'Type the day, the time and a year of four digits.'],
    ['0026-03-02T08:00', 'Type the day, the time and a year of four digits.'],
    ['2026-03-09T08:00', /^This is still to come: it is /],
  ])('stops at the time %j', (doneAt, message) => {
    const { errors, content } = read('syringe-leak', { doneAt });
    expect(errors.doneAt).toMatch(message);
    expect(content).toBeNull();
  });

  it('asks how it came out', () => {
    expect(read('barometer', { outcome: '' })).toMatchObject({
      errors: { outcome: 'Choose how it came out.' },
      content: null,
    });
  });

  it.each([
    ['linearity', 'failed', 'Say what was found.'],
    ['linearity', 'noted', 'Say what is noted.'],
    ['linearity', 'passed', undefined],
    ['biological-control', 'passed', 'Say who was tested, by their code, and what was found.'],
  ] as const)('asks of a %s that %s for a note: %s', (check, outcome, message) => {
    expect(read(check, { outcome, note: '  ' }).errors.note).toBe(message);
  });

  it('takes the date of a certificate where there is one', () => {
    expect(read('syringe-calibration', { validUntil: '2027-03-01' }).content?.validUntil).toBe('2027-03-01');
    expect(read('syringe-leak', { validUntil: '2027-03-01' }).content?.validUntil).toBeNull();
  });

  it.each(['0027-03-01', '20270-03-01', '202703-01'])('stops at a certificate until %s', (validUntil) => {
    expect(read('barometer', { validUntil })).toMatchObject({
      errors: { validUntil: 'Type the day and a year of four digits.' },
      content: null,
    });
  });

  it('stops at a certificate that ended before the check', () => {
    expect(read('barometer', { validUntil: '2026-03-01' }).errors.validUntil).toMatch(
      /^This is before the check/,
    );
    expect(read('barometer', { validUntil: '2026-03-02' }).errors.validUntil).toBeUndefined();
    expect(read('barometer', { validUntil: '0027-03-02' }).errors.validUntil).toMatch(/year of four digits/);
  });
});

// ±2.5 % of 3 L is ±75 mL, ends included: ATS laboratory manual, 3rd edition; 2017 ERS/ATS.
describe('the readings of a volume check', () => {
  const readings = (texts: CheckDraft['readings']) => read('volume-check', { readings: texts, outcome: '' });

  it.each([
    [['3.02', '2.99', '3,04'], 'passed'],
    [['3.075', '', ''], 'passed'],
    [['2.925', '3', '3'], 'passed'],
    [['3.076', '3', '3'], 'failed'],
    [['3', '3', '2.92'], 'failed'],
  ] as const)('%j come out as %s without anybody choosing', (texts, outcome) => {
    const { content, judged } = readings(texts);
    expect(content?.outcome).toBe(outcome);
    expect(judged?.within).toBe(outcome === 'passed');
    expect(content?.volume).toMatchObject({ expectedL: 3, limitFraction: 0.025 });
  });

  it('overrule what was chosen before they were typed', () => {
    const { content } = read('volume-check', { readings: ['3.4', '', ''], outcome: 'passed' });
    expect(content?.outcome).toBe('failed');
  });

  it('need no note, and are kept in the order of the flows', () => {
    const { content } = read('volume-check', { readings: ['3.01', '', '2.98'], note: '' });
    expect(content?.volume?.readL).toEqual([3.01, 2.98]);
  });

  it('stop at what is no number and at a volume to read that is missing', () => {
    const wrong = readings(['3.0.1', '3', '']);
    expect(wrong.errors.readings[0]).toMatch(/is not a number/);
    expect(wrong.content).toBeNull();
    const against = read('volume-check', { readings: ['3', '', ''], expected: '' });
    expect(against).toMatchObject({
      errors: { expected: 'Type the volume that should be read.' },
      content: null,
    });
    expect(read('volume-check', { readings: ['3', '', ''], expected: '3000' }).errors.expected).toMatch(
      /cannot be/,
    );
  });

  it('may be left out: then the outcome is chosen', () => {
    expect(read('volume-check', { outcome: 'passed', note: '' }).content).toMatchObject({
      outcome: 'passed',
      volume: null,
    });
    expect(read('volume-check', { outcome: '' }).errors.outcome).toBe('Choose how it came out.');
  });
});
