/**
 * Steady subsonic flow from one bore to a larger one: through a loss-free diffuser, and through a sudden step.
 *
 * Loss-free: the sonic area stays, so A2/A1 fixes M2. Borda-Carnot: the pressure on the annulus of the step is that of
 * the small pipe; with m = F2/F1, mass, momentum and energy give
 *   (m + g M1^2) / (M1 sqrt(1 + h M1^2)) = (1 + g M2^2) m / (m M2 sqrt(1 + h M2^2)) = G,   h = (g-1)/2,
 * a quadratic in M2^2:  (g^2 - G^2 h) M2^4 + (2g - G^2) M2^2 + 1 = 0.
 *
 * Source: the balances themselves; Shapiro vol. I for the isentropic relations. The quadratic is derived here.
 */
import { areaRatio, isentropicFlow, machOfArea } from './isentropic.ts';

/** Behind the change: Mach number, p2/p1 and p02/p01 [-]. */
export interface AreaChange {
  readonly mach: number;
  readonly pressure: number;
  readonly totalPressure: number;
}

/** Loss-free change of area by A2/A1 = `ratio`, subsonic before and after. */
export function lossFreeDiffuser(mach: number, ratio: number, gamma: number): AreaChange {
  const behind = machOfArea(areaRatio(mach, gamma) * ratio, gamma, 'subsonic');
  const pressure = isentropicFlow(behind, gamma).pressure / isentropicFlow(mach, gamma).pressure;
  return { mach: behind, pressure, totalPressure: 1 };
}

/** Sudden expansion by F2/F1 = `ratio` >= 1 of a flow of Mach number `mach` < 1. */
export function bordaCarnot(mach: number, ratio: number, gamma: number): AreaChange {
  const h = (gamma - 1) / 2;
  const m2 = mach * mach;
  const g2 = (ratio + gamma * m2) ** 2 / (m2 * (1 + h * m2));
  // a z^2 - b z + 1 = 0 with z = M2^2; the subsonic root in the form that keeps its digits at low Mach number.
  const a = gamma * gamma - g2 * h;
  const b = g2 - 2 * gamma;
  const z = 2 / (b + Math.sqrt(b * b - 4 * a));
  const behind = Math.sqrt(z);
  const pressure = (mach * Math.sqrt(1 + h * m2)) / (ratio * behind * Math.sqrt(1 + h * z));
  const totalPressure =
    (pressure * isentropicFlow(mach, gamma).pressure) / isentropicFlow(behind, gamma).pressure;
  return { mach: behind, pressure, totalPressure };
}
