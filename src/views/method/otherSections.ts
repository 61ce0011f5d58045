/** What is counted as on time, how well a simulated VA is known, and what the logbook does not promise. Pure. */
import {
  expectedSpread,
  type UncertaintySource,
  uncertaintyBudget,
  usualHalfWidths,
} from '../../core/index.ts';
import { limitPercent, litres, millilitres, percent, plain, tenthsOfMillilitre } from '../parts/figures.ts';
import { sources } from '../terms.ts';
import { equation, facts, type MethodSection, table, text } from './methodModel.ts';
import type { Room } from './usualRoom.ts';

export function completenessSection(): MethodSection {
  return {
    place: 'completeness',
    title: 'Completeness: what counts as on time',
    terms: ['on-time'],
    blocks: [
      text(
        'Counted are the dates on which a check fell due, not weeks. It falls due one interval after the day it was last made, and the first time one interval after the analyzer came into use. What falls into a time out of service falls due on the day of use again.',
      ),
      facts('A date is', [
        { name: 'On time', value: 'made on the day or before it; a check ahead of its date moves the next' },
        { name: 'Late', value: 'made after it, and before it fell due once more' },
        {
          name: 'Missed',
          value: 'not made before it fell due once more; the next check answers the last date alone',
        },
        {
          name: 'Not counted',
          value: 'today’s, while it is not made; and a repeat sooner than half the interval',
        },
      ]),
      equation('on-time rate = dates on time / dates that fell due'),
      text(
        'A run that failed was made and counts; a voided one was not. A date belongs to the quarter that it lies in, or its run where that came earlier. A reason that is written down stands beside the date and changes no count. Weeks run from Monday to Sunday.',
      ),
    ],
    sources: [`Counting by due dates: ${sources.ownChoice}`, 'Weeks: ISO 8601'],
  };
}

const sourceNames: Readonly<Record<UncertaintySource, string>> = {
  syringe: 'Stroke of the syringe',
  temperature: 'Temperature',
  pressure: 'Pressure',
  'dead-space': 'Dead space',
  display: 'Display of VA',
};

const { syringeFraction, temperatureC, pressureFraction, deadSpaceL, displayStepL } = usualHalfWidths;

const halfWidths = (): Readonly<Record<UncertaintySource, string>> => ({
  syringe: `±${limitPercent(syringeFraction)} %`,
  temperature: `±${plain(temperatureC)} °C`,
  pressure: `±${limitPercent(pressureFraction)} %`,
  'dead-space': `±${millilitres(deadSpaceL * 1000)} mL`,
  display: `±${millilitres((displayStepL / 2) * 1000)} mL, half of its step`,
});

const halfWidthSources: Readonly<Record<UncertaintySource, string>> = {
  syringe: 'ATS laboratory manual, 3rd edition',
  temperature: sources.commonPractice,
  pressure: 'ERS/ATS standard 2017',
  'dead-space': sources.commonPractice,
  display: 'a VA in hundredths of a litre',
};

/** A usual run: a 3 L syringe with 110 mL in it. */
const usualRun = { reportedVaL: 3.45, syringeDeadSpaceL: 0.11, analyzerDeadSpaceL: 0, inspiredVolumeL: 3 };

export function uncertaintySection({ ambient, inShort }: Room): MethodSection {
  const budget = uncertaintyBudget({
    ...usualRun,
    reportedAs: 'BTPS',
    ambient,
    conversion: { kind: 'computed', assumed: 'ATPD' },
  });
  const { leastL, mostL } = expectedSpread(budget);
  const known = halfWidths();
  return {
    place: 'uncertainty',
    title: 'How well a simulated VA is known',
    terms: ['uncertainty'],
    blocks: [
      text(
        'Any value within a half-width is as likely as another, so each adds half-width / √3 times its effect on the simulated VA; the squares are added. Expanded is twice the result (k = 2), some 95 %.',
      ),
      equation('u = √Σ (effect · half-width / √3)²\nU = 2 · u'),
      table(
        `A VA of ${litres(usualRun.reportedVaL)} L BTPS at ${inShort}, computed for dry gas`,
        ['Known to', '#Half-width', '#Adds, mL', '#Of the variance, %', 'Source'],
        budget.contributions.map(({ source, standardL, share }) => [
          sourceNames[source],
          known[source],
          tenthsOfMillilitre(standardL * 1000),
          percent(share, 0),
          halfWidthSources[source],
        ]),
      ),
      facts('Together', [
        { name: 'Standard uncertainty', value: `${tenthsOfMillilitre(budget.standardL * 1000)} mL` },
        { name: 'Expanded, k = 2', value: `${tenthsOfMillilitre(budget.expandedL * 1000)} mL` },
        {
          name: 'Expected SD of own runs',
          value: `${tenthsOfMillilitre(leastL * 1000)} to ${tenthsOfMillilitre(mostL * 1000)} mL: less, and values may be copied or rounded; more, and technique or a fault is asked about`,
        },
      ]),
    ],
    sources: ['JCGM 100:2008 (GUM), 4.3.7 and 5.1.2', `What SD is expected: ${sources.ownChoice}`],
  };
}

export function cautionsSection(): MethodSection {
  return {
    place: 'cautions',
    title: 'Cautions',
    terms: [],
    blocks: [
      text(
        'A failed run means that patients are not tested on that analyzer until the laboratory’s responsible person says so. This logbook advises; local procedure, the manufacturer’s instructions and licensed practice decide.',
      ),
      text(
        'Test gas holds carbon monoxide and comes from a compressed-gas cylinder: ventilate, secure, follow local rules.',
      ),
      text(
        'It is not a medical device, stores no patient data (a biological control is a person known by a code) and claims conformity with no regulation.',
      ),
    ],
    sources: [],
  };
}
