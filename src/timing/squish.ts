/**
 * How fast the charge is squeezed out from under the squish band as the piston comes up. The band is the outer ring of the head,
 * of area A_s and clearance c at top dead centre, around a bowl of diameter d. With s the piston's travel from there, A its
 * area and V = V_c + A s, a charge of even density leaves the ring, V_s = A_s (c + s), through the cylinder of area
 * pi d (c + s) at its inner edge with
 *   w = (V/(pi d (c + s))) d/dt (-V_s/V) = -ds/dt A_s (V_c - A c)/(pi d (c + s) V).
 * Derived here: mass of the ring, rho V_s with rho ~ 1/V, and the crank's exact motion. Friction, leakage and heat of the gap are
 * left out, so that the true speed is lower.
 */

import type { Head } from '../model/engine.ts';
import { areaOf, diameterOf } from '../pipe/circle.ts';
import { pistonTravel, pistonVelocity } from './crank.ts';
import type { Volumes } from './volume.ts';

/** Angles of the last part of the way up that are tried [deg]. */
const FROM_DEG = 300;
const STEP_DEG = 0.05;

export interface Squish {
  /** Largest speed of the charge out of the gap [m/s], and where [deg after top dead centre]. */
  readonly velocity: number;
  readonly deg: number;
}

/** Clearance volume that the head has [m3]: as stated, or by the compression ratio. */
export function headVolume(head: Head, volumes: Volumes): number {
  return head.volume ?? volumes.clearance;
}

/** Speed of the charge out of the gap at a crank angle [m/s]; negative where the piston draws it in. */
export function squishVelocityAt(head: Head, volumes: Volumes, rpm: number, deg: number): number {
  const { crank, pistonArea: A, bore } = volumes;
  const { squishArea, squishClearance: c } = head;
  const Vc = headVolume(head, volumes);
  const s = pistonTravel(crank, deg);
  const rising = (-pistonVelocity(crank, deg) * rpm * Math.PI) / 30;
  const bowl = diameterOf(areaOf(bore) - squishArea);
  return (rising * squishArea * (Vc - A * c)) / (Math.PI * bowl * (c + s) * (Vc + A * s));
}

/** The largest squish velocity at a speed [rpm]. */
export function squishOf(head: Head, volumes: Volumes, rpm: number): Squish {
  let best: Squish = { velocity: 0, deg: 360 };
  for (let deg = FROM_DEG; deg <= 360; deg += STEP_DEG) {
    const velocity = squishVelocityAt(head, volumes, rpm, deg);
    if (velocity > best.velocity) best = { velocity, deg };
  }
  return best;
}
