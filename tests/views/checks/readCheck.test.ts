import { describe, expect, it } from 'vitest';
import { publishedCheckLimits } from '../../../src/core/index.ts';
import type { CheckDraft } from '../../../src/views/checks/checkDraft.ts';
import { read, volume } from './draftsOfChecks.ts';

describe('the form of a check', () => {
  it('is whole with a time, an outcome and a note', () => {
    const { content, errors, isJudged } = read('syringe-leak');
    expect(errors).toEqual({});
    expect(isJudged).toBe(false);
    expect(content).toMatchObject({ outcome: 'passed', volume: null, validUntil: null });
    expect(content).not.toHaveProperty('syringe');
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

  it('is judged by the limits in force when it was made, not when it is written down', () => {
    const asked: string[] = [];
    const limitsAt = (instant: string) => {
      asked.push(instant);
      return { ...publishedCheckLimits, barometer: { fraction: 0.01, source: 'House' } };
    };
    const { content } = read(
      'barometer',
      { barometer: { unit: 'mmHg', read: '745', reference: '760' } },
      { limitsAt },
    );
    expect(asked).toEqual([new Date('2026-03-02T08:00').toISOString()]);
    expect(content).toMatchObject({ outcome: 'failed', barometer: { limitFraction: 0.01 } });
  });
});

// ±2.5 % of 3 L is ±75 mL, ends included: ATS laboratory manual, 3rd edition; 2017 ERS/ATS.
describe('the readings of a volume calibration check', () => {
  const readings = (texts: readonly [string, string, string]) =>
    read('volume-check', { volume: volume(texts), outcome: '' });

  it.each([
    [['3.02', '2.99', '3,04'], 'passed'],
    [['3.075', '', ''], 'passed'],
    [['2.925', '3', '3'], 'passed'],
    [['3.076', '3', '3'], 'failed'],
    [['3', '3', '2.92'], 'failed'],
  ] as const)('%j come out as %s without anybody choosing', (texts, outcome) => {
    const { content, isJudged } = readings(texts);
    expect(isJudged).toBe(true);
    expect(content?.outcome).toBe(outcome);
    expect(content?.volume).toMatchObject({ expectedL: 3, limitFraction: 0.025 });
  });

  it('are judged one by one, and say how many of the three flows are missing', () => {
    const { figures } = readings(['3.09', '', '3']);
    if (figures.of !== 'volume' || figures.judged === null) throw new Error('no volume is judged');
    const { byFlow, missing } = figures.judged;
    expect(byFlow.slow).toMatchObject({ within: false });
    expect(byFlow.slow?.deviationFraction).toBeCloseTo(0.03, 12);
    expect(byFlow.fast).toMatchObject({ within: true });
    expect(byFlow).not.toHaveProperty('middle');
    expect(missing).toBe(1);
  });

  it('overrule what was chosen before they were typed', () => {
    const { content } = read('volume-check', { volume: volume(['3.4', '', '']), outcome: 'passed' });
    expect(content?.outcome).toBe('failed');
  });

  it('need no note, and are kept in the order of the flows', () => {
    const { content } = read('volume-check', { volume: volume(['3.01', '', '2.98']), note: '' });
    expect(content?.volume?.readL).toEqual([3.01, 2.98]);
    expect(content?.volume).not.toHaveProperty('flowLPerS');
  });

  it('are kept with their flows, one for each reading or none at all', () => {
    const whole = read('volume-check', {
      volume: volume(['3.01', '', '2.98'], { flows: ['0.5', '', '6'] }),
    });
    expect(whole.content?.volume?.flowLPerS).toEqual([0.5, 6]);
    const lacking = read('volume-check', {
      volume: volume(['3.01', '3', '2.98'], { flows: ['0.5', '', '6'] }),
    });
    expect(lacking.content).toBeNull();
    expect(lacking.figures).toMatchObject({
      errors: { flows: { middle: 'Type this flow too, or leave out all of them.' } },
    });
    const unread = read('volume-check', { volume: volume(['3.01', '', ''], { flows: ['0.5', '2', ''] }) });
    expect(unread.figures).toMatchObject({
      errors: { readings: { middle: 'Type what was read at this flow, or empty the flow.' } },
    });
    expect(unread.content).toBeNull();
  });

  it('stop at what is no number and at a volume to read that is missing', () => {
    const wrong = readings(['3.0.1', '3', '']);
    expect(wrong.figures).toMatchObject({
      errors: { readings: { slow: expect.stringContaining('is not a number') } },
    });
    expect(wrong.content).toBeNull();
    const against = (expected: string) =>
      read('volume-check', { volume: volume(['3', '', ''], { expected }) });
    expect(against('')).toMatchObject({
      figures: { errors: { expected: 'Type the volume that should be read.' } },
      content: null,
    });
    expect(against('3000').figures).toMatchObject({
      errors: { expected: expect.stringContaining('cannot be') },
    });
  });

  it('may be left out: then the outcome is chosen', () => {
    expect(read('volume-check', { outcome: 'passed', note: '' }).content).toMatchObject({
      outcome: 'passed',
      volume: null,
    });
    expect(read('volume-check', { outcome: '' }).errors.outcome).toBe('Choose how it came out.');
  });
});

// ±0.5 % of 3 L is ±15 mL, ends included: ATS laboratory manual, 3rd edition.
describe('the volume of a syringe', () => {
  const syringe = (measured: string, changes: Partial<CheckDraft['syringe']> = {}) => ({
    syringe: { measured, certificate: '71-204', issuedBy: 'An institute', writesRecord: null, ...changes },
  });

  it.each([
    ['3.015', 'passed'],
    ['2,985', 'passed'],
    ['3.016', 'failed'],
    ['2.984', 'failed'],
  ])('certified as %s L comes out as %s', (measured, outcome) => {
    const { content } = read('syringe-calibration', { ...syringe(measured), outcome: '', note: '' });
    expect(content).toMatchObject({
      outcome,
      syringe: { nominalL: 3, limitFraction: 0.005, certificate: '71-204', issuedBy: 'An institute' },
    });
  });

  it('is asked for where a certificate is named, and recognised in mL', () => {
    const lacking = read('syringe-calibration', { ...syringe(''), outcome: 'passed' });
    expect(lacking).toMatchObject({
      figures: { errors: { measured: expect.stringMatching(/^Type the volume that the certificate names/) } },
      content: null,
    });
    expect(read('syringe-calibration', syringe('3004')).figures).toMatchObject({
      errors: { measured: expect.stringContaining('looks like mL (3.004 L)') },
    });
  });

  it('measured with the leak check judges no leak: the word stays with whoever tested for it', () => {
    const measured = syringe('3.004', { certificate: '', issuedBy: '' });
    expect(read('syringe-leak', { ...measured, outcome: 'failed' }).content).toMatchObject({
      outcome: 'failed',
      syringe: { measuredL: 3.004 },
    });
    expect(read('syringe-leak', { ...measured, outcome: '' }).errors.outcome).toBe('Choose how it came out.');
    const off = syringe('3.1', { certificate: '', issuedBy: '' });
    expect(read('syringe-leak', { ...off, outcome: 'passed' })).toMatchObject({
      errors: { outcome: 'The measured volume is outside the limit: this did not pass.' },
      content: null,
    });
  });
});

// ±2.5 % of 760 mmHg is ±19 mmHg, ends included: ERS/ATS 2017.
describe('a barometer', () => {
  const pressures = (read: string, reference: string, unit: 'mmHg' | 'hPa' = 'mmHg') => ({
    barometer: { unit, read, reference },
    outcome: '' as const,
    note: '',
  });

  it.each([
    ['741', 'passed'],
    ['779', 'passed'],
    ['740.9', 'failed'],
    ['779.1', 'failed'],
  ])('that reads %s where the reference reads 760 comes out as %s', (text, outcome) => {
    expect(read('barometer', pressures(text, '760')).content).toMatchObject({
      outcome,
      barometer: { unit: 'mmHg', reference: 760, limitFraction: 0.025 },
    });
  });

  it('needs both pressures, in one unit', () => {
    expect(read('barometer', pressures('1001', '', 'hPa')).figures).toMatchObject({
      errors: { reference: 'Type what the reference read.' },
    });
    expect(read('barometer', pressures('1001', '101.3', 'hPa')).figures).toMatchObject({
      errors: { reference: expect.stringContaining('looks like kPa') },
    });
    expect(read('barometer', pressures('1001', '1013,2', 'hPa')).content?.barometer).toEqual({
      unit: 'hPa',
      read: 1001,
      reference: 1013.2,
      limitFraction: 0.025,
    });
  });
});
