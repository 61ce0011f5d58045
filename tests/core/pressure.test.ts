import { describe, expect, it } from 'vitest';
import { pressureInMmHg } from '../../src/core/index.ts';

describe('pressureInMmHg', () => {
  it('makes one standard atmosphere 760 mmHg', () => {
    // 101.325 kPa is 760 torr by definition; the conventional mmHg is 1.4e-7 larger (NIST SP 811, appendix B.8).
    expect(pressureInMmHg(101.325, 'kPa')).toBeCloseTo(760, 3);
    expect(pressureInMmHg(1013.25, 'hPa')).toBeCloseTo(760, 3);
    expect(pressureInMmHg(760, 'mmHg')).toBe(760);
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('refuses %d', (value) => {
    expect(() => pressureInMmHg(value, 'kPa')).toThrow(RangeError);
    expect(() => pressureInMmHg(value, 'kPa')).toThrow(/value is .* kPa/);
  });
});
