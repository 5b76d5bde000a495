/**
 * Temperature of a thin pipe wall in steady state: heat in from the gas equals convection and radiation out.
 *
 *   h_in (Tg - Tw) = h_out (Tw - Ta) + eps sigma (Tw^4 - Ta^4)
 * The surplus falls with Tw all the way and bends downwards, so Newton's method from the hotter side comes down to the
 * root without overshoot; a bracket of the two temperatures guards it.
 *
 * Source: the balance itself; sigma is the CODATA 2018 value of the Stefan-Boltzmann constant. Derived here.
 */

/** Stefan-Boltzmann constant [W/(m2 K4)]. */
export const STEFAN_BOLTZMANN = 5.670374419e-8;

/** What heats and cools a wall: coefficients [W/(m2 K)], temperatures [K], emissivity [-]. */
export interface WallSurroundings {
  readonly gasCoefficient: number;
  readonly gasTemperature: number;
  readonly outsideCoefficient: number;
  readonly outsideTemperature: number;
  readonly emissivity: number;
}

/** Heat flow into the wall less heat flow out of it at the wall temperature `wall` [W/m2]. */
export function heatSurplus(around: WallSurroundings, wall: number): number {
  const { gasCoefficient, gasTemperature, outsideCoefficient, outsideTemperature, emissivity } = around;
  return (
    gasCoefficient * (gasTemperature - wall) -
    outsideCoefficient * (wall - outsideTemperature) -
    emissivity * STEFAN_BOLTZMANN * (wall ** 4 - outsideTemperature ** 4)
  );
}

/** Steady temperature of the wall [K]. */
export function wallTemperature(around: WallSurroundings): number {
  let low = Math.min(around.gasTemperature, around.outsideTemperature);
  let high = Math.max(around.gasTemperature, around.outsideTemperature);
  let wall = high;
  for (let iteration = 0; iteration < 100; iteration += 1) {
    const surplus = heatSurplus(around, wall);
    if (surplus > 0) low = wall;
    else high = wall;
    const slope =
      around.gasCoefficient +
      around.outsideCoefficient +
      4 * around.emissivity * STEFAN_BOLTZMANN * wall ** 3;
    const newton = wall + surplus / slope;
    const next = newton >= low && newton <= high ? newton : 0.5 * (low + high);
    if (Math.abs(next - wall) <= 2 * Number.EPSILON * wall) return next;
    wall = next;
  }
  return wall;
}
