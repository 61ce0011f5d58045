/** What a run is asked before it is written, at the bench and in an import alike: a slip is likelier than what it says. */

/** A clock may run a little ahead of the wrist-watch that was read. */
const futureToleranceMs = 60_000;

export const isStillToCome = (at: number, now: number) => at > now + futureToleranceMs;

/** The years that a run can be dated in. A browser takes a year typed with two digits for one of the first century. */
const years = { first: 1970, last: 2199 };

/** False for NaN too, the year of no time at all. */
export const isRecordableYear = (year: number) => year >= years.first && year <= years.last;

/** A pressure this far from the last run's is more than weather: 60 mmHg is 700 m of altitude. */
const pressureJumpMmHg = 60;

export const isPressureJump = (beforeMmHg: number, mmHg: number) =>
  Math.abs(mmHg - beforeMmHg) > pressureJumpMmHg;
