/**
 * The echo of a small pressure step where a cylinder runs into a cone of the same bore.
 *
 * Apex distance r0 = r1/tan(half angle). Spherical waves p = f(t - r/c)/r behind the junction give
 *   diverging:   R(w) = -1/(1 + 2 j k r0),   step response  -( 1 - exp(-c t/2 r0) )
 *   converging:  R(w) = +1/(2 j k r0 - 1),   step response  +( exp(+c t/2 r0) - 1 )
 * until the echo of the cone's far end arrives at 2L/c. The converging one grows without bound: it must, and the far
 * end ends it.
 *
 * Source: A. H. Benade, J. Agullo et al. on cones in ducts; from memory, and derived here from the spherical waves.
 */

/** Distance of the cone's apex from the junction [m]: bore `diameter` [m], `includedAngleDeg` the full angle [deg]. */
export function apexDistance(diameter: number, includedAngleDeg: number): number {
  return diameter / 2 / Math.tan((includedAngleDeg * Math.PI) / 360);
}

/** p_r/p_i at the junction, a time `t` after a step arrives there [-]. */
export function coneStepEcho(
  kind: 'diverging' | 'converging',
  apex: number,
  soundSpeed: number,
  t: number,
): number {
  const rate = (soundSpeed * t) / (2 * apex);
  return kind === 'diverging' ? Math.expm1(-rate) : Math.expm1(rate);
}
