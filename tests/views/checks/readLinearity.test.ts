import { afterEach, describe, expect, it } from 'vitest';
import { linearitySentence } from '../../../src/views/checks/judgedWords.ts';
import { readPastedColumns, withPasted } from '../../../src/views/checks/pastedPoints.ts';
import { readLinearity } from '../../../src/views/checks/readLinearity.ts';
import { lineSentences } from '../../../src/views/linearityWords.ts';
import { setWriting, usualWriting } from '../../../src/views/parts/writing.ts';
import { gas, read } from './draftsOfChecks.ts';

const limit = 0.005;
/** Full scale 0.3 %: ±0.5 % of it is ±0.0015 % (recalled of the 2017 standard, and arithmetic). */
const straight = gas([
  ['0', '0.001'],
  ['0.075', '0.0755'],
  ['0,15', '0,151'],
  ['0.225', '0.225'],
  ['0.3', '0.2985'],
]);

afterEach(() => setWriting(usualWriting));

describe('the points of a gas analyzer', () => {
  it('come out without anybody choosing, and are kept as they were typed', () => {
    const { content } = read('linearity', { linearity: [straight], outcome: '', note: '' });
    expect(content).toMatchObject({
      outcome: 'passed',
      linearity: [
        {
          gas: 'CO',
          unit: '%',
          fullScale: 0.3,
          limitFraction: 0.005,
          points: [
            { expected: 0, read: 0.001 },
            { expected: 0.075, read: 0.0755 },
            { expected: 0.15, read: 0.151 },
            { expected: 0.225, read: 0.225 },
            { expected: 0.3, read: 0.2985 },
          ],
        },
      ],
    });
  });

  it('fail together where one gas fails', () => {
    const off = gas(
      [
        ['0', '0'],
        ['10', '10.1'],
      ],
      { key: 'he', gas: 'He', fullScale: '10' },
    );
    const { content } = read('linearity', { linearity: [straight, off], outcome: '' });
    expect(content).toMatchObject({ outcome: 'failed', linearity: [{ gas: 'CO' }, { gas: 'He' }] });
  });

  it('are judged each by itself while others are still missing', () => {
    const { gases } = readLinearity(
      [
        gas([
          ['0', '0'],
          ['0.15', '0.1517'],
          ['0.3', ''],
        ]),
      ],
      limit,
    );
    const [first] = gases;
    // 0.0017 of 0.3 by hand.
    expect(first?.judgedPoints.get('point-1')?.deviationFraction).toBeCloseTo(0.0017 / 0.3, 12);
    expect(first?.judgedPoints.get('point-1')?.within).toBe(false);
    expect(first?.errors.byPoint.get('point-2')).toEqual({
      read: 'Type what was read of it, or empty the dilution.',
    });
    expect(first?.figures).toBeNull();
  });

  it('leave a gas of which nothing was read out of the record', () => {
    const unread = gas([['1', '']], { key: 'he', gas: 'He' });
    expect(readLinearity([straight, unread], limit).figures?.map((one) => one.gas)).toEqual(['CO']);
    expect(read('linearity', { linearity: [unread], outcome: '' }).errors.outcome).toBe(
      'Choose how it came out.',
    );
  });

  it.each([
    [gas([['0', '0']]), 'point-0', 'read', /^Two points at least/],
    [
      gas([
        ['', '0.1'],
        ['0.3', '0.3'],
      ]),
      'point-0',
      'expected',
      /^Type what the dilution holds/,
    ],
    [
      gas([
        ['0', '0'],
        ['0.15', '1.5'],
      ]),
      'point-1',
      'read',
      /Was 0\.15 meant\?/,
    ],
    [
      gas([
        ['0', '0'],
        ['1.5', '0.15'],
      ]),
      'point-1',
      'expected',
      /Was 0\.15 meant\?/,
    ],
    [
      gas([
        ['0', 'zero'],
        ['0.3', '0.3'],
      ]),
      'point-0',
      'read',
      /is not a number/,
    ],
    [
      gas([
        ['-0.1', '0'],
        ['0.3', '0.3'],
      ]),
      'point-0',
      'expected',
      /cannot be/,
    ],
  ] as const)('are stopped at beside the field, case %#', (draft, key, field, message) => {
    const { gases, figures, isWhole } = readLinearity([draft], limit);
    expect(gases[0]?.errors.byPoint.get(key)?.[field]).toMatch(message);
    expect(isWhole).toBe(false);
    expect(figures).toBeNull();
  });

  it.each([
    ['', '%', /^Type the full scale in %/],
    ['300', '%', /cannot be/],
    ['0.3', 'ppm', /cannot be/],
  ] as const)('need a full scale that can be: “%s” %s', (fullScale, unit, message) => {
    const { gases, isWhole } = readLinearity([{ ...straight, fullScale, unit }], limit);
    expect(gases[0]?.errors.fullScale).toMatch(message);
    expect(isWhole).toBe(false);
  });

  it('may read below zero, as an analyzer does that drifts', () => {
    const { figures } = readLinearity(
      [
        gas([
          ['0', '−0.002'],
          ['0.3', '0.3'],
        ]),
      ],
      limit,
    );
    expect(figures?.[0]?.points[0]).toEqual({ expected: 0, read: -0.002 });
  });
});

