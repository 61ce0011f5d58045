/**
 * A number without the noise that binary arithmetic leaves behind its last digits: 0.07 · 100 is 7.000000000000001, and
 * a person typed 7. Twelve significant digits are more than any reading has. What is not finite stays so: whoever judges
 * what was typed refuses it in words.
 */
export const withoutBinaryNoise = (value: number): number => Number(value.toPrecision(12));
