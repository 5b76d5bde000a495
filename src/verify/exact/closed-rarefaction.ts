/**
 * A centred rarefaction reflected off a closed end: the full nonlinear interaction.
 *
 * A tube 0 <= x <= L holds gas at rest (a0); at t = 0 a piston or diaphragm at x = L is withdrawn impulsively.
 * t0 = L/a0. The fan  x - L = (u - a) t,  u = 2(a0 - a)/(g-1)  reaches the wall x = 0 at t0 and is reflected.
 *   Reflected head in the fan:  t/t0 = (a0/a)^((g+1)/(2(g-1))),  placed by the fan's own law.
 *   Wall, g = 7/5:              t_w/t0 = (3 s^5 + 2 s^3 + 3 s)/8,  s = a0/a_w,  p_w/p0 = s^-7.
 * The wall law solves the Euler-Poisson-Darboux equation of the hodograph plane, which has a closed solution for
 * g = (2N+3)/(2N+1); N = 2 is air. Derived here; the test holds it against a net of characteristics.
 */
import { rootBetween } from './root.ts';

/** A place and time in units of L and t0. */
export interface TubePoint {
  readonly x: number;
  readonly t: number;
}

/** Where the reflected head crosses the state of sound speed `a`/a0 of the fan. */
export function reflectedHead(a: number, gamma: number): TubePoint {
  const t = a ** (-(gamma + 1) / (2 * (gamma - 1)));
  const u = (2 * (1 - a)) / (gamma - 1);
  return { x: 1 + (u - a) * t, t };
}

/** Sound speed over a0 in the incoming fan at (x, t), in units of L and t0; 1 ahead of the fan. */
export function fanSoundSpeed(x: number, t: number, gamma: number): number {
  return Math.min(1, (2 - (gamma - 1) * ((x - 1) / t)) / (gamma + 1));
}

/** Time over t0 at which the sound speed at the wall has fallen to `a`/a0; gamma = 1.4. */
export function wallTime(a: number): number {
  const s = 1 / a;
  return (3 * s ** 5 + 2 * s ** 3 + 3 * s) / 8;
}

/** Sound speed over a0 at the wall at the time `t`/t0; gamma = 1.4, a fan without a tail. */
export function wallSoundSpeed(t: number): number {
  return t <= 1 ? 1 : 1 / rootBetween((s) => wallTime(1 / s) - t, 1, 1 + t);
}

/** Pressure over p0 at the wall at the time `t`/t0; gamma = 1.4. */
export function wallPressure(t: number): number {
  return wallSoundSpeed(t) ** 7;
}
