/**
 * Reflection at a closed end of a wave running into gas at rest.
 *
 * Isentropic wave: the wall doubles X - 1, so  X_w = 2 X_i - 1  exactly; the wall pressure is X_w^(2g/(g-1)).
 * Shock of strength y = p2/p1, Mach number M, speed W: it leaves gas moving at u2 and comes back off the wall as a shock
 *   M^2 = 1 + (g+1)(y-1)/2g,   u2 = (a0/g)(y-1) sqrt( (2g/(g+1)) / (y + (g-1)/(g+1)) ),
 *   p5/p2 = [ (3g-1) y - (g-1) ] / [ (g-1) y + (g+1) ].
 * The entropy level A_A behind the shock tells what an isentropic treatment leaves out.
 *
 * Source: Benson (1982) ch. 3 for the isentropic rule; any text on shock tubes for the shock (Landau and Lifshitz, section 100); from memory.
 */
import { amplitude, pressureRatioOf } from './simple-wave.ts';

/** Wall pressure over the rest pressure when an isentropic wave of ratio `incident` is reflected [-]. */
export function wallPressureRatio(incident: number, gamma: number): number {
  const x = 2 * amplitude(incident, gamma) - 1;
  if (x <= 0) throw new RangeError('the wave would pull the gas off the wall: vacuum');
  return pressureRatioOf(x, gamma);
}

/** A shock of pressure ratio p2/p1 run into a wall; speeds in units of the rest sound speed. */
export interface ReflectedShock {
  readonly mach: number;
  /** Velocity of the gas behind the incoming shock, over a0 [-]. */
  readonly gasVelocity: number;
  /** Wall pressure over the rest pressure [-]. */
  readonly wallPressureRatio: number;
  /** Entropy level A_A behind the incoming shock, 1 ahead of it [-]. */
  readonly entropyLevel: number;
}

/** Reflection of a shock at a closed end; `pressureRatio` is p2/p1 > 1. */
export function reflectShock(pressureRatio: number, gamma: number): ReflectedShock {
  const y = pressureRatio;
  const k = (gamma - 1) / (gamma + 1);
  const densityRatio = (y + k) / (k * y + 1);
  return {
    mach: Math.sqrt(1 + ((gamma + 1) * (y - 1)) / (2 * gamma)),
    gasVelocity: ((y - 1) / gamma) * Math.sqrt((2 * gamma) / (gamma + 1) / (y + k)),
    wallPressureRatio: (y * ((3 * gamma - 1) * y - (gamma - 1))) / ((gamma - 1) * y + (gamma + 1)),
    entropyLevel: Math.sqrt(y / densityRatio) / amplitude(y, gamma),
  };
}
