/**
 * Travel times of small waves and the simplest resonators.
 *
 * Source: travel times derived here; Helmholtz and quarter-wave resonators as in any text on acoustics.
 */

/** Travel time over `length` where temperature falls evenly, between the sound speeds of the ends [s]. */
export function linearTemperatureTravelTime(
  length: number,
  soundSpeed1: number,
  soundSpeed2: number,
): number {
  return (2 * length) / (soundSpeed1 + soundSpeed2);
}

/** Time there and back along `length` in a steady flow of Mach number `mach` [s]. */
export function roundTripTime(length: number, soundSpeed: number, mach: number): number {
  return (2 * length) / (soundSpeed * (1 - mach * mach));
}

/** Frequency of a Helmholtz resonator: neck area [m2], effective neck length [m], volume [m3] [Hz]. */
export function helmholtzFrequency(
  soundSpeed: number,
  neckArea: number,
  neckLength: number,
  volume: number,
): number {
  return (soundSpeed / (2 * Math.PI)) * Math.sqrt(neckArea / (neckLength * volume));
}

/** Lowest frequency of a pipe closed at one end; `endCorrection` is added to its length [Hz]. */
export function quarterWaveFrequency(soundSpeed: number, length: number, endCorrection = 0): number {
  return soundSpeed / (4 * (length + endCorrection));
}
