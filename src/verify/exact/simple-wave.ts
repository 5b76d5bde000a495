/**
 * Finite-amplitude waves running one way into gas at rest, and two of them passing through each other.
 *
 * With X = (p/p0)^((g-1)/2g), a simple wave running to the right into gas at rest (p0, a0) carries
 *   u = 2 a0 (X - 1)/(g - 1),   a = a0 X,   T = T0 X^2,   rho = rho0 X^(2/(g-1)),
 * and each of its states travels unchanged at  alpha = u + a = a0 [ (g+1) X - 2 ]/(g-1),  in a straight line of the
 * x-t plane. Two opposed waves XR, XL at one place give  X = XR + XL - 1,  u = 2 a0 (XR - XL)/(g-1).
 * All of it holds until the crest overtakes the foot: see shock-formation.ts.
 *
 * Source: Earnshaw and Riemann; G. P. Blair, Design and Simulation of Two-Stroke Engines (1996), ch. 2; R. S. Benson,
 * The Thermodynamics and Gas Dynamics of Internal-Combustion Engines (1982), ch. 2-3; values from memory.
 */
import { rootBetween } from './root.ts';

/** Gas at rest ahead of a wave: ratio of specific heats [-], gas constant [J/(kg K)], temperature [K], pressure [Pa]. */
export interface StillGas {
  readonly gamma: number;
  readonly gasConstant: number;
  readonly temperature: number;
  readonly pressure: number;
}

/** A state within a wave, SI; `propagation` is the speed at which it travels [m/s]. */
export interface WaveState {
  readonly pressure: number;
  readonly velocity: number;
  readonly soundSpeed: number;
  readonly temperature: number;
  readonly density: number;
  readonly propagation: number;
}

/** X = (p/p0)^((g-1)/2g) [-]. */
export function amplitude(pressureRatio: number, gamma: number): number {
  return pressureRatio ** ((gamma - 1) / (2 * gamma));
}

/** p/p0 of an amplitude X [-]. */
export function pressureRatioOf(x: number, gamma: number): number {
  return x ** ((2 * gamma) / (gamma - 1));
}

/** Sound speed of the gas at rest [m/s]. */
export function restSoundSpeed(still: StillGas): number {
  return Math.sqrt(still.gamma * still.gasConstant * still.temperature);
}

function stateOf(still: StillGas, x: number, velocityRatio: number): Omit<WaveState, 'propagation'> {
  const { gamma } = still;
  const a0 = restSoundSpeed(still);
  return {
    pressure: still.pressure * pressureRatioOf(x, gamma),
    velocity: a0 * velocityRatio,
    soundSpeed: a0 * x,
    temperature: still.temperature * x * x,
    density: (still.pressure / (still.gasConstant * still.temperature)) * x ** (2 / (gamma - 1)),
  };
}

/** State in a wave of pressure ratio p/p0 running to the right into gas at rest. */
export function simpleWave(still: StillGas, pressureRatio: number): WaveState {
  const { gamma } = still;
  const x = amplitude(pressureRatio, gamma);
  return {
    ...stateOf(still, x, (2 * (x - 1)) / (gamma - 1)),
    propagation: (restSoundSpeed(still) * ((gamma + 1) * x - 2)) / (gamma - 1),
  };
}

/** Two opposed waves at one place, with the speeds of the characteristics u + a and u - a [m/s]. */
export interface Superposition extends Omit<WaveState, 'propagation'> {
  readonly rightCharacteristic: number;
  readonly leftCharacteristic: number;
}

/** State where a right-running wave of pressure ratio `right` meets a left-running one of ratio `left`. */
export function superpose(still: StillGas, right: number, left: number): Superposition {
  const { gamma } = still;
  const xRight = amplitude(right, gamma);
  const xLeft = amplitude(left, gamma);
  const x = xRight + xLeft - 1;
  const u = (2 * (xRight - xLeft)) / (gamma - 1);
  const a0 = restSoundSpeed(still);
  return {
    ...stateOf(still, x, u),
    rightCharacteristic: a0 * (u + x),
    leftCharacteristic: a0 * (u - x),
  };
}

/**
 * The wave at place `x` and time `t`, from the pressure ratio it had over x at t = 0: the foot of the characteristic
 * through (x, t) lies where  foot + alpha(foot) t = x.  `range` brackets the pressure ratios of the wave. Exact until
 * the shock forms; after it several feet exist and one of them is returned, so ask shock-formation.ts first.
 */
export function releasedWave(
  still: StillGas,
  initialRatio: (x: number) => number,
  range: readonly [number, number],
  x: number,
  t: number,
): WaveState {
  const speed = (foot: number): number => simpleWave(still, initialRatio(foot)).propagation;
  const slow = simpleWave(still, Math.min(range[0], 1)).propagation;
  const fast = simpleWave(still, Math.max(range[1], 1)).propagation;
  const slack = 1e-9 * (Math.abs(x) + fast * t);
  const foot =
    t === 0 ? x : rootBetween((f) => f + speed(f) * t - x, x - fast * t - slack, x - slow * t + slack);
  return simpleWave(still, initialRatio(foot));
}

/**
 * The wave at place `x` > 0 and time `t`, sent in at x = 0 with the pressure ratio `sentRatio(time)` (1 before t = 0):
 * what arrives left at the time tau with  alpha(tau) (t - tau) = x.  Exact until the shock forms.
 */
export function sentWave(
  still: StillGas,
  sentRatio: (time: number) => number,
  x: number,
  t: number,
): WaveState {
  const ratio = (tau: number): number => (tau <= 0 ? 1 : sentRatio(tau));
  const a0 = restSoundSpeed(still);
  if (a0 * t <= x) return simpleWave(still, 1);
  const gap = (tau: number): number => simpleWave(still, ratio(tau)).propagation * (t - tau) - x;
  return simpleWave(still, ratio(rootBetween(gap, 0, t)));
}
