/**
 * The error for an argument that cannot be, naming function, argument, value and unit. Made here and not where the check stands:
 * a check that writes its own message is too large to be inlined, and cost a third of the time of judging a history.
 */
export function impossible(caller: string, name: string, value: number, unit: string): RangeError {
  return new RangeError(`${caller}: ${name} is ${value} ${unit}`.trimEnd());
}
