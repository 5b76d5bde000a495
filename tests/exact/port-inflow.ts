/**
 * Gas let out of a vessel through a port into a pipe at rest: the constant-pressure port model, solved exactly.
 *
 * Isentropic from the vessel (c) to the port (t), whose pressure is that of the pipe behind the jet (2) while subsonic;
 * the jet then mixes at constant pressure and total enthalpy. phi = port area / pipe area, one gas, h = (g-1)/2:
 *   a_c^2 = a_t^2 + h u_t^2 = a_2^2 + h u_2^2,   a_t = a_c (p_2/p_c)^((g-1)/2g),   phi u_t/a_t^2 = u_2/a_2^2.
 * Choked (p_2/p_c at or below critical): the port's mass flux is the critical one, rho_2 u_2 = phi (rho u)_t.
 * Ahead of the contact surface a simple wave runs into the still gas (1):  p_2/p_1 = (1 + h u_2/a_1)^(2g/(g-1)).
 * Unknown: u_2; the residual is the pipe's mass flux minus the port's.
 *
 * Source: Benson (1982), flow from a cylinder to a pipe, constant-pressure model; from memory. The match across the
 * contact is exact, not linearised: derived here.
 */

import { rootBetween } from '../../src/verify/exact/root.ts';
import { pressureRatioOf, restSoundSpeed, type StillGas } from '../../src/verify/exact/simple-wave.ts';
import { criticalMassFlux, criticalPressureRatio, massFlux } from './choking.ts';

/** The jet in the pipe behind the contact surface, SI; `massFlux` over the pipe's area [kg/(m2 s)]. */
export interface PortInflow {
  readonly pressureRatio: number;
  readonly velocity: number;
  readonly temperature: number;
  readonly mach: number;
  /** Entropy level over that of the pipe's own gas [-]. */
  readonly entropyLevel: number;
  readonly massFlux: number;
  readonly choked: boolean;
}

/** Flow from `vessel` into `pipe` (both at rest, the same gas) through a port of `phi` times the pipe's area. */
export function portInflow(vessel: StillGas, pipe: StillGas, phi: number): PortInflow {
  const { gamma, gasConstant } = pipe;
  const h = (gamma - 1) / 2;
  const a1 = restSoundSpeed(pipe);
  const cp = (gamma * gasConstant) / (gamma - 1);
  const jet = (u: number) => {
    const pressure = pipe.pressure * pressureRatioOf(1 + (h * u) / a1, gamma);
    const temperature = vessel.temperature - (u * u) / (2 * cp);
    const choked = pressure / vessel.pressure <= criticalPressureRatio(gamma);
    const port = choked ? criticalMassFlux(vessel) : massFlux(vessel, pressure / vessel.pressure);
    return { pressure, temperature, choked, flux: (pressure * u) / (gasConstant * temperature), port };
  };
  const residual = (u: number): number => {
    const j = jet(u);
    return j.flux - phi * j.port;
  };
  // From rest to where the pipe's pressure would reach the vessel's, or the sound speed of the jet if that is less.
  const stall = (a1 / h) * ((vessel.pressure / pipe.pressure) ** ((gamma - 1) / (2 * gamma)) - 1);
  const sonic = Math.sqrt((2 * gamma * gasConstant * vessel.temperature) / (gamma + 1));
  const u = rootBetween(residual, 0, Math.min(stall, sonic));
  const { pressure, temperature, choked, flux } = jet(u);
  const pressureRatio = pressure / pipe.pressure;
  return {
    pressureRatio,
    velocity: u,
    temperature,
    mach: u / Math.sqrt(gamma * gasConstant * temperature),
    entropyLevel: Math.sqrt(temperature / pipe.temperature) / pressureRatio ** ((gamma - 1) / (2 * gamma)),
    massFlux: flux,
    choked,
  };
}
