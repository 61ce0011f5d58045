/** What an analyzer would report of a syringe, from what is truly in it and truly wrong with the analyzer. */
import { type Ambient, coTracerDisagreement, singleBreathDlco, volumeFactor } from '../core/index.ts';

export interface TrueState {
  ambient: Ambient;
  /** Volume drawn in, room air left inside before, and dead space: ambient litres, as they truly are. */
  strokeL: number;
  volumeInsideL: number;
  syringeDeadSpaceL: number;
  /** What the analyzer subtracts by itself. */
  analyzerDeadSpaceL: number;
  /** Fraction by which its volumes read high, this run's scatter included. */
  gain: number;
  /** Fraction of the exhaled sample that is room air, drawn in by a leak. */
  leak: number;
  /** DLCO that its CO and tracer analyzers make up between them, in mL/min/mmHg. */
  dlcoOffset: number;
  breathHoldS: number;
}

/** Volumes in litres BTPS, DLCO in mL/min/mmHg, with all digits: the display rounds. */
export interface Reported {
  vaL: number;
  inspiredVolumeL: number;
  volumeCheckL: number;
  dlcoMlMinMmHg: number;
}

const testGas = { co: 0.003, tracer: 0.003 };

/** Mass balance: the test gas is diluted by the air that was in the syringe, and nothing of it is taken up. */
export function reportOf(state: TrueState): Reported {
  const { ambient, strokeL, volumeInsideL, syringeDeadSpaceL, analyzerDeadSpaceL, gain, leak } = state;
  const toBtps = volumeFactor('ATPD', 'BTPS', ambient);
  const mixed = strokeL / (strokeL + volumeInsideL + syringeDeadSpaceL);
  // Room air in the sample dilutes both gases alike: VA rises and DLCO stays.
  const sampled = (mixed * (1 - leak)) / (1 + gain);
  const vaL = ((strokeL - analyzerDeadSpaceL) / sampled) * toBtps;
  const { breathHoldS } = state;
  const coLow = coTracerDisagreement({ dlcoMlMinMmHg: state.dlcoOffset, vaBtpsL: vaL, breathHoldS });
  const alveolar = { tracer: testGas.tracer * sampled, co: testGas.co * sampled * (1 - coLow) };
  return {
    vaL,
    inspiredVolumeL: strokeL * toBtps,
    volumeCheckL: (strokeL + volumeInsideL) * toBtps,
    dlcoMlMinMmHg: singleBreathDlco({
      vaBtpsL: vaL,
      breathHoldS,
      barometricMmHg: ambient.barometricMmHg,
      inspired: testGas,
      alveolar,
    }),
  };
}
