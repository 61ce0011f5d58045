/** How a reported VA becomes a simulated one, and what a DLCO of a syringe says. Pure. */
import {
  type Ambient,
  ambientFactor,
  bodyTemperatureC,
  bodyWaterVaporMmHg,
  customaryFixedFactor,
  disagreementAtLimit,
  dlcoInMlMinMmHg,
  expectedVolumeCheckL,
  mlMinMmHgPerMmolMinKPa,
  type PublishedLimits,
  publishedDlcoLimit,
  saturatedVaporPressureMmHg,
  simulatedVa,
  standardPressureMmHg,
} from '../../core/index.ts';
import type { Analyzer } from '../../journal/logbook.ts';
import {
  dlco,
  factor,
  limitPercent,
  litres,
  litresTyped,
  millilitres,
  percent,
  plain,
  signedMillilitres,
  temperature,
} from '../parts/figures.ts';
import { conversionWords, dlcoUnits } from '../parts/words.ts';
import { sources } from '../terms.ts';
import { equation, facts, type MethodSection, table, text } from './methodModel.ts';
import { type Room, roomInShort } from './usualRoom.ts';

const dry = { kind: 'computed', assumed: 'ATPD' } as const;
const moist = { kind: 'computed', assumed: 'ATPS' } as const;
const customary = { kind: 'fixed', factor: customaryFixedFactor } as const;

/** What a worked example is made of: a syringe drawn whole, and what is left in it. */
const example = { strokeL: 3, deadSpaceL: 0.11 };

/** Beside the laboratory's own: the room of the trade's tables, and a cool one at altitude. */
const otherRooms: readonly Ambient[] = [
  { temperatureC: 22, barometricMmHg: 760 },
  { temperatureC: 18, barometricMmHg: 600 },
];

const vaporAtC = [18, 20, 22, 24, 28, 37];

export function conversionSection(room: Room, analyzers: readonly Analyzer[]): MethodSection {
  const rooms = [room.ambient, ...otherRooms].filter(
    (one, index, all) => all.findIndex((other) => roomInShort(other) === roomInShort(one)) === index,
  );
  return {
    place: 'conversion',
    title: 'Conversion to the gas in the syringe',
    terms: ['conversion'],
    blocks: [
      text(
        'One amount of dry gas has the same V · (P − w) / T whatever its condition: V its volume, P the pressure, w the pressure of its water vapour, T its temperature in kelvin. So the factor from one condition to another is',
      ),
      equation('factor = [(P₁ − w₁) / (t₁ + 273.15)] ÷ [(P₂ − w₂) / (t₂ + 273.15)]'),
      table(
        'The conditions that a volume can be stated in',
        ['Condition', 'Temperature', 'Water vapour', 'Pressure'],
        [
          [
            'BTPS',
            `${plain(bodyTemperatureC)} °C`,
            `${plain(bodyWaterVaporMmHg)} mmHg by convention`,
            'of the day',
          ],
          ['ATPS', 'of the room', 'saturated at that temperature', 'of the day'],
          ['ATP', 'of the room', 'saturated × relative humidity', 'of the day'],
          ['ATPD', 'of the room', 'none', 'of the day'],
          ['STPD', `${plain(0)} °C`, 'none', `${plain(standardPressureMmHg)} mmHg`],
        ],
      ),
      text(
        `Test gas comes from a cylinder and is dry: from BTPS a VA goes back to the room’s temperature and pressure, dry (ATPD), unless an analyzer is declared to assume saturated gas. A laboratory’s procedure may name a fixed factor in place of it; ${plain(customaryFixedFactor)} is the customary one. ${room.words}`,
      ),
      table(
        `BTPS to ambient, and what the fixed ${plain(customaryFixedFactor)} makes of a dry ${litres(example.strokeL)} L`,
        [
          'Room',
          '#Computed, dry',
          '#Computed, saturated',
          `#Fixed ${plain(customaryFixedFactor)} reads, L`,
          '#Off by, mL',
        ],
        rooms.map((ambient) => {
          const factorDry = ambientFactor('BTPS', ambient, dry);
          const fixedL = (example.strokeL / factorDry) * ambientFactor('BTPS', ambient, customary);
          return [
            roomInShort(ambient),
            factor(factorDry),
            factor(ambientFactor('BTPS', ambient, moist)),
            litres(fixedL),
            signedMillilitres((fixedL - example.strokeL) * 1000),
          ];
        }),
      ),
      ...(analyzers.length === 0
        ? []
        : [
            table(
              `The conversion of each analyzer as it is set today, and its factor at ${room.inShort}; each run keeps its own`,
              ['Analyzer', 'VA is reported as', 'Converted', '#Factor'],
              analyzers.map(({ description }) => [
                description.label,
                description.vaReportedAs,
                description.vaReportedAs === 'BTPS'
                  ? conversionWords(description.conversion)
                  : 'to ambient, dry',
                factorOf(description, room.ambient),
              ]),
            ),
          ]),
      text(
        'Saturated vapour pressure is that of IAPWS R7-97(2012), equation 30, a closed form with the standard’s own coefficients. At body temperature the convention is kept in place of it, so that printed BTPS tables come out.',
      ),
      table(
        'Saturated vapour pressure as it is computed',
        ['Temperature, °C', ...vaporAtC.map((celsius) => `#${temperature(celsius)}`)],
        [['mmHg', ...vaporAtC.map((celsius) => litres(saturatedVaporPressureMmHg(celsius)))]],
      ),
    ],
    sources: [
      `Factors: ${sources.idealGas}`,
      'Vapour pressure: IAPWS R7-97(2012), equation 30 and table 34',
      `Fixed ${plain(customaryFixedFactor)}: ${sources.commonPractice}`,
    ],
  };
}

