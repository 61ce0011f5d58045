/** The published limits of the runs and of all else, in force and every edition that was adopted. Pure. */
import { publishedCheckLimits, publishedLimits2017 } from '../../core/index.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { checkLimitsInWords, limitedCheckIds, limitedChecks, limitInWords } from '../checkLimitWords.ts';
import { checkLimitsAt } from '../controlAssessments.ts';
import { limitsInForce } from '../judgedBy.ts';
import { limitsInWords } from '../limitWords.ts';
import { asSentence } from '../parts/asSentence.ts';
import type { FieldInWords } from '../parts/fieldsInWords.ts';
import { day } from '../parts/figures.ts';
import { sources } from '../terms.ts';
import { facts, type MethodBlock, type MethodSection, table, text } from './methodModel.ts';

export function publishedLimitsSection(logbook: Logbook, at: string): MethodSection {
  const limits = limitsInForce(logbook, at);
  return {
    place: 'published-limits',
    title: 'Published limits of a simulation',
    terms: ['published-limit'],
    blocks: [
      facts('In force today', limitsInWords(limits)),
      text(
        'The limits of VA, of the volume check and of the breath-hold include their ends; DLCO has to lie below its own. A breach of VA or DLCO fails the run and opens a failure. A run keeps the limits of its own day for ever.',
      ),
      ...editions(
        logbook.limitEditions.map((entry) => ({ ...entry, words: limitsInWords(entry.body.limits) })),
        { logbook, at, builtIn: publishedLimits2017.edition },
      ),
    ],
    sources: [
      `${limits.edition}: ${limits.source}`,
      'In the built-in edition the breath-hold is recalled from the 2017 standard, and the volume check from the ATS/ERS spirometry standard of 2019',
    ],
  };
}

export function checkLimitsSection(logbook: Logbook, at: string): MethodSection {
  const limits = checkLimitsAt(logbook, at);
  return {
    place: 'check-limits',
    title: 'Limits of controls and other checks',
    terms: [],
    blocks: [
      table(
        `In force today: ${limits.edition}`,
        ['Check', 'Limit, ends included', 'Source'],
        limitedCheckIds.map((check) => [
          limitedChecks[check],
          limitInWords(check, limits),
          limits[check].source,
        ]),
      ),
      ...editions(
        logbook.checkLimitEditions.map((entry) => ({
          ...entry,
          words: checkLimitsInWords(entry.body.limits),
        })),
        { logbook, at, builtIn: publishedCheckLimits.edition },
      ),
    ],
    sources: [
      `${limits.edition}: each limit names its own`,
      `Which check a limit is asked of: ${sources.ownChoice}`,
    ],
  };
}

interface Adopted {
  body: { from: string; reason: string };
  by: string;
  zone: string;
  words: readonly FieldInWords[];
}

/** Every adoption with its date, the newest first, each with all of its values. */
function editions(
  adopted: readonly Adopted[],
  { logbook, at, builtIn }: { logbook: Logbook; at: string; builtIn: string },
): MethodBlock[] {
  const comesWith = `The logbook comes with the edition “${builtIn}”.`;
  if (adopted.length === 0) return [text(`${comesWith} Nobody has adopted another.`)];
  const newestFirst = adopted.toSorted(
    (one, other) => Date.parse(other.body.from) - Date.parse(one.body.from),
  );
  return [
    text(`${comesWith} It held until the first of these was adopted.`),
    ...newestFirst.map(({ body, by, zone, words }) =>
      facts(
        `Adopted from ${day(body.from, zone)} on by ${initialsIn(logbook.technologists, by)}${body.from > at ? ', not in force yet' : ''}: ${asSentence(body.reason)}`,
        words,
      ),
    ),
  ];
}
