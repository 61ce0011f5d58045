// @vitest-environment node
/** Every block is made up; its labels are words of the trade in four languages. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { readReport } from '../../../src/views/runForm/readReport.ts';

const lines = (...text: string[]) => text.join('\n');
const takenOf = (text: string) =>
  Object.fromEntries(readReport(text).taken.map(({ field, text: value }) => [field, value]));
const choicesOf = (text: string) => Object.assign({}, ...readReport(text).taken.map(({ choice }) => choice));

describe('a report of one column', () => {
  const english = lines(
    'Ambient temperature: 22.4 °C',
    'Barometric pressure: 1013 hPa',
    'RH 45 %',
    'VA (BTPS) 3.41 L',
    'DLCO 0.12 mL/min/mmHg',
    'Inspired volume 3.32 L',
    'BHT 10.1 s',
    'Volume check 3.31 L',
  );

  it('is read by label and unit, digit for digit, with the units and the condition that it prints', () => {
    expect(takenOf(english)).toEqual({
      temperature: '22.4',
      pressure: '1013',
      humidity: '45',
      va: '3.41',
      dlco: '0.12',
      inspiredVolume: '3.32',
      breathHold: '10.1',
      volumeCheck: '3.31',
    });
    expect(choicesOf(english)).toEqual({
      temperatureUnit: '°C',
      pressureUnit: 'hPa',
      vaReportedAs: 'BTPS',
      dlcoUnit: 'mL/min/mmHg',
    });
    expect(readReport(english)).toMatchObject({ leftOut: [], notUnderstood: 0, personal: 0, column: null });
  });

  it.each(['-', '−', '–', '‑', '‐', '‒'])(
    'reads a DLCO below zero by the sign %s, and not as one above',
    (sign) => {
      expect(takenOf(`DLCO ${sign}0.62 mL/min/mmHg`)).toEqual({ dlco: '-0.62' });
      expect(takenOf(`TLCO\t${sign}0,21\tmmol/min/kPa`)).toEqual({ dlco: '-0,21' });
    },
  );

  it('takes a dash between two numbers for no sign', () => {
    expect(takenOf('Temp 21.5–22.5 °C')).toEqual({ temperature: '21.5' });
  });

  it('says of each value in which line and under which label it stood', () => {
    expect(readReport(english).taken[3]).toMatchObject({
      field: 'va',
      written: '3.41 L',
      label: 'VA (BTPS)',
      line: 4,
    });
  });

  it.each([
    [
      'German',
      lines(
        'Raumtemperatur\t21,8\t°C',
        'Luftdruck\t1009,5\thPa',
        'rel. Luftfeuchte\t38\t%',
        'Alveolarvolumen\t3,38\tL',
        'Transferfaktor\t0,013\tmmol/min/kPa',
        'Atemanhaltezeit\t10,2\ts',
      ),
      {
        temperature: '21,8',
        pressure: '1009,5',
        humidity: '38',
        va: '3,38',
        dlco: '0,013',
        breathHold: '10,2',
      },
    ],
    [
      'French',
      lines(
        'Température ambiante ; 23,1 ; °C',
        'Pression atmosphérique ; 101,1 ; kPa',
        'Humidité relative ; 51 ; %',
        'Volume alvéolaire ; 3,44 ; L',
        'TLCO ; -0,021 ; mmol/min/kPa',
        'Volume inspiré ; 3,35 ; L',
        'Temps d’apnée ; 9,8 ; s',
      ),
      {
        temperature: '23,1',
        pressure: '101,1',
        humidity: '51',
        va: '3,44',
        dlco: '-0,021',
        inspiredVolume: '3,35',
        breathHold: '9,8',
      },
    ],
    [
      'Spanish',
      lines(
        'Temperatura ambiente: 24 C',
        'Presión atmosférica: 705 mmHg',
        'Humedad relativa: 33 %',
        'Volumen alveolar: 3,29 L',
        'Capacidad de difusión: 0,08 ml/min/mmHg',
        'Tiempo de apnea: 10 s',
      ),
      { temperature: '24', pressure: '705', humidity: '33', va: '3,29', dlco: '0,08', breathHold: '10' },
    ],
  ])('is read in %s, with decimal commas and whatever parts its columns', (_language, text, expected) => {
    expect(takenOf(text)).toEqual(expected);
    expect(readReport(text)).toMatchObject({ leftOut: [], notUnderstood: 0 });
  });

  it('is read where several values share a line, and where the unit stands in the label', () => {
    expect(takenOf('T 1  Temp 22.4 C  PB 758 mmHg  RH 45%')).toEqual({
      temperature: '22.4',
      pressure: '758',
      humidity: '45',
    });
    expect(takenOf(lines('VA [L] 3.41', 'DLCO (mL/min/mmHg): 0.12', 'TL,CO SB mmol/min/kPa 0.04'))).toEqual({
      va: '3.41',
    });
    expect(takenOf('DL,CO SB 0.12 ml/min/mmHg')).toEqual({ dlco: '0.12' });
    expect(takenOf('Temp 72.3 deg F')).toEqual({ temperature: '72.3' });
    expect(takenOf('TLCO 0.040 mmol/(min*kPa)')).toEqual({ dlco: '0.040' });
    expect(takenOf('TLCO 0.040 mmol·min⁻¹·kPa⁻¹')).toEqual({ dlco: '0.040' });
  });

  it('turns millilitres into litres without changing a digit', () => {
    const [va] = readReport('VA 3412 mL').taken;
    expect(va).toMatchObject({ text: '3.412', written: '3412 mL' });
  });
});

describe('a report of several columns', () => {
  it('gives the first measured one where the columns have heads, wherever it stands', () => {
    const text = lines(
      'Parameter;Unit;Pred;Meas;% Pred',
      'VA;L;3.00;3.41;114',
      'DLCO;mL/min/mmHg;0.00;0.12;',
      'IVC;L;;3.32;',
    );
    expect(takenOf(text)).toEqual({ va: '3.41', dlco: '0.12', inspiredVolume: '3.32' });
    expect(readReport(text).column).toBe('headed');
  });

  it('parted by blanks, it is read where each head has its number, and left out where one is missing', () => {
    const text = lines(
      'Parameter    Soll    Ist    % Soll',
      'VA  L    3.00    3.41    114',
      'TLCO mmol/min/kPa    0.02    0.04',
    );
    expect(takenOf(text)).toEqual({ va: '3.41' });
    expect(readReport(text).leftOut).toEqual([
      { label: 'TLCO', line: 3, why: 'no number in the measured column' },
    ]);
  });

  it('without heads gives the first number, and says so', () => {
    const text = 'VA 3.41 L 3.00 114 %';
    expect(takenOf(text)).toEqual({ va: '3.41' });
    expect(readReport(text).column).toBe('first');
  });
});

describe('what is not taken', () => {
  it('lines that may name a person: not their numbers, not their words', () => {
    const text = lines(
      'Patient: Example, Ada',
      'ID 3.41',
      'DOB 02.03.1970',
      'Geburtsdatum: 2.3.1970',
      'Date de naissance 02/03/1970',
      'Größe 175 cm',
      'VA 3.41 L',
    );
    const report = readReport(text);
    expect(report).toMatchObject({ personal: 6, notUnderstood: 0 });
    expect(JSON.stringify(report)).not.toMatch(/Ada|1970|175/);
    expect(takenOf(text)).toEqual({ va: '3.41' });
  });

  it('other quantities whose name begins alike', () => {
    const text = lines(
      'DLCO/VA 1.2 mL/min/mmHg/L',
      'KCO 1.4 mmol/min/kPa/L',
      'VA/TLC 0.95',
      'DLCOc 0.11 mL/min/mmHg',
      'FEV1 3.4 L',
      'Body temperature 37 C',
      'HR 72 /min',
    );
    expect(takenOf(text)).toEqual({});
  });

  it('two values for one field, which it shows; the same value twice is one', () => {
    const report = readReport(
      lines('VA 3.41 L', 'TLCO 0.04 mmol/min/kPa', 'VA 3.38 L', 'TLCO 0,040 mmol/min/kPa'),
    );
    expect(report.taken.map(({ field }) => field)).toEqual(['dlco']);
    expect(report.leftOut).toEqual([
      { label: 'VA', line: 1, why: 'contradicts itself: 3.41 L in line 1, 3.38 L in line 3' },
    ]);
  });

  it('a number without a unit where several are usual, in another’s unit, or that cannot be', () => {
    const { taken, leftOut } = readReport(
      lines('PB 1013', 'Temp 22', 'DLCO 0.12', 'BHT 10.1 min', 'VA 33 L', 'VI 3.32'),
    );
    expect(taken.map(({ field }) => field)).toEqual(['inspiredVolume']);
    expect(leftOut.map(({ label, why }) => `${label}: ${why}`)).toEqual([
      'PB: no unit is printed',
      'Temp: no unit is printed',
      'DLCO: no unit is printed',
      'BHT: “min” is no unit of it',
      'VA: 33 L cannot be',
    ]);
  });

  it('dates, times and numbers with marks between their thousands', () => {
    expect(takenOf(lines('VA 24.11.2026', 'BHT 08:42 s', 'PB 1.013,2 hPa', 'IVC --- L'))).toEqual({});
  });

  it('lines that mean nothing here are counted; empty ones are not', () => {
    expect(readReport(lines('', 'Weekly simulation', '-----', '   ', 'VA 3.41 L'))).toMatchObject({
      notUnderstood: 2,
    });
    expect(readReport('')).toEqual({ taken: [], leftOut: [], notUnderstood: 0, personal: 0, column: null });
  });
});