/** A relative humidity is known of a run alone. */
function factorOf({ vaReportedAs, conversion }: Analyzer['description'], ambient: Ambient): string {
  return vaReportedAs === 'ATP'
    ? 'by each run’s humidity'
    : factor(ambientFactor(vaReportedAs, ambient, conversion));
}

export function simulatedVaSection(room: Room, limits: PublishedLimits): MethodSection {
  const { strokeL, deadSpaceL } = example;
  const reportedVaL = (strokeL + deadSpaceL) / ambientFactor('BTPS', room.ambient, dry);
  const worked = (analyzerDeadSpaceL: number) =>
    simulatedVa({
      // An analyzer that subtracts reports as much less.
      reportedVaL: (reportedVaL * (strokeL - analyzerDeadSpaceL)) / strokeL,
      reportedAs: 'BTPS',
      ambient: room.ambient,
      conversion: dry,
      syringeDeadSpaceL: deadSpaceL,
      analyzerDeadSpaceL,
      inspiredVolumeL: strokeL,
    });
  const plainRun = worked(0);
  const subtracted = worked(deadSpaceL);
  return {
    place: 'simulated-va',
    title: 'Simulated VA',
    terms: ['simulated-va', 'dead-space'],
    blocks: [
      text(
        'The syringe takes in VI of test gas onto the air that is inside already: V0 where the plunger does not start at home, and the dead space VDs. The tracer is diluted to FA = FI · VI / (VI + V0 + VDs), and the analyzer computes VA = (VI − VDa) · FI / FA, less the dead space VDa that it subtracts. Hence, all at ambient:',
      ),
      equation('total volume = VA · VI / (VI − VDa)'),
      equation('simulated VA = total volume − VDs'),
      text(
        'Its target is VI + V0, the nominal stroke and the volume left inside, whatever inspired volume was reported: an analyzer that measures volume wrongly must not move its own target. Where no VI was reported the nominal stroke stands for it.',
      ),
      facts(
        `A syringe of ${litresTyped(strokeL)} L with ${millilitres(deadSpaceL * 1000)} mL of dead space, at ${room.inShort}`,
        [
          { name: 'The analyzer reports', value: `${litres(reportedVaL)} L BTPS` },
          {
            name: 'Ambient VA',
            value: `${litres(plainRun.ambientVaL)} L, by the factor ${factor(plainRun.factor)}`,
          },
          { name: 'Simulated VA', value: `${litres(plainRun.simulatedVaL)} L` },
          {
            name: `Had it subtracted ${millilitres(deadSpaceL * 1000)} mL`,
            value: `ambient VA ${litres(subtracted.ambientVaL)} L, simulated VA ${litres(subtracted.simulatedVaL)} L again`,
          },
        ],
      ),
      text(
        `The volume check before a run is the stroke read as a vital capacity, in BTPS: here ${litres(expectedVolumeCheckL({ strokeL, ambient: room.ambient, conversion: dry }))} L are expected of ${litresTyped(strokeL)} L. Beyond ±${limitPercent(limits.volumeCheckFraction)} % of that the fault is likely in volume, not in gas analysis; it fails no run by itself.`,
      ),
    ],
    sources: [
      `Simulated VA: ${sources.massBalance}`,
      `Plunger at home, or at 1 L: ${sources.standard}, equipment table`,
      'Volume check: recalled from the ATS/ERS spirometry standard of 2019',
    ],
  };
}

