// @vitest-environment node
import { describe, expect, it } from 'vitest';
import {
  civilDay,
  civilDayInYear,
  counted,
  day,
  dayAndTime,
  dlco,
  dlcoMean,
  dlcoSd,
  dlcoTyped,
  factor,
  litres,
  litresSd,
  litresTyped,
  millilitres,
  percent,
  plain,
  signedMillilitres,
  signedPercent,
  timeOfDay,
  zInTable,
  zOnChart,
} from '../../../src/views/parts/figures.ts';
import { fileSize } from '../../../src/views/parts/fileSize.ts';

// The decimals of each quantity are the ones that the project's look lays down.
describe('figures', () => {
  it('write a volume with two decimals as typed, three as computed, four as an SD, none in mL', () => {
    expect(litresTyped(3.4)).toBe('3.40');
    expect(litres(2.97)).toBe('2.970');
    expect(litresSd(0.0221)).toBe('0.0221');
    expect(millilitres(110)).toBe('110');
  });

  it('write DLCO with two or three decimals by its unit, one more for a mean and two more for an SD', () => {
    expect(dlco(0.1, 'mL/min/mmHg')).toBe('0.10');
    expect(dlco(0.04, 'mmol/min/kPa')).toBe('0.040');
    expect(dlcoMean(-0.013, 'mL/min/mmHg')).toBe('−0.013');
    expect(dlcoMean(-0.013, 'mmol/min/kPa')).toBe('−0.0130');
    expect(dlcoSd(0.078, 'mL/min/mmHg')).toBe('0.0780');
    expect(dlcoSd(0.078, 'mmol/min/kPa')).toBe('0.07800');
  });

  it('keep a DLCO typed with more decimals, so that none below a limit is written as the limit', () => {
    expect(dlcoTyped(0.497, 'mL/min/mmHg')).toBe('0.497');
    expect(dlcoTyped(-0.1655, 'mmol/min/kPa')).toBe('−0.1655');
    expect(dlcoTyped(0.5, 'mL/min/mmHg')).toBe('0.50');
  });

  it('write z with one decimal on charts and two in tables, the factor with four', () => {
    expect(zOnChart(3.14)).toBe('+3.1');
    expect(zInTable(-2.345)).toMatch(/^−2\.3[45]$/);
    expect(factor(0.89277)).toBe('0.8928');
  });

  it('use the true minus sign U+2212, never a hyphen', () => {
    for (const text of [
      litres(-1),
      millilitres(-30),
      zInTable(-1),
      plain(-0.5),
      percent(-0.02),
      signedPercent(-1),
    ]) {
      expect(text).toMatch(/^\u2212\d/);
    }
  });

  it('give zero no sign, whether it is −0 or was rounded from either side', () => {
    expect(litres(-0)).toBe('0.000');
    expect(plain(-0)).toBe('0');
    expect(millilitres(-0.4)).toBe('0');
    expect(signedMillilitres(0.4)).toBe('0');
    expect(signedMillilitres(-0.4)).toBe('0');
    expect(zInTable(-0.004)).toBe('0.00');
    expect(signedPercent(0.0004)).toBe('0.0');
  });

  it('put a plus only before a distance', () => {
    expect(signedMillilitres(92.4)).toBe('+92');
    expect(signedMillilitres(-92.4)).toBe('−92');
    expect(signedPercent(0.064)).toBe('+6.4');
    expect(percent(0.064)).toBe('6.4');
    expect(litres(3)).toBe('3.000');
  });

  it('count one thing and several', () => {
    expect(counted(1, 'run')).toBe('1 run');
    expect(counted(0, 'run')).toBe('0 runs');
    expect(counted(2, 'entry is', 'entries are')).toBe('2 entries are');
  });
});

// UTC+1 in winter and UTC+2 in summer (Central European Time); UTC−5 and UTC−4 (Eastern Time). tz database, from memory.
describe('times', () => {
  it('are written in the zone of the entry, across summer time', () => {
    expect(dayAndTime('2026-03-02T07:14:00.000Z', 'Europe/Oslo')).toBe('2 Mar 2026, 08:14');
    expect(dayAndTime('2026-07-02T07:14:00.000Z', 'Europe/Oslo')).toBe('2 Jul 2026, 09:14');
    expect(timeOfDay('2026-07-02T07:14:00.000Z', 'America/New_York')).toBe('03:14');
  });

  it('can lie on the day before or after in another zone', () => {
    expect(day('2026-03-01T23:30:00.000Z', 'Europe/Oslo')).toBe('2 Mar 2026');
    expect(day('2026-03-01T02:30:00.000Z', 'America/New_York')).toBe('28 Feb 2026');
  });

  it('are written in UTC, and say so, where the zone of the entry is unknown to this browser', () => {
    expect(dayAndTime('2026-03-01T23:30:00.000Z', 'Elsewhere/Made_Up')).toBe('1 Mar 2026, 23:30 UTC');
    expect(day('2026-03-01T23:30:00.000Z', 'Elsewhere/Made_Up')).toBe('1 Mar 2026 UTC');
    expect(timeOfDay(Date.UTC(2026, 2, 1, 23, 30), 'Elsewhere/Made_Up')).toBe('23:30 UTC');
  });

  it('leave a civil date on its day', () => {
    expect(civilDay('2026-01-31')).toBe('31 Jan 2026');
    expect(civilDay('2028-02-29')).toBe('29 Feb 2028');
    expect(civilDayInYear('2028-02-29')).toBe('29 Feb');
  });
});

describe('fileSize', () => {
  it.each([
    [0, '0 bytes'],
    [999, '999 bytes'],
    [1000, '1.0 kB'],
    [1_540_000, '1.5 MB'],
    [99_960, '100 kB'],
    [999_600, '1.0 MB'],
    [61_300_000_000, '61.3 GB'],
    [5e15, '5000 TB'],
  ])('writes %d bytes as %s', (bytes, text) => {
    expect(fileSize(bytes)).toBe(text);
  });
});
