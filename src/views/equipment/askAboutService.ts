/** What is asked before an analyzer is taken out of service or put back. Pure. */
import type { Analyzer, Logbook } from '../../journal/logbook.ts';
import { dayAndTime } from '../parts/figures.ts';
import { compare } from './servicePeriods.ts';

/** `from`: ISO 8601 instant. */
export function askAboutService(
  { services }: Pick<Logbook, 'services'>,
  { id, description }: Pick<Analyzer, 'id' | 'description'>,
  inService: boolean,
  from: string,
): string[] {
  const last = services
    .filter(({ body }) => body.analyzerId === id)
    .toSorted((one, other) => compare(one.body.from, other.body.from))
    .at(-1);
  if (last === undefined || from >= last.body.from) return [];
  const was = last.body.inService ? 'put back in service' : 'taken out of service';
  const stays = last.body.inService ? 'in service' : 'out of service';
  return [
    `${description.label} was ${was} on ${dayAndTime(last.body.from)}. ${
      inService ? 'Put back' : 'Taken out'
    } before that, it stays ${stays} today. Is the time right?`,
  ];
}