/** A VA such as a 3 L syringe reads, at which the size of a fault is told. */
const vaBtpsL = 3.3;

export function dlcoSection(limits: PublishedLimits): MethodSection {
  const breathHoldS = limits.breathHoldS.target;
  return {
    place: 'dlco',
    title: 'DLCO of a syringe',
    terms: ['dlco-of-a-syringe'],
    blocks: [
      equation('DLCO = VA(STPD) · 60 / t / (P − w) · ln[(FA,tr / FI,tr) · (FI,CO / FA,CO)]'),
      text(
        `In mL(STPD)/min/mmHg, with t the breath-hold in seconds and w the ${plain(bodyWaterVaporMmHg)} mmHg of BTPS. The pressure of the day cancels: at a given VA in BTPS, DLCO does not depend on it. Solved for the two gases it says by how much CO reads low against the tracer:`,
      ),
      equation('disagreement = 1 − exp(−DLCO · t · (P − w) / (VA(STPD) · 60))'),
      table(
        `What the published limit stands for, at a VA of ${litresTyped(vaBtpsL)} L BTPS and ${plain(breathHoldS)} s`,
        ['Reported in', '#Limit', '#CO low against the tracer, %', '#CO high, %'],
        dlcoUnits.map((unit) => {
          const { low, high } = disagreementAtLimit({ vaBtpsL, breathHoldS, unit, limits });
          return [unit, plain(publishedDlcoLimit(unit, limits)), percent(low, 2), percent(Math.abs(high), 2)];
        }),
      ),
      text(
        `Where a series holds both units it is drawn and averaged in one: 1 mmol/min/kPa is ${plain(mlMinMmHgPerMmolMinKPa)} mL/min/mmHg. The published limits are not converted: ${plain(limits.dlcoMmolMinKPa)} mmol/min/kPa would be ${dlco(dlcoInMlMinMmHg(limits.dlcoMmolMinKPa, 'mmol/min/kPa'), 'mmol/min/kPa')} mL/min/mmHg and the other limit is ${plain(limits.dlcoMlMinMmHg)}, so each run is judged in the unit that it was reported in.`,
      ),
    ],
    sources: [
      'Single-breath equation as in the ERS/ATS standards of 2005 and 2017',
      'Disagreement: the same equation, solved for the ratio of the two gases',
      `${plain(mlMinMmHgPerMmolMinKPa)}: recalled from the 2017 standard; ideal-gas arithmetic gives ${plain(2.988)}`,
    ],
  };
}
