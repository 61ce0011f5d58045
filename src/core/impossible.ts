/**
 * The error for an argument that cannot be, naming function, argument, value and unit. Made here and not where the check stands:
 * a check that writes its own message is too large to be inlined, and cost a third of the time of judging a history.
 */
export function impossible(caller: string, name: string, value: number, unit: string): RangeError {
  return new RangeError(`${caller}: ${name} is ${value} ${unit}`.trimEnd());
}

/** @throws {RangeError} as `impossible` has it, unless the value is positive and finite. */
export function requirePositive(caller: string, name: string, value: number, unit: string): void {
  if (!(value > 0 && value < Number.POSITIVE_INFINITY)) throw impossible(caller, name, value, unit);
}

/**
 * The same error, saying of which run: among thousands the message must name the one.
 * @throws what is no `RangeError`, unchanged.
 */
export function namingTheRun(caller: string, id: string, cause: unknown): RangeError {
  if (!(cause instanceof RangeError)) throw cause;
  return new RangeError(`${caller}: run ${id}: ${cause.message}`, { cause });
}
