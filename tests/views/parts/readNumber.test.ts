// @vitest-environment node
import { afterEach, describe, expect, it } from 'vitest';
import { type NumberSpec, readNumber } from '../../../src/views/parts/readNumber.ts';
import { setWriting, usualWriting } from '../../../src/views/parts/writing.ts';
import {
  breathHoldSpec,
  dlcoSpec,
  humiditySpec,
  pressureSpec,
  temperatureSpec,
  vaSpec,
} from '../../../src/views/runForm/quantities.ts';

const wrong = (typed: string, spec: NumberSpec) => {
  const read = readNumber(typed, spec);
  if (read.state !== 'wrong') throw new Error(`"${typed}" was read as ${JSON.stringify(read)}`);
  return read;
};

describe('readNumber', () => {
  it('reads a number with a point, a sign of either kind, and blanks around it', () => {
    expect(readNumber('22.0', temperatureSpec('°C'))).toEqual({ state: 'number', value: 22 });
    expect(readNumber('  3.45 ', vaSpec)).toEqual({ state: 'number', value: 3.45 });
    expect(readNumber('-0.12', dlcoSpec('mL/min/mmHg'))).toEqual({ state: 'number', value: -0.12 });
    expect(readNumber('−0.12', dlcoSpec('mL/min/mmHg'))).toEqual({ state: 'number', value: -0.12 });
    expect(readNumber('+.5', dlcoSpec('mL/min/mmHg'))).toEqual({ state: 'number', value: 0.5 });
  });

  it('takes nothing and blanks for empty, which is no error', () => {
    expect(readNumber('', vaSpec)).toEqual({ state: 'empty' });
    expect(readNumber('   ', vaSpec)).toEqual({ state: 'empty' });
  });

  it('takes both ends of what is possible, and nothing beyond them', () => {
    expect(readNumber('0.5', vaSpec)).toEqual({ state: 'number', value: 0.5 });
    expect(readNumber('9', vaSpec)).toEqual({ state: 'number', value: 9 });
    expect(wrong('9.01', vaSpec).message).toMatch(/^9\.01 L cannot be/);
  });

  it.each(['abc', '1e3', '--3', '3 45', '3.4.5', '0x10', 'Infinity', 'NaN', '22°', '٣'])(
    'says that "%s" is no number, and what to type',
    (typed) => {
      expect(wrong(typed, vaSpec)).toEqual({
        state: 'wrong',
        message: `“${typed}” is not a number. Type the alveolar volume in L, for example 3.36.`,
        slip: null,
      });
    },
  );

  it('reads a decimal comma as it reads a point', () => {
    expect(readNumber('3,45', vaSpec)).toEqual({ state: 'number', value: 3.45 });
    expect(readNumber('-,12', dlcoSpec('mL/min/mmHg'))).toEqual({ state: 'number', value: -0.12 });
    expect(readNumber('−0,040', dlcoSpec('mmol/min/kPa'))).toEqual({ state: 'number', value: -0.04 });
    expect(readNumber('22,', temperatureSpec('°C'))).toEqual({ state: 'number', value: 22 });
  });

  it('reads three digits after the mark as decimals wherever these make sense', () => {
    expect(readNumber('3,345', vaSpec)).toEqual({ state: 'number', value: 3.345 });
    expect(readNumber('3.345', vaSpec)).toEqual({ state: 'number', value: 3.345 });
    expect(readNumber('101,325', pressureSpec('kPa'))).toEqual({ state: 'number', value: 101.325 });
  });
});

describe('marks between thousands', () => {
  afterEach(() => setWriting(usualWriting));

  it.each([
    ['1,013.2', '1013.2'],
    ['1.013,2', '1013.2'],
    ['1,013,200', '1013200'],
    ['1.013.200,5', '1013200.5'],
  ])('“%s” is not read, and %s is offered', (typed, meant) => {
    expect(wrong(typed, pressureSpec('hPa'))).toEqual({
      state: 'wrong',
      message: `“${typed}” has more than one mark. A number has one at most, before its decimals. Was ${meant} meant?`,
      slip: { kind: 'text', text: meant },
    });
  });

  it.each(['1,013', '1.013'])('%s hPa cannot be: 1013 is offered', (typed) => {
    expect(wrong(typed, pressureSpec('hPa'))).toEqual({
      state: 'wrong',
      message: `${typed} hPa cannot be. Was 1013 meant? Expected: pressure from 500 to 1100 hPa.`,
      slip: { kind: 'text', text: '1013' },
    });
  });

  it('that part no thousands are no number: nothing is offered', () => {
    for (const typed of ['1,01.3', '3.4.5', '3,4,5', '1,013.2,5', '1.2,345', ',1.2', '12,34,567']) {
      const { message, slip } = wrong(typed, vaSpec);
      expect(message, typed).toMatch(/is not a number/);
      expect(slip).toBeNull();
    }
  });

  it('what is offered is read once it is taken, in either form of writing', () => {
    for (const decimalMark of ['point', 'comma'] as const) {
      setWriting({ ...usualWriting, decimalMark });
      for (const [typed, value] of [
        ['1,013.2', 1013.2],
        ['1.013,2', 1013.2],
        ['1,013', 1013],
      ] as const) {
        const { slip } = wrong(typed, pressureSpec('hPa'));
        if (slip?.kind !== 'text') throw new Error(`nothing is offered for ${typed}`);
        expect(readNumber(slip.text, pressureSpec('hPa'))).toEqual({ state: 'number', value });
      }
    }
  });
});

