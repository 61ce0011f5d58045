/** By what the runs of a period were computed and judged: method, editions of limits, policies. Pure. */
import {
  mlMinMmHgPerMmolMinKPa,
  publishedCheckLimits,
  publishedLimits2017,
  ruleIds,
  severityOf,
} from '../../core/index.ts';
import type { Analyzer, Logbook } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { checkLimitsInWords } from '../checkLimitWords.ts';
import { checkLimitsAt } from '../controlAssessments.ts';
import { limitsInForce, policyInForce } from '../judgedBy.ts';
import { limitsInWords } from '../limitWords.ts';
import { asSentence } from '../parts/asSentence.ts';
import type { FieldInWords } from '../parts/fieldsInWords.ts';
import { day, plain } from '../parts/figures.ts';
import { conversionWords, ruleWords } from '../parts/words.ts';
import { policyInWords, severityWords } from '../policyWords.ts';
import { type Block, type Section, section, words } from './reportModel.ts';
import { endOf, isIn, type Period, type ReportSources } from './reportSources.ts';

export function methodSections(
  analyzers: readonly Analyzer[],
  period: Period,
  { logbook }: ReportSources,
): readonly Section[] {
  return [
    ...section('method', 'How the numbers are made', methodWords(analyzers)),
    ...section('limits', 'Published limits in force', limitBlocks(period, logbook)),
    ...section('policies', 'Own limits and control rules', policyBlocks(analyzers, period, logbook)),
  ];
}

function methodWords(analyzers: readonly Analyzer[]): Block[] {
  return [
    words(
      'A 3-litre syringe takes the place of a patient. It takes up no carbon monoxide and its volume is known, so the analyzer ought to report a DLCO of zero and, once what it reports is taken back to the gas in the syringe, the volume that was in it.',
    ),
    words(
      'A VA reported in BTPS (37 °C, 47 mmHg of water vapour, the pressure of the day) is taken back to the temperature and pressure of the room on that day, as dry test gas or saturated air, as the analyzer assumes; or by the laboratory’s fixed factor where one is set. The dead space that the analyzer subtracted is put back, the syringe’s own is taken off. The result is the simulated VA; its target is the stroke and the air that was inside.',
    ),
    words(
      `Saturated vapour pressure: IAPWS R7-97(2012), equation 30. DLCO: the single-breath equation of the ERS/ATS standards of 2005 and 2017. One mmol/min/kPa is ${plain(mlMinMmHgPerMmolMinKPa)} mL/min/mmHg; each published limit is judged in the unit that was reported.`,
    ),
    words(
      'Mean and SD (divisor n − 1) that judge a run come from accepted runs before it, of the same analyzer, route and baseline. A run enters them that is not voided or set aside, lies inside the published limits, fires no action rule and was made while no failure was open. z is the distance from that mean in that SD. The verdict of the day is kept and never computed anew.',
    ),
    {
      kind: 'table',
      id: 'conversions',
      caption: 'The conversion of each analyzer as it is set today; each run keeps its own',
      columns: [
        { head: 'Analyzer', width: 24 },
        { head: 'VA is reported as', width: 22 },
        { head: 'Converted' },
      ],
      rows: analyzers.map(({ description }) => [
        description.label,
        description.vaReportedAs,
        conversionWords(description.conversion),
      ]),
    },
  ];
}

interface Edition {
  title: string;
  rows: readonly FieldInWords[];
}

function limitBlocks(period: Period, logbook: Logbook): Block[] {
  const start = `${period.from}T00:00:00.000Z`;
  const ofRuns = editions(
    logbook.limitEditions,
    logbook,
    period,
    limitsInWords(limitsInForce(logbook, start)),
    ({ limits }) => limitsInWords(limits),
    publishedLimits2017.edition,
  );
  const ofChecks = editions(
    logbook.checkLimitEditions,
    logbook,
    period,
    checkLimitsInWords(checkLimitsAt(logbook, start)),
    ({ limits }) => checkLimitsInWords(limits),
    publishedCheckLimits.edition,
  );
  return [
    words('Both the published limits and the own limits always apply, whichever is the tighter.'),
    { kind: 'heading', text: 'Simulations' },
    ...ofRuns.flatMap(editionBlocks),
    { kind: 'heading', text: 'Controls and other checks' },
    ...ofChecks.flatMap(editionBlocks),
  ];
}

const editionBlocks = ({ title, rows }: Edition): Block[] => [words(title, 'lead'), { kind: 'facts', rows }];

/** The one in force when the period began, and each adopted in it. */
function editions<B extends { from: string; reason: string }>(
  adopted: readonly { body: B; by: string; zone: string }[],
  { technologists }: Logbook,
  period: Period,
  atStart: readonly FieldInWords[],
  wordsOf: (body: B) => readonly FieldInWords[],
  builtIn: string,
): readonly Edition[] {
  const inPeriod = isIn(period);
  const before = adopted.filter(({ body, zone }) => !inPeriod(body.from, zone) && body.from <= endOf(period));
  const last = before
    .toSorted((one, other) => Date.parse(one.body.from) - Date.parse(other.body.from))
    .at(-1);
  return [
    {
      title:
        last === undefined
          ? `When the period began: the edition that the logbook comes with, ${builtIn}.`
          : `When the period began: adopted from ${day(last.body.from, last.zone)} on by ${initialsIn(technologists, last.by)}: ${asSentence(last.body.reason)}`,
      rows: atStart,
    },
    ...adopted
      .filter(({ body, zone }) => inPeriod(body.from, zone))
      .map(({ body, by, zone }) => ({
        title: `Adopted from ${day(body.from, zone)} on by ${initialsIn(technologists, by)}: ${asSentence(body.reason)}`,
        rows: wordsOf(body),
      })),
  ];
}

/** One table for each policy in force at the end of the period, with the analyzers that it judges. */
function policyBlocks(analyzers: readonly Analyzer[], period: Period, logbook: Logbook): Block[] {
  const groups = new Map<string, { labels: string[]; analyzerId: string }>();
  const at = endOf(period);
  for (const { id, description } of analyzers) {
    const key = JSON.stringify(policyInWords(policyInForce(logbook, { analyzerId: id, madeAt: at })));
    const known = groups.get(key);
    if (known) known.labels.push(description.label);
    else groups.set(key, { labels: [description.label], analyzerId: id });
  }
  return [...groups.values()].flatMap(({ labels, analyzerId }): Block[] => {
    const policy = policyInForce(logbook, { analyzerId, madeAt: at });
    const isRule = ({ name }: FieldInWords) => ruleIds.some((rule) => rule === name);
    return [
      { kind: 'heading', text: labels.join(', ') },
      { kind: 'facts', rows: policyInWords(policy).filter((row) => !isRule(row)) },
      {
        kind: 'table',
        id: `rules of ${analyzerId}`,
        caption: `Control rules in force at the end of the period: ${labels.join(', ')}`,
        columns: [{ head: 'Rule', width: 14 }, { head: 'Fires at' }, { head: 'Severity', width: 26 }],
        rows: ruleIds.map((rule) => [rule, ruleWords[rule], severityWords[severityOf(rule, policy)]]),
      },
    ];
  });
}
