/**
 * Where and when a wave running into gas at rest steepens into a shock, and how the shock then decays.
 *
 * States of higher pressure travel faster, so neighbouring characteristics meet. Released over x at t = 0 with the
 * travelling speed alpha(x), they first meet at  t = min( -1 / alpha'(x) ).  Sent in at x = 0 over time they first meet
 * at  x = min( alpha^2 / alpha'(t) ).  For a half sine of overpressure D = dp/p0 both lie at the leading edge:
 *   sent in, duration T:    x_s = 2 g a0 T / ((g+1) pi D),      t_s = x_s/a0
 *   released, length L:     t_s = 2 g L / ((g+1) pi D a0)
 * A weak triangular pulse (head velocity u0, length L0) keeps its area as it decays:
 *   L = L0 sqrt( 1 + (g+1) u0 t / 2 L0 ),   u = u0 L0/L.
 *
 * Source: G. B. Whitham, Linear and Nonlinear Waves, ch. 2; L. D. Landau and E. M. Lifshitz, Fluid Mechanics,
 * sections 101-102; from memory.
 */
import { restSoundSpeed, type StillGas, simpleWave } from './simple-wave.ts';

/** Distance at which a half-sine pulse sent in at an end becomes a shock [m]; `overpressure` is dp/p0. */
export function halfSineShockDistance(still: StillGas, overpressure: number, duration: number): number {
  const { gamma } = still;
  return (2 * gamma * restSoundSpeed(still) * duration) / ((gamma + 1) * Math.PI * overpressure);
}

/** Time after which a released half-sine wave of length `length` becomes a shock [s]. */
export function halfSineShockTime(still: StillGas, overpressure: number, length: number): number {
  const { gamma } = still;
  return (2 * gamma * length) / ((gamma + 1) * Math.PI * overpressure * restSoundSpeed(still));
}

/** Distance at which a harmonic wave of small velocity amplitude becomes a shock [m]; `omega` in rad/s. */
export function harmonicShockDistance(still: StillGas, velocityAmplitude: number, omega: number): number {
  return (2 * restSoundSpeed(still) ** 2) / ((still.gamma + 1) * velocityAmplitude * omega);
}

/**
 * Time at which a wave of any smooth shape, released over [from, to], becomes a shock [s]: the least -1/alpha' over
 * `samples` equal pieces, each slope taken by a central difference. Infinity where it never does.
 */
export function releasedShockTime(
  still: StillGas,
  initialRatio: (x: number) => number,
  from: number,
  to: number,
  samples = 4000,
): number {
  const dx = (to - from) / samples;
  let earliest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < samples; i += 1) {
    const x = from + i * dx;
    const rise =
      simpleWave(still, initialRatio(x + dx)).propagation - simpleWave(still, initialRatio(x)).propagation;
    if (rise < 0) earliest = Math.min(earliest, -dx / rise);
  }
  return earliest;
}

/** A weak triangular pulse after a time: length [m] and head velocity [m/s]. */
export interface TriangularPulse {
  readonly length: number;
  readonly velocity: number;
}

/** How a weak triangular pulse with a shock at its head has decayed after the time `t` [s]. */
export function decayedPulse(gamma: number, start: TriangularPulse, t: number): TriangularPulse {
  const stretch = Math.sqrt(1 + ((gamma + 1) * start.velocity * t) / (2 * start.length));
  return { length: start.length * stretch, velocity: start.velocity / stretch };
}
