import { publishedVolumeCalibration } from './volumeCalibration.ts';

/** Limits of the checks other than a simulation: data that a laboratory may edit, as fractions unless a unit is named. */
export interface CheckLimits {
  edition: string;
  biological: {
    /** A test beyond either of the two, from the mean of the first tests, is out; both ends are in. */
    fraction: number;
    dlcoMlMinMmHg: number;
    /** The coefficient of variation that a person's tests can reach. */
    cv: number;
    source: string;
  };
  /** How far from its target a level may read; both ends are in. */
  simulator: { dlcoMlMinMmHg: number; source: string };
  volumeCalibration: { fraction: number; source: string };
  /** Of full scale. */
  linearity: { fraction: number; source: string };
  /** Of the nominal volume. */
  syringe: { fraction: number; source: string };
  /** Of the reference. */
  barometer: { fraction: number; source: string };
}

/** Each value with where it was printed. That of linearity is recalled from the standard and not seen there. */
export const publishedCheckLimits: CheckLimits = {
  edition: 'Published 2007–2017',
  biological: {
    fraction: 0.12,
    dlcoMlMinMmHg: 3,
    cv: 0.06,
    source: 'Hegewald et al., Respiration 2012 (abstract); a coefficient of variation of 6 % can be reached',
  },
  simulator: {
    dlcoMlMinMmHg: 2,
    source: 'Gallo, Crapo & Jensen, J Investig Med 2007;55(Suppl 1):S153',
  },
  volumeCalibration: {
    fraction: publishedVolumeCalibration.limitFraction,
    source: publishedVolumeCalibration.source,
  },
  linearity: {
    fraction: 0.005,
    source:
      'ERS/ATS standards for single-breath carbon monoxide uptake in the lung 2017, as recalled: to be compared with the text',
  },
  syringe: { fraction: 0.005, source: 'ATS laboratory manual, 3rd edition' },
  barometer: {
    fraction: 0.025,
    source:
      'ERS/ATS standards for single-breath carbon monoxide uptake in the lung, Eur Respir J 2017;49:1600016',
  },
};
