/** What can be set, and where each setting has its page. Pure. */
import type { ScheduledCheck } from '../../journal/entries.ts';

export const writingPath = '/laboratory/writing';
export const limitsPath = '/laboratory/limits';
export const checkLimitsPath = '/laboratory/check-limits';
export const closingPath = '/laboratory/closing';

/** Every check that can be due, in the order in which Today lists them. */
export const scheduledChecks = [
  'simulation',
  'volume-check',
  'biological-control',
  'linearity',
  'simulator',
  'syringe-leak',
  'syringe-calibration',
  'barometer',
  'cylinder-expiry',
] as const satisfies readonly ScheduledCheck[];

export const isScheduledCheck = (text: string): text is ScheduledCheck =>
  scheduledChecks.some((check) => check === text);
