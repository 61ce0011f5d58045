/** How every number is made, by what the core computes with and by the limits and policies in force: words, before they are drawn. Pure. */
import type { Logbook } from '../../journal/logbook.ts';
import { limitsInForce } from '../judgedBy.ts';
import { biologicalSection, checksSection, simulatorSection } from './controlSections.ts';
import { failuresSection, lookBackSection, routesSection } from './failureSections.ts';
import { conversionSection, dlcoSection, simulatedVaSection } from './gasSections.ts';
import { checkLimitsSection, publishedLimitsSection } from './limitSections.ts';
import type { MethodSection } from './methodModel.ts';
import { cautionsSection, completenessSection, uncertaintySection } from './otherSections.ts';
import { ownLimitsSection, rulesSection, runLengthsSection } from './ownLimitSections.ts';
import { policiesInForce } from './policiesInForce.ts';
import { usualRoom } from './usualRoom.ts';

/** `now`: ISO 8601 instant, at which what is in force is asked. */
export function buildMethod(logbook: Logbook, now: string): readonly MethodSection[] {
  const room = usualRoom(logbook);
  const limits = limitsInForce(logbook, now);
  const groups = policiesInForce(logbook, now);
  const inUse = [...logbook.analyzers.values()].filter(({ retired }) => retired === null);
  return [
    conversionSection(room, inUse),
    simulatedVaSection(room, limits),
    dlcoSection(limits),
    publishedLimitsSection(logbook, now),
    checkLimitsSection(logbook, now),
    ownLimitsSection(groups),
    rulesSection(groups),
    runLengthsSection(groups),
    failuresSection(logbook),
    lookBackSection(),
    routesSection(),
    biologicalSection(logbook, now, groups),
    simulatorSection(logbook, now, groups),
    checksSection(logbook, now),
    completenessSection(),
    uncertaintySection(room),
    cautionsSection(),
  ];
}
