/** From a field for date and time to the instant at which something was done. Pure. */
import { isRecordableYear, isStillToCome } from '../../journal/plausible.ts';

/**
 * What was done may be written down late, never ahead: a baseline that starts tomorrow would judge today's runs by none.
 * `now` in ms.
 */
export function readHappened(text: string, now: number): { at: string } | { problem: string } {
  const moment = new Date(text);
  if (!isRecordableYear(moment.getFullYear())) {
    return { problem: 'Type the day, the time and a year of four digits.' };
  }
  return isStillToCome(moment.getTime(), now)
    ? { problem: 'This is still to come. Type when it was done.' }
    : { at: moment.toISOString() };
}
