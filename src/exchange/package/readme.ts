/** What a person is told who opens a package: in plain words, for somebody who has never seen the logbook. */
import type { PackageFacts, WrittenFile } from './descriptor.ts';

const width = 96;
const lineEnd = '\r\n';

export interface Omissions {
  /** Entries of the journal, and those of them in the audit trail. */
  entries: number;
  inTrail: number;
  /** Stored values that no schema of this release reads. */
  unreadable: number;
  heads: readonly { workstation: string; headSeq: number; headHash: string }[];
  /** Columns that name a row that is not in the package, as `table.column`. */
  brokenKeys: readonly string[];
}

export function readmeOf(files: readonly WrittenFile[], facts: PackageFacts, omissions: Omissions): string {
  const { scope, madeAt, laboratory, analyzers } = facts;
  const title = `Quality control of DLCO analyzers${laboratory === '' ? '' : `: ${laboratory}`}`;
  const sections: readonly (readonly [heading: string, ...paragraphs: string[]])[] = [
    [
      'Period',
      `${scope.from} to ${scope.to}, both days in, by the clock of ${scope.zone}.`,
      `Analyzers: ${analyzers.join(', ') || 'none'}.`,
      `Made at ${madeAt}.`,
    ],
    [
      'What it is',
      'An excerpt of a laboratory’s logbook. A DLCO analyzer measures the uptake of carbon monoxide in the lung; once a week a 3-litre syringe takes the place of a patient. A syringe absorbs nothing and has a known volume: the analyzer must report a DLCO near 0 and a volume near 3 L. The files hold these runs and what else keeps the analyzers honest: controls with healthy persons, who are known by a code alone, and with a simulator, other checks, failures and what was done about them.',
      'No patient stands in it: look-backs hold counts.',
    ],
    ['Files', files.map(fileLine).join(lineEnd), ...notes(omissions)],
    [
      'How to read them',
      'Every file is CSV as RFC 4180 has it: UTF-8 without a mark in front, comma, CR LF, the names of the columns in the first row, a decimal point. datapackage.json describes every column: type, unit, meaning, and what its cells may be. It follows the Frictionless Data Package specification, version 1 (specs.frictionlessdata.io); programs that know it read all files with the right types.',
      'An empty cell says that there is nothing. Instants are ISO 8601 with the offset of the workstation that wrote them; in the audit trail they are in UTC. Dates are civil dates. Numbers stand in full: read back, they are the numbers that the logbook computes with.',
      'A text that a spreadsheet would take for a formula, because it begins with = + - @, a tab or a carriage return, has an apostrophe in front. In the audit trail texts are inside JSON and untouched.',
      'A row that was struck out is still there, with who did so, when and why.',
    ],
    [
      'How the numbers are made',
      'The reported VA is converted to the ambient volume of dry gas by the temperature and pressure of the day, or by the fixed factor that the laboratory had chosen (runs: conversion_kind, conversion_factor). The simulated VA is that volume, with what the analyzer had subtracted put back, less the dead space of the syringe. Saturated water vapour pressure by IAPWS-IF97; 47 mmHg at 37 °C by convention.',
      'A run is judged twice: by the published limits of the edition named in its row (limits.csv names the source of each), and by the laboratory’s own: mean and SD (divisor n − 1) of strictly earlier accepted runs of the same analyzer, method and route, with the control rules of Westgard and others (Clin Chem 1981;27:493) as policies.csv sets them. z is the distance from the mean in SD.',
      'A control is judged in its own way. A person’s DLCO: by the published distance, in per cent and in mL/min/mmHg, from the mean of their first six tests on that analyzer since its baseline began; before there are six nothing is judged. A level of the simulator: by its distance from the target, published and own; R-4s holds across the two levels of one session too. Own limits of a person are widened by prediction factors while they rest on few tests, and need six where a simulator needs as many as policies.csv says.',
      'verdict is what the technologist saw on the day, and is never computed again. verdict_recomputed is what comes out today: after an amendment, or when an earlier run was struck out, the two can differ. An imported run has no verdict of its day.',
      'A failure opens at the first run beyond a published limit or at a rule that is an action, and stays open until a supervisor closes it or a new baseline begins. While it is open no run enters a mean.',
    ],
    [
      'How to check it',
      'Each file: its SHA-256 and length stand in datapackage.json.',
      'Each entry of audit-trail.csv: write {"at":…,"body":…,"by":…,"id":…,"kind":…,"prev":…,"seq":…,"version":…,"workstation":…,"zone":…} without blanks, with the cells of the same names as JSON (entry_id as id; body as it stands; seq and version as numbers). The SHA-256 of that text in UTF-8 is the cell hash.',
      'Each chain: in chain.csv the prev of an entry is the hash of the entry before it of the same workstation, from the first, whose prev is empty, to the head:',
      omissions.heads
        .map(
          ({ workstation, headSeq, headHash }) =>
            `- ${workstation}, number ${headSeq}:${lineEnd}    ${headHash}`,
        )
        .join(lineEnd),
      'A head that was noted elsewhere, on a print or in a second copy, shows that nothing before it was changed or taken out since.',
    ],
    [
      'What it does not prove',
      'That what was typed is what the analyzer showed. That the clock of a workstation was right. That nothing was left out before it was written down, or after the last head that was noted elsewhere. Whoever holds the storage of a workstation can write a new chain: only a head or a signature kept elsewhere tells.',
    ],
    [
      'Cautions',
      'A failed run means that patients are not tested on that analyzer until the laboratory’s responsible person says so. The logbook advises; local procedure, the manufacturer’s instructions and licensed practice decide. It is not a medical device, stores no patient data and claims conformity with no regulation.',
    ],
  ];
  const paragraphs = sections.flatMap(([heading, ...rest]) => [
    underlined(heading, '-'),
    ...rest.map(wrapped),
  ]);
  return [underlined(wrapped(title), '='), ...paragraphs].join(lineEnd + lineEnd) + lineEnd;
}

const fileLine = ({ path, table }: WrittenFile) =>
  `- ${path} (${table.rowCount} ${table.rowCount === 1 ? 'row' : 'rows'}): ${table.title}.`;

function notes({ entries, inTrail, unreadable, brokenKeys }: Omissions): readonly string[] {
  const left = entries - inTrail;
  return [
    left === 0
      ? 'Every entry of the journal is in the audit trail.'
      : `The audit trail has ${inTrail} of the journal’s ${entries} entries. The other ${left} are of other times or about other analyzers; chain.csv has their numbers and hashes.`,
    ...(unreadable === 0
      ? []
      : [
          `${unreadable} stored entries cannot be read by this release, and what they say is in no other file.`,
        ]),
    ...(brokenKeys.length === 0
      ? []
      : [
          `These columns name rows that are not in the package, mostly of other times: ${brokenKeys.join(', ')}.`,
        ]),
  ];
}

const underlined = (heading: string, line: string) =>
  `${heading}${lineEnd}${line.repeat(Math.min(heading.length, width))}`;

/** Lines of a length that every viewer shows, broken at blanks; a list keeps its own. */
function wrapped(text: string): string {
  if (text.startsWith('- ')) return text;
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].join(lineEnd);
}
