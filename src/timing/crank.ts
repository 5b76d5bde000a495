/**
 * Slider-crank with an offset gudgeon pin: piston travel from crank angle and back, both in closed form.
 *
 * A throw r turns about the origin, a rod l joins it to a pin that slides on the line x = e. With the throw at φ from
 * the cylinder's axis, the pin's height is y = r cos φ + √(l² − (r sin φ − e)²). Top dead centre is where throw and rod
 * stretch, y_t = √((l+r)² − e²) at φ_t = asin(e/(l+r)); bottom dead centre is where they fold, y_b = √((l−r)² − e²) at
 * 180° + asin(e/(l−r)). Travel s = y_t − y is counted from there, crank angle θ = φ − φ_t too.
 *
 * Back: with q² = y² + e² the cosine rule in the triangle of throw, rod and pin gives
 * φ = atan(e/y) ± ψ, cos ψ = (q² + r² − l²)/(2rq). So a window whose roof stands at that travel is open for 360° − 2ψ
 * whatever the offset, but not symmetrically about bottom dead centre.
 *
 * The stroke a workshop states is twice the throw, and is taken so; with an offset the piston moves a little further
 * (2 µm for an offset of 1 mm in a 54.5 mm stroke on a 120 mm rod), which `stroke` reports.
 * Derived here from the triangle; the same relations are in any text on engine kinematics.
 */

import { arcsine, arctangent, cosine, sine, square } from '../../solver/index.ts';

const RADIAN = Math.PI / 180;

export interface Crank {
  /** Half the stated stroke [m]. */
  readonly throw: number;
  readonly rod: number;
  readonly pinOffset: number;
  /** Angle of the throw from the cylinder's axis at top dead centre [rad]. */
  readonly topTilt: number;
  /** Height of the pin above the shaft at top dead centre [m]. */
  readonly reach: number;
  /** Distance the piston really moves [m]. */
  readonly stroke: number;
  /** Bottom dead centre [deg after top dead centre]. */
  readonly bottomDeg: number;
}

export function crankOf(engine: {
  readonly stroke: number;
  readonly rod: number;
  readonly pinOffset: number;
}): Crank {
  const r = engine.stroke / 2;
  const { rod: l, pinOffset: e } = engine;
  if (!(l - r > Math.abs(e))) {
    throw new RangeError(`rod ${l} m cannot turn a throw of ${r} m with a pin offset of ${e} m`);
  }
  const topTilt = arcsine(e / (l + r));
  const reach = Math.sqrt(square(l + r) - e * e);
  return {
    throw: r,
    rod: l,
    pinOffset: e,
    topTilt,
    reach,
    stroke: reach - Math.sqrt(square(l - r) - e * e),
    bottomDeg: 180 + (arcsine(e / (l - r)) - topTilt) / RADIAN,
  };
}

/** Turns the crank angle in a slot [deg] into the piston's travel from top dead centre [m]; boxes no number on the way. */
export function turnIntoTravel(crank: Crank, slots: Float64Array, slot: number): void {
  const phi = slots[slot]! * RADIAN + crank.topTilt;
  const lean = crank.throw * sine(phi) - crank.pinOffset;
  slots[slot] = crank.reach - crank.throw * cosine(phi) - Math.sqrt(crank.rod * crank.rod - lean * lean);
}

const turned = new Float64Array(1);

/** Travel of the piston from top dead centre [m]. */
export function pistonTravel(crank: Crank, deg: number): number {
  turned[0] = deg;
  turnIntoTravel(crank, turned, 0);
  return turned[0];
}

/** Speed of the piston over that of the shaft, downwards positive [m/rad]. */
export function pistonVelocity(crank: Crank, deg: number): number {
  const phi = deg * RADIAN + crank.topTilt;
  const r = crank.throw;
  const lean = r * sine(phi) - crank.pinOffset;
  return r * sine(phi) + (r * cosine(phi) * lean) / Math.sqrt(square(crank.rod) - lean * lean);
}

export interface TravelAngles {
  /** On the way down, and on the way up [deg after top dead centre]. */
  readonly downDeg: number;
  readonly upDeg: number;
}

/** The two crank angles at which the piston stands at a travel [deg]. */
export function crankAnglesAtTravel(crank: Crank, travel: number): TravelAngles {
  if (!(travel >= 0 && travel <= crank.stroke * (1 + 1e-12))) {
    throw new RangeError(`travel ${travel} m is not within the stroke of ${crank.stroke} m`);
  }
  const { throw: r, rod: l, pinOffset: e, reach } = crank;
  const y = reach - travel;
  const q = Math.hypot(y, e);
  // ψ from its half angle, each factor written so that it keeps its digits beside either dead centre.
  const stretched = (travel * (2 * reach - travel)) / (l + r + q);
  const low = reach - crank.stroke;
  const folded = Math.max(0, ((crank.stroke - travel) * (y + low)) / (q + l - r));
  const psi = 2 * arctangent(Math.sqrt(stretched * (l - r + q)), Math.sqrt(folded * (q + r + l)));
  const middle = arctangent(e, y) - crank.topTilt;
  return { downDeg: (middle + psi) / RADIAN, upDeg: 360 + (middle - psi) / RADIAN };
}

/** Travel at which a roof must stand for a window to stay open this long [m]. */
export function travelForDuration(crank: Crank, durationDeg: number): number {
  if (!(durationDeg >= 0 && durationDeg <= 360)) {
    throw new RangeError(`a duration of ${durationDeg} deg is not within one turn`);
  }
  const psi = (180 - durationDeg / 2) * RADIAN;
  const across = crank.throw * sine(psi);
  const q = crank.throw * cosine(psi) + Math.sqrt(square(crank.rod) - across * across);
  const y = Math.sqrt(q * q - square(crank.pinOffset));
  return Math.min(crank.stroke, Math.max(0, crank.reach - y));
}

/** Time open of a window whose roof stands at this travel [deg]. */
export function durationForTravel(crank: Crank, travel: number): number {
  const { downDeg, upDeg } = crankAnglesAtTravel(crank, travel);
  return upDeg - downDeg;
}

/** Mean piston speed at a shaft speed in rpm [m/s]. */
export function meanPistonSpeed(crank: Crank, rpm: number): number {
  return (crank.stroke * rpm) / 30;
}
