// @vitest-environment node
import { afterEach, describe, expect, it } from 'vitest';
import {
  askAboutCylinder,
  cylinderDraftOf,
  emptyCylinder,
  readCylinder,
} from '../../../src/views/equipment/readCylinder.ts';
import { balancePercent, contentsInShort } from '../../../src/views/gases.ts';
import { setWriting, usualWriting } from '../../../src/views/parts/writing.ts';

const typed = {
  ...emptyCylinder,
  label: 'Test gas 4',
  CO: '0.3',
  CH4: '0.3',
  O2: '21',
  expiresOn: '2027-06-30',
};
const described = (draft = typed) => {
  const reading = readCylinder(draft);
  if (!reading.ok) throw new Error(JSON.stringify(reading.errors));
  return reading.description;
};
const errorsOf = (draft: Partial<typeof typed>) => {
  const reading = readCylinder({ ...typed, ...draft });
  return reading.ok ? {} : reading.errors;
};

afterEach(() => setWriting(usualWriting));

describe('readCylinder', () => {
  it('takes per cent and keeps fractions without binary noise', () => {
    expect(described({ ...typed, He: '7' })).toEqual({
      label: 'Test gas 4',
      serial: '',
      contents: [
        { gas: 'CO', fraction: 0.003 },
        { gas: 'CH4', fraction: 0.003 },
        { gas: 'He', fraction: 0.07 },
        { gas: 'O2', fraction: 0.21 },
      ],
      expiresOn: '2027-06-30',
    });
  });

  it('is typed again as it was read, by point and by comma', () => {
    const exact = { ...typed, CO: '0.2985', Ne: '0.07', N2: '78.3315' };
    expect(cylinderDraftOf(described(exact))).toEqual(exact);
    setWriting({ ...usualWriting, decimalMark: 'comma' });
    expect(cylinderDraftOf(described(exact)).CO).toBe('0,2985');
    expect(described({ ...exact, CO: '0,2985' })).toEqual(described(exact));
  });

  it('asks for at least one gas, beside the first', () => {
    expect(errorsOf({ CO: '', CH4: '', O2: '' })).toEqual({
      CO: 'Type what the certificate says of at least one gas, such as CO.',
    });
  });

  it('refuses more than the whole, beside the largest', () => {
    expect(errorsOf({ N2: '79' })).toEqual({
      N2: 'Together the gases come to 100.6 %, more than the whole. Look for a slip of the decimal mark.',
    });
  });

  it('takes exactly the whole: 0.3 + 0.3 + 21 + 78.4 %', () => {
    expect(balancePercent(described({ ...typed, N2: '78.4' }))).toBe(0);
  });

  it('recognises ppm and offers it in per cent', () => {
    expect(errorsOf({ CO: '3000' }).CO).toMatch(/^3000 % cannot be: it looks like ppm \(0\.3 %\)\./);
  });

  it('offers the mark one place off', () => {
    expect(errorsOf({ O2: '210' }).O2).toMatch(
      /^210 % cannot be\. Was 21 % meant\?|^210 % cannot be\. Was 21 meant\?/,
    );
  });

  it.each(['0', '-0.3', 'three', '1.013,2'])('refuses %s', (CO) => {
    expect(Object.keys(errorsOf({ CO }))).toEqual(['CO']);
  });

  it('refuses a date that a slip in the year made', () => {
    expect(Object.keys(errorsOf({ expiresOn: '0027-06-30' }))).toEqual(['expiresOn']);
    expect(Object.keys(errorsOf({ expiresOn: '12027-06-30' }))).toEqual(['expiresOn']);
  });
});

describe('askAboutCylinder', () => {
  const today = '2026-03-02';

  it('has nothing to ask of the usual test gas', () => {
    expect(askAboutCylinder(described(), today)).toEqual([]);
  });

  it.each(['3', '30', '0.03', '0.003'])('asks about %s %% of CO, where 0.3 %% is usual', (CO) => {
    expect(askAboutCylinder(described({ ...typed, CO }), today)).toEqual([
      `Carbon monoxide (CO): ${CO} %. In a test gas 0.3 % is usual. Does the certificate say so?`,
    ]);
  });

  it('asks about a certificate that ran out, on the day after its last', () => {
    const [question] = askAboutCylinder(described(), '2027-07-01');
    expect(question).toBe('Its certificate ran out on 30 Jun 2027. Is the date right?');
    expect(askAboutCylinder(described(), '2027-06-30')).toEqual([]);
  });

  it('does not ask again about what stood there', () => {
    const odd = described({ ...typed, CO: '3', expiresOn: '2025-01-31' });
    expect(askAboutCylinder(odd, today)).toHaveLength(2);
    expect(askAboutCylinder({ ...odd, label: 'Test gas 5' }, today, odd)).toEqual([]);
  });
});

describe('contentsInShort', () => {
  it('names each gas by its formula, in per cent', () => {
    expect(contentsInShort(described())).toBe('CO 0.3 %, CH₄ 0.3 %, O₂ 21 %');
  });
});
