/**
 * A vessel emptying through a port into a room: quasi-steady port, isentropic contents.
 *
 * Choked, with K = (2/(g+1))^((g+1)/(2(g-1))) and tau = V/(A_eff a0):
 *   p/p0 = [ 1 + (g-1)/2 K t/tau ]^(-2g/(g-1)),   T/T0 = (p/p0)^((g-1)/g).
 * Below the critical ratio the port is subsonic. With P = p/p_b and s = P^((g-1)/2g), so that a = a_b s, the port
 * passes  m = A rho_b u_t,  u_t^2 = 2/(g-1) a_b^2 (s^2 - 1),  and the time left to P = 1 is
 *   t A a_b/V = (2/(g-1)) int_1^s s^((3-g)/(g-1)) / sqrt( 2 (s^2 - 1)/(g-1) ) ds.
 * Substituting s = cosh z leaves a smooth integrand, done by Gauss-Legendre quadrature.
 *
 * Source: Shapiro vol. I, ch. 4 for the choked law; the subsonic tail derived here.
 */
import { rootBetween } from './root.ts';
import { restSoundSpeed, type StillGas } from './simple-wave.ts';

/** A vessel [volume m3] and the effective area of its port [m2]. */
export interface Vessel {
  readonly gas: StillGas;
  readonly volume: number;
  readonly effectiveArea: number;
}

function chokedConstant(gamma: number): number {
  return (2 / (gamma + 1)) ** ((gamma + 1) / (2 * (gamma - 1)));
}

/** p/p0 in the vessel after the time `t` while the port is choked [-]. */
export function chokedPressureRatio(vessel: Vessel, t: number): number {
  const { gamma } = vessel.gas;
  const tau = vessel.volume / (vessel.effectiveArea * restSoundSpeed(vessel.gas));
  return (1 + (((gamma - 1) / 2) * chokedConstant(gamma) * t) / tau) ** ((-2 * gamma) / (gamma - 1));
}

/** Time for the vessel's pressure to fall to `ratio` times its start, choked all the way [s]. */
export function chokedTime(vessel: Vessel, ratio: number): number {
  const { gamma } = vessel.gas;
  const tau = vessel.volume / (vessel.effectiveArea * restSoundSpeed(vessel.gas));
  const rise = ratio ** (-(gamma - 1) / (2 * gamma)) - 1;
  return (tau * rise) / (((gamma - 1) / 2) * chokedConstant(gamma));
}

/** Temperature over its start at a pressure ratio p/p0 in the vessel [-]. */
export function vesselTemperatureRatio(ratio: number, gamma: number): number {
  return ratio ** ((gamma - 1) / gamma);
}

/** Five-point Gauss-Legendre abscissae and weights on [-1, 1]. */
const GAUSS: readonly (readonly [number, number])[] = [
  [0, 128 / 225],
  [Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3, (322 + 13 * Math.sqrt(70)) / 900],
  [-Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3, (322 + 13 * Math.sqrt(70)) / 900],
  [Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3, (322 - 13 * Math.sqrt(70)) / 900],
  [-Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3, (322 - 13 * Math.sqrt(70)) / 900],
];

/** Dimensionless time t A a_b/V from `excess` = p/p_b (at most critical) down to the room's pressure [-]. */
function tailTime(excess: number, gamma: number): number {
  const end = Math.acosh(excess ** ((gamma - 1) / (2 * gamma)));
  const pieces = 8;
  let sum = 0;
  for (let i = 0; i < pieces; i += 1) {
    const half = end / (2 * pieces);
    const middle = (2 * i + 1) * half;
    for (const [x, weight] of GAUSS) {
      sum += weight * half * Math.cosh(middle + half * x) ** ((3 - gamma) / (gamma - 1));
    }
  }
  return (sum * 2) / (gamma - 1) / Math.sqrt(2 / (gamma - 1));
}

/** Dimensionless time t A a_c/V of the whole subsonic tail, from critical to the room's pressure; a_c at its start [-]. */
export function subsonicTailTime(gamma: number): number {
  const criticalSound = Math.sqrt((gamma + 1) / 2);
  return tailTime(((gamma + 1) / 2) ** (gamma / (gamma - 1)), gamma) * criticalSound;
}

/** Pressure in the vessel at the time `t`, port choked first and subsonic later, room at `roomPressure` [Pa]. */
export function blowDownPressure(vessel: Vessel, roomPressure: number, t: number): number {
  const { gas, volume, effectiveArea } = vessel;
  const { gamma } = gas;
  const critical = ((gamma + 1) / 2) ** (gamma / (gamma - 1));
  const start = gas.pressure / roomPressure;
  const chokedUntil = start > critical ? chokedTime(vessel, critical / start) : 0;
  if (t < chokedUntil) return gas.pressure * chokedPressureRatio(vessel, t);
  const roomSound = restSoundSpeed(gas) * start ** (-(gamma - 1) / (2 * gamma));
  const tailStart = Math.min(start, critical);
  const left = tailTime(tailStart, gamma) - ((t - chokedUntil) * effectiveArea * roomSound) / volume;
  if (left <= 0) return roomPressure;
  return roomPressure * rootBetween((excess) => tailTime(excess, gamma) - left, 1, tailStart);
}
