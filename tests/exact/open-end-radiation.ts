/**
 * Sound leaving an unflanged open pipe of radius a: size of the reflection and end correction over ka.
 *
 * Values of the Levine-Schwinger integrals, evaluated numerically and kept here as a table; not computed by this program.
 * The limit of the end correction for ka -> 0 comes out as 0.612701 a; the paper prints 0.6133 a.
 *
 * Source: H. Levine and J. Schwinger, On the radiation of sound from an unflanged circular pipe, Phys. Rev. 73 (1948) 383.
 */

/** ka, |R| and end correction over the radius [-]. */
export interface RadiationRow {
  readonly ka: number;
  readonly reflection: number;
  readonly endCorrection: number;
}

export const LEVINE_SCHWINGER: readonly RadiationRow[] = [
  { ka: 0.05, reflection: 0.998755, endCorrection: 0.612256 },
  { ka: 0.1, reflection: 0.995067, endCorrection: 0.610987 },
  { ka: 0.2, reflection: 0.980859, endCorrection: 0.60638 },
  { ka: 0.5, reflection: 0.896441, endCorrection: 0.581836 },
  { ka: 1, reflection: 0.695102, endCorrection: 0.527431 },
  { ka: 1.5, reflection: 0.500788, endCorrection: 0.47127 },
  { ka: 2, reflection: 0.346176, endCorrection: 0.416944 },
  { ka: 3, reflection: 0.154328, endCorrection: 0.308275 },
];

/** End correction over the radius for ka -> 0 [-]. */
export const LOW_FREQUENCY_END_CORRECTION = 0.612701;

/** |R| by a rational fit, good to 0.8 % up to ka = 2 [-]; A. N. Norris and I. C. Sheng, J. Sound Vib. 135 (1989) 85, from memory. */
export function fittedReflection(ka: number): number {
  return (1 + 0.2 * ka - 0.084 * ka * ka) / (1 + 0.2 * ka + 0.416 * ka * ka);
}