describe('a laboratory that writes a decimal comma', () => {
  afterEach(() => setWriting(usualWriting));

  it('reads it in every message and offer', () => {
    setWriting({ ...usualWriting, decimalMark: 'comma' });
    expect(wrong('abc', vaSpec).message).toContain('for example 3,36.');
    expect(wrong('33', vaSpec)).toEqual({
      state: 'wrong',
      message: '33 L cannot be. Was 3,3 meant? Expected: alveolar volume from 0,5 to 9 L.',
      slip: { kind: 'text', text: '3,3' },
    });
    expect(wrong('1,013.2', pressureSpec('hPa')).slip).toEqual({ kind: 'text', text: '1013,2' });
    expect(wrong('101,3', pressureSpec('mmHg')).message).toContain('looks like kPa (759,8 mmHg)');
  });

  it('may still type a point', () => {
    setWriting({ ...usualWriting, decimalMark: 'comma' });
    expect(readNumber('3.45', vaSpec)).toEqual({ state: 'number', value: 3.45 });
  });
});

// 760 mmHg = 101.325 kPa = 1013.25 hPa: the standard atmosphere.
describe('a pressure typed in another unit', () => {
  it('760 as kPa is taken for mmHg', () => {
    const { message, slip } = wrong('760', pressureSpec('kPa'));
    expect(message).toBe(
      '760 kPa cannot be: it looks like mmHg (101.3 kPa). Expected: pressure from 50 to 110 kPa.',
    );
    expect(slip).toEqual({ kind: 'unit', unit: 'mmHg' });
  });

  it('101.3 as mmHg is taken for kPa, 1013 for hPa', () => {
    expect(wrong('101.3', pressureSpec('mmHg'))).toMatchObject({
      message: expect.stringContaining('looks like kPa (759.8 mmHg)'),
      slip: { kind: 'unit', unit: 'kPa' },
    });
    expect(wrong('1013', pressureSpec('mmHg')).slip).toEqual({ kind: 'unit', unit: 'hPa' });
    expect(wrong('1013', pressureSpec('kPa')).slip).toEqual({ kind: 'unit', unit: 'hPa' });
    expect(wrong('101.3', pressureSpec('hPa')).slip).toEqual({ kind: 'unit', unit: 'kPa' });
  });
});

describe('a point in the wrong place', () => {
  it.each(['7.6', '7600'])('a pressure of %s mmHg asks whether 760 was meant', (typed) => {
    expect(wrong(typed, pressureSpec('mmHg'))).toEqual({
      state: 'wrong',
      message: `${typed} mmHg cannot be. Was 760 meant? Expected: pressure from 375 to 825 mmHg.`,
      slip: { kind: 'text', text: '760' },
    });
  });

  it('a VA of 33 L asks whether 3.3 was meant', () => {
    expect(wrong('33', vaSpec)).toEqual({
      state: 'wrong',
      message: '33 L cannot be. Was 3.3 meant? Expected: alveolar volume from 0.5 to 9 L.',
      slip: { kind: 'text', text: '3.3' },
    });
  });

  it('a breath-hold of 101 s asks whether 10.1 was meant', () => {
    expect(wrong('101', breathHoldSpec).slip).toEqual({ kind: 'text', text: '10.1' });
  });
});

describe('a value in a unit that the form does not offer', () => {
  it('a temperature of 72 is taken for °F: (72 − 32) / 1.8 = 22.22 °C', () => {
    expect(wrong('72', temperatureSpec('°C'))).toEqual({
      state: 'wrong',
      message: '72 °C cannot be: it looks like °F (22.22 °C). Expected: temperature from 5 to 45 °C.',
      slip: { kind: 'unit', unit: '°F' },
    });
  });

  it('a VA of 3300 is taken for mL', () => {
    const { message, slip } = wrong('3300', vaSpec);
    expect(message).toContain('looks like mL (3.3 L)');
    expect(slip).toEqual({ kind: 'text', text: '3.3' });
  });

  it('a humidity of 0.45 is taken for a fraction', () => {
    const { message, slip } = wrong('0.45', humiditySpec);
    expect(message).toContain('looks like a fraction (45 %)');
    expect(slip).toEqual({ kind: 'text', text: '45' });
  });

  it('what fits no slip is refused with the range alone', () => {
    expect(wrong('-400', temperatureSpec('°C'))).toEqual({
      state: 'wrong',
      message: '-400 °C cannot be. Expected: temperature from 5 to 45 °C.',
      slip: null,
    });
    expect(wrong('-2500', dlcoSpec('mL/min/mmHg')).message).toContain('DLCO from −20 to 20 mL/min/mmHg');
  });
});

describe('a number without a unit', () => {
  const spec: NumberSpec = { name: 'fixed factor', unit: '', lowest: 0.7, highest: 1, example: '0.91' };

  it('leaves no gap in the sentence where the unit would stand', () => {
    expect(wrong('x', spec).message).toBe('“x” is not a number. Type the fixed factor, for example 0.91.');
    expect(wrong('5000', spec).message).toBe('5000 cannot be. Expected: fixed factor from 0.7 to 1.');
  });
});
