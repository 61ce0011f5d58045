/** What clock and calendar on a wall show. Months from 1, hours from 0 to 23. */
export interface WallClock {
  year: number;
  month: number;
  day: number;
  hour: number;
  minute: number;
}

/**
 * What the laboratory's wall shows at an instant (ms), in an IANA zone such as `Europe/Lisbon`. Zone rules are the
 * platform's own; the fixed calendar and numerals keep the user's language out.
 * @throws {RangeError} if the instant is not finite or the zone is unknown.
 * @example wallClockOf(Date.UTC(2026, 2, 1, 23, 30), 'Europe/Berlin').hour // 0
 */
export function wallClockOf(at: number, zone: string): WallClock {
  if (!Number.isFinite(at)) throw new RangeError(`wallClockOf: at is ${at} ms`);
  const parts = formatOf(zone).formatToParts(at);
  const part = (type: string) => Number(parts.find((each) => each.type === type)?.value);
  return {
    year: part('year'),
    month: part('month'),
    day: part('day'),
    hour: part('hour'),
    minute: part('minute'),
  };
}

/** Making a formatter takes a thousand times as long as using it. */
const formats = new Map<string, Intl.DateTimeFormat>();

function formatOf(zone: string): Intl.DateTimeFormat {
  const known = formats.get(zone);
  if (known !== undefined) return known;
  // Not iso8601: the platforms reckon that by the Julian calendar before 1582.
  const format = new Intl.DateTimeFormat('en-u-ca-gregory-nu-latn', {
    timeZone: zone,
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
    hourCycle: 'h23',
  });
  formats.set(zone, format);
  return format;
}