describe('what the line through the points says', () => {
  const judgedOf = (points: Parameters<typeof gas>[0]) => {
    const judged = readLinearity([gas(points)], limit).gases[0]?.judged;
    if (!judged) throw new Error('nothing is judged');
    return judged;
  };

  it('is that gain is off where the points lie straight: 2 % of 0.3 is 2 % of full scale', () => {
    const judged = judgedOf([
      ['0', '0'],
      ['0.15', '0.153'],
      ['0.3', '0.306'],
    ]);
    expect(linearitySentence(judged, limit, '%')).toBe(
      'Furthest +2.00 % of full scale, at 0.3 %, outside ±0.5 %.',
    );
    const [line, scatter, meaning] = lineSentences(judged, '%');
    expect(line).toBe('Line through 3 points: reads 1.02 × the dilution + 0 %.');
    expect(scatter).toMatch(/^Furthest from that line [+−]?0\.00 % of full scale\.$/);
    expect(meaning).toMatch(/^On a straight line, though not the right one/);
  });

  it('is that a calibration does not help where they do not', () => {
    // A bow of 0.006 % in the middle, none at the ends: 2 % of full scale. The line lies a third of it higher, by hand.
    const judged = judgedOf([
      ['0', '0'],
      ['0.15', '0.156'],
      ['0.3', '0.3'],
    ]);
    const sentences = lineSentences(judged, '%');
    expect(sentences[1]).toBe('Furthest from that line +1.33 % of full scale.');
    expect(sentences[2]).toMatch(/^Not on a straight line/);
  });

  it('is no fault where every point passes, though they bend about their own line', () => {
    // Off by +0.4, −0.4 and +0.4 % of full scale, all within 0.5 %; the line lies at +0.4/3, by hand, the middle 0.53 % below it.
    const judged = judgedOf([
      ['0', '0.0012'],
      ['0.15', '0.1488'],
      ['0.3', '0.3012'],
    ]);
    expect(judged).toMatchObject({ within: true, isStraight: false });
    expect(lineSentences(judged, '%').slice(1)).toEqual(['Furthest from that line −0.53 % of full scale.']);
  });

  it('is nothing more where all is within, and little with two points or one dilution', () => {
    expect(
      lineSentences(
        judgedOf([
          ['0', '0'],
          ['0.15', '0.15'],
          ['0.3', '0.3'],
        ]),
        '%',
      ),
    ).toHaveLength(2);
    expect(
      lineSentences(
        judgedOf([
          ['0', '0'],
          ['0.3', '0.3'],
        ]),
        '%',
      )[1],
    ).toMatch(/^Two points are always/);
    expect(
      lineSentences(
        judgedOf([
          ['0.3', '0.3'],
          ['0.3', '0.301'],
        ]),
        '%',
      ),
    ).toEqual(['No two dilutions differ: there is no line through them.']);
  });
});

describe('a table that is pasted', () => {
  it.each([
    [
      '0\t0.001\n0.15\t0.151\n',
      [
        ['0', '0.001'],
        ['0.15', '0.151'],
      ],
    ],
    [
      'expected\tread\r\n0,0\t0,001\r\n0,3\t0,299',
      [
        ['0,0', '0,001'],
        ['0,3', '0,299'],
      ],
    ],
    [
      '0;0,001\n0,3;0,299',
      [
        ['0', '0,001'],
        ['0,3', '0,299'],
      ],
    ],
    [
      '0.1\n0.2\n0.3',
      [
        ['0.1', undefined],
        ['0.2', undefined],
        ['0.3', undefined],
      ],
    ],
    ['0.1  0.102', [['0.1', '0.102']]],
  ])('of %j is read as columns', (text, columns) => {
    expect(readPastedColumns(text)).toEqual(columns);
  });

  it.each(['0.15', 'nothing', ''])('that is %j goes into its field as it is', (text) => {
    expect(readPastedColumns(text)).toBeNull();
  });

  it('fills rows from where it was pasted, adds those that lack, and ends at as many as can be kept', () => {
    const { points } = gas([
      ['0', ''],
      ['0.1', ''],
    ]);
    const filled = withPasted(points, 1, 'read', [
      ['0.11', undefined],
      ['0.2', '0.21'],
    ]);
    expect(filled.map(({ expected, read }) => [expected, read])).toEqual([
      ['0', ''],
      ['0.1', '0.11'],
      ['0.2', '0.21'],
    ]);
    const many = Array.from({ length: 40 }, (_, row): [string, string] => [`${row}`, `${row}`]);
    expect(withPasted(points, 0, 'expected', many)).toHaveLength(20);
  });
});
