/** Burnt gas of CH1.85 at four mixture strengths: gas constant and gamma to the digits printed, and its sound speed. */

import { GasModel } from '../../../solver/index.ts';
import type { Problem } from '../rig/problem.ts';

/** Equivalence ratio; R [J/(kg K)]; gamma at 500, 700, 900, 1200 and 1500 K. */
const ROWS = [
  [0.9, 286.469, [1.351, 1.3267, 1.3061, 1.2844, 1.2707]],
  [1, 286.409, [1.3476, 1.3232, 1.3026, 1.2809, 1.2671]],
  [1.1, 291.941, [1.3519, 1.3279, 1.3072, 1.2852, 1.2712]],
  [1.2, 297.403, [1.3558, 1.3322, 1.3115, 1.2893, 1.2751]],
] as const;
const TEMPERATURES = [500, 700, 900, 1200, 1500] as const;
/** Sound speed of the gas at 1.1 [K, m/s]. */
const SPEEDS = [
  [600, 484.44],
  [700, 520.93],
  [800, 554.59],
  [900, 586.06],
  [1000, 615.76],
  [1200, 671.01],
] as const;

/** Largest miss in units of half the last digit printed. */
function miss(): number {
  let most = 0;
  const hold = (value: number, printed: number, digits: number): void => {
    most = Math.max(most, Math.abs(value - printed) / (0.5 * 10 ** -digits));
  };
  for (const [ratio, gasConstant, gammas] of ROWS) {
    const gas = GasModel.charge(1.85, ratio);
    hold(gas.gasConstant(1), gasConstant, 3);
    TEMPERATURES.forEach((temperature, k) => {
      hold(gas.gamma(temperature, 1), gammas[k] as number, 4);
    });
    if (ratio === 1.1)
      for (const [temperature, speed] of SPEEDS)
        hold(Math.sqrt(gas.gamma(temperature, 1) * gas.gasConstant(1) * temperature), speed, 2);
  }
  return most;
}

export const gasProblems: readonly Problem[] = [
  {
    name: 'burnt gas',
    ring: 'identity',
    source: 'McBride, Zehe and Gordon, NASA TP-2002-211556; water-gas constant of Heywood 1988, from memory',
    quantity: 'R, gamma and sound speed [half a unit of the last digit printed]',
    cells: [1],
    judged: 0,
    bound: 1,
    run: () => ({ error: miss() }),
  },
];
