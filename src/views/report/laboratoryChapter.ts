/** What a report says of the laboratory as a whole: its other checks, equipment, method and sign-offs, and where it is signed. Pure. */
import type { Analyzer } from '../../journal/logbook.ts';
import { laboratoryChecksSection } from './checksSection.ts';
import { equipmentSections } from './equipmentSections.ts';
import { methodSections } from './methodSections.ts';
import type { Part, ReportChoice } from './reportChoice.ts';
import type { Chapter } from './reportModel.ts';
import type { ReportSources } from './reportSources.ts';
import { signOffsSection } from './signOffsSection.ts';

export function laboratoryChapter(
  analyzers: readonly Analyzer[],
  choice: ReportChoice,
  sources: ReportSources,
): Chapter {
  const has = (part: Part) => !choice.without.includes(part);
  return {
    id: 'laboratory',
    title: 'The laboratory',
    sections: [
      ...(has('checks') ? laboratoryChecksSection(choice, sources) : []),
      ...(has('equipment') ? equipmentSections(choice, sources) : []),
      ...(has('method') ? methodSections(analyzers, choice, sources) : []),
      ...(has('sign-offs') ? signOffsSection(choice, sources) : []),
      {
        id: 'signatures',
        title: 'Signatures',
        blocks: [
          { kind: 'signatures', roles: ['Made by', 'Looked through by', 'Responsible for the laboratory'] },
        ],
      },
    ],
  };
}
