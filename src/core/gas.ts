/**
 * The condition a gas volume is stated in.
 * BTPS: 37 °C, saturated, ambient pressure. ATPS: room temperature, saturated. ATP: room temperature at the room's
 * relative humidity. ATPD: room temperature, dry. STPD: 0 °C, dry, 760 mmHg.
 */
export type GasCondition = 'BTPS' | 'ATPS' | 'ATP' | 'ATPD' | 'STPD';

/** The room on the day. `relativeHumidity` is a fraction, 0 to 1, and needed for the condition ATP only. */
export interface Ambient {
  temperatureC: number;
  barometricMmHg: number;
  relativeHumidity?: number | undefined;
}

const kelvinAtZeroC = 273.15;
/** By definition of BTPS. */
export const bodyTemperatureC = 37;

/**
 * Water vapour at body temperature, by convention of the trade. The equation gives 47.08 mmHg at 37 °C; the
 * convention is kept so that published BTPS tables and the single-breath equation's `PB − 47` are reproduced.
 */
export const bodyWaterVaporMmHg = 47;

/** Standard pressure, 101.325 kPa. */
export const standardPressureMmHg = 760;

/** 760 mmHg in MPa, exact by definition of the atmosphere: the unit step from IAPWS-IF97 to mmHg. */
const standardPressureMPa = 0.101325;

/** IAPWS R7-97 (2012), table 34: coefficients n1 … n10 of the saturation-pressure equation of region 4. */
const n1 = 0.11670521452767e4;
const n2 = -0.72421316703206e6;
const n3 = -0.17073846940092e2;
const n4 = 0.1202082470247e5;
const n5 = -0.32325550322333e7;
const n6 = 0.1491510861353e2;
const n7 = -0.48232657361591e4;
const n8 = 0.40511340542057e6;
const n9 = -0.23855557567849;
const n10 = 0.65017534844798e3;
const criticalTemperatureC = 373.946;

/**
 * Pressure of water vapour over liquid water, in mmHg, for a temperature in °C from 0 (the equation's lower end) to
 * 373.946 (the critical point).
 * A closed form was taken in place of a fitted exponential: it is the standard's own equation, has no valid range to
 * trip over at room temperature, and needs no transcendental function.
 * Source: IAPWS R7-97(2012), equation 30, within 0.025 % of measured steam. The classic handbook table, older
 * than that work, differs from it by up to 0.12 % between 5 and 40 °C.
 * @throws {RangeError} if the temperature is not within 0 … 373.946 °C.
 * @example saturatedVaporPressureMmHg(22) // 19.84 (classic table: 19.827)
 */
export function saturatedVaporPressureMmHg(temperatureC: number): number {
  if (!(temperatureC >= 0 && temperatureC <= criticalTemperatureC)) {
    throw new RangeError(
      `saturatedVaporPressureMmHg: temperatureC is ${temperatureC} °C, not within 0 … 373.946 °C`,
    );
  }
  const kelvin = temperatureC + kelvinAtZeroC;
  const theta = kelvin + n9 / (kelvin - n10);
  const a = (theta + n1) * theta + n2;
  const b = (n3 * theta + n4) * theta + n5;
  const c = (n6 * theta + n7) * theta + n8;
  const root = (2 * c) / (Math.sqrt(b * b - 4 * a * c) - b);
  return (root * root * root * root * standardPressureMmHg) / standardPressureMPa;
}

/**
 * The number that a volume stated in `from` is multiplied by to state the same gas in `to`: `V_to = factor · V_from`.
 * One amount of dry gas has the same `V · (P − pH2O) / T` in every condition (ideal gas; derived, no table involved).
 * @throws {RangeError} if a temperature, pressure or humidity is impossible, if the pressure does not exceed the
 * vapour pressure of a condition used, or if ATP is asked for without `relativeHumidity`.
 * @example volumeFactor('BTPS', 'ATPD', { temperatureC: 22, barometricMmHg: 760 }) // 0.8928
 */
export function volumeFactor(from: GasCondition, to: GasCondition, ambient: Ambient): number {
  requireAmbient('volumeFactor', ambient);
  return dryGasPerVolume(from, ambient) / dryGasPerVolume(to, ambient);
}

/** @throws {RangeError} naming the caller, the field, its value and its unit. */
function requireAmbient(caller: string, ambient: Ambient): void {
  const { temperatureC, barometricMmHg, relativeHumidity } = ambient;
  const isPossible =
    temperatureC > -kelvinAtZeroC &&
    temperatureC < Number.POSITIVE_INFINITY &&
    barometricMmHg > 0 &&
    barometricMmHg < Number.POSITIVE_INFINITY &&
    (relativeHumidity === undefined || (relativeHumidity >= 0 && relativeHumidity <= 1));
  if (!isPossible) throw impossibleAmbient(caller, ambient);
}

/** Apart from the check, for the reason told in impossible.ts. */
function impossibleAmbient(caller: string, ambient: Ambient): RangeError {
  const { temperatureC, barometricMmHg, relativeHumidity } = ambient;
  if (!(temperatureC > -kelvinAtZeroC && temperatureC < Number.POSITIVE_INFINITY)) {
    return new RangeError(`${caller}: ambient.temperatureC is ${temperatureC} °C`);
  }
  if (!(barometricMmHg > 0 && barometricMmHg < Number.POSITIVE_INFINITY)) {
    return new RangeError(`${caller}: ambient.barometricMmHg is ${barometricMmHg} mmHg`);
  }
  return new RangeError(
    `${caller}: ambient.relativeHumidity is ${relativeHumidity}, not a fraction of 0 … 1`,
  );
}

/** Proportional to the moles of dry gas in one litre stated in `condition`: mmHg per kelvin. */
function dryGasPerVolume(condition: GasCondition, ambient: Ambient): number {
  const { temperatureC, barometricMmHg } = ambient;
  switch (condition) {
    case 'BTPS':
      return dryPressure(barometricMmHg, bodyWaterVaporMmHg) / (bodyTemperatureC + kelvinAtZeroC);
    case 'ATPD':
      return barometricMmHg / (temperatureC + kelvinAtZeroC);
    case 'ATPS':
      return (
        dryPressure(barometricMmHg, saturatedVaporPressureMmHg(temperatureC)) / (temperatureC + kelvinAtZeroC)
      );
    case 'ATP':
      return dryPressure(barometricMmHg, roomVaporMmHg(ambient)) / (temperatureC + kelvinAtZeroC);
    case 'STPD':
      return standardPressureMmHg / kelvinAtZeroC;
    default:
      throw new RangeError(`volumeFactor: condition is ${String(condition satisfies never)}`);
  }
}

function roomVaporMmHg({ temperatureC, relativeHumidity }: Ambient): number {
  if (relativeHumidity === undefined) {
    throw new RangeError(
      'volumeFactor: ambient.relativeHumidity is undefined, and ATP needs a fraction of 0 … 1',
    );
  }
  return relativeHumidity * saturatedVaporPressureMmHg(temperatureC);
}

function dryPressure(barometricMmHg: number, vaporMmHg: number): number {
  if (barometricMmHg > vaporMmHg) return barometricMmHg - vaporMmHg;
  throw impossiblePressure(barometricMmHg, vaporMmHg);
}

function impossiblePressure(barometricMmHg: number, vaporMmHg: number): RangeError {
  return new RangeError(
    `volumeFactor: ambient.barometricMmHg is ${barometricMmHg} mmHg, not above its water vapour, ${vaporMmHg} mmHg`,
  );
}
