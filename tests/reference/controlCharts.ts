/** Worked control charts of others. */

/** NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, individuals chart. */
export const nistIndividuals = {
  values: [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1],
  mean: 50.81,
  meanMovingRange: 1.8778,
  upper: 55.8041,
  lower: 45.8159,
  d2: 1.128,
};

/** The same handbook, 6.3.2.4. `averages` are printed to two decimals, after the start of 50.00; the full row from memory, its end seen. */
export const nistEwma = {
  lambda: 0.3,
  target: 50,
  sd: 2.0539,
  upper: 52.5884,
  lower: 47.4115,
  values: [
    52, 47, 53, 49.3, 50.1, 47, 51, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6,
    52.1,
  ],
  averages: [
    50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38,
    49.92, 50.73, 51.23, 51.94, 51.99,
  ],
};

/** The same handbook, 6.3.2.3, in the units of the data. */
export const nistCusum = {
  target: 325,
  slack: 0.3175,
  decision: 4.1959,
  values: [
    324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6, 324.625, 325.15,
    328.325, 327.25, 327.825, 328.5, 326.675, 327.775, 326.875, 328.35,
  ],
  firstSignalAt: 14,
};

/**
 * A year of weekly simulations on one rapid-gas analyzer: ERS congress poster, channel.ersnet.org item 160623. VA in L.
 * The z are the poster's mean and SD applied to its single values, rounded to one decimal.
 */
export const posterSeries = {
  runs: 52,
  mean: 3.117,
  sd: 0.036,
  faults: [
    { vaL: 3.37, z: 7.0 },
    { vaL: 3.46, z: 9.5 },
  ],
  afterRepair: [
    { vaL: 3.01, z: -3.0 },
    { vaL: 3.07, z: -1.3 },
  ],
};
