/** Printed tables of water vapour and of gas conditions. */

/**
 * Saturated water vapour, [°C, mmHg]: the classic handbook table (CRC Handbook of Chemistry and Physics, "Vapor
 * pressure of water below 100 °C", editions before 1990). It is older than IAPWS-IF97 and differs from it by up to 0.12 %.
 */
export const classicVaporPressure: readonly (readonly [number, number])[] = [
  [18, 15.477],
  [20, 17.535],
  [22, 19.827],
  [24, 22.377],
  [25, 23.756],
  [28, 28.349],
  [30, 31.824],
  [37, 47.067],
];

/** IAPWS R7-97(2012), table 35, [K, MPa]; from memory, to the nine digits of the table. */
export const if97SaturationChecks: readonly (readonly [number, number])[] = [
  [300, 0.353658941e-2],
  [500, 0.263889776e1],
];

/**
 * ATPS → BTPS at 760 mmHg, [°C, factor], as printed in lung-function tables; from memory. The tables were rounded by
 * hand, some up and some down: four of eighteen differ from exact arithmetic by 0.001. Compare within 0.0011.
 */
export const printedBtpsFactors: readonly (readonly [number, number])[] = [
  [20, 1.102],
  [22, 1.091],
  [24, 1.08],
  [25, 1.075],
  [28, 1.057],
  [30, 1.045],
  [37, 1],
];
