/**
 * A wave meets a sudden change of bore; pipe 2 behind it is at rest. Quasi-steady models.
 *
 * Units of the rest sound speed, h = (g-1)/2, m = F2/F1. Pipe 1 brings lambda_1 = 2 X_i - 1, pipe 2 brings 1.
 *   Constant pressure:   A = (lambda_1 + m)/(1 + m) on both sides; homentropic.
 *   Isentropic energy:   A1^2 + h U1^2 = A2^2 + h U2^2,   A1^(2/(g-1)) U1 = m A2^(2/(g-1)) U2;  A1 = lambda_1 - h U1, A2 = 1 + h U2.
 *   Borda-Carnot (expansion): the step of area-change.ts; behind it gas of higher entropy, then a contact surface, then a
 *                        simple wave into the gas at rest: p2 = (1 + h U2)^(2g/(g-1)).
 * Unknown U1; where its residual has no root short of sonic flow the model has no subsonic solution.
 * Linear acoustics: R = (1-m)/(1+m), T = 2/(1+m) on the overpressure.
 *
 * Source: Benson (1982), junctions at constant pressure and with the energy equation; from memory. The Borda match derived here.
 */
import { bordaCarnot } from './area-change.ts';
import { firstRoot } from './root.ts';
import { amplitude, pressureRatioOf } from './simple-wave.ts';

/** Pressure ratios of the reflected and of the transmitted wave [-]. */
export interface StepWaves {
  readonly reflected: number;
  readonly transmitted: number;
}

/** Reflection and transmission factors of linear acoustics for F2/F1 = `ratio` [-]. */
export function linearStep(ratio: number): StepWaves {
  return { reflected: (1 - ratio) / (1 + ratio), transmitted: 2 / (1 + ratio) };
}

/** Equal pressure on both sides of the step. */
export function constantPressureStep(incident: number, ratio: number, gamma: number): StepWaves {
  const lambda = 2 * amplitude(incident, gamma) - 1;
  const a = (lambda + ratio) / (1 + ratio);
  return {
    reflected: pressureRatioOf((2 * a - lambda + 1) / 2, gamma),
    transmitted: pressureRatioOf(a, gamma),
  };
}

function wavesOf(lambda: number, u1: number, transmittedAmplitude: number, gamma: number): StepWaves {
  return {
    reflected: pressureRatioOf((lambda - (gamma - 1) * u1 + 1) / 2, gamma),
    transmitted: pressureRatioOf(transmittedAmplitude, gamma),
  };
}

/** Largest speed in pipe 1 worth trying, with the sign of the flow: sonic flow of what arrives. */
function sonicVelocity(lambda: number, gamma: number): number {
  const h = (gamma - 1) / 2;
  return lambda >= 1 ? lambda / (1 + h) : -lambda / (1 - h);
}

/** Total enthalpy continuous through the step, no loss; null where no subsonic flow fits. */
export function isentropicStep(incident: number, ratio: number, gamma: number): StepWaves | null {
  const h = (gamma - 1) / 2;
  const lambda = 2 * amplitude(incident, gamma) - 1;
  const density = (a: number): number => a ** (2 / (gamma - 1));
  const downstream = (u1: number): number => {
    // (1 + hU)^2 + hU^2 = E solved for U.
    const energy = (lambda - h * u1) ** 2 + h * u1 * u1;
    return (-h + Math.sqrt(h * h + (h * h + h) * (energy - 1))) / (h * h + h);
  };
  const residual = (u1: number): number => {
    const u2 = downstream(u1);
    return density(lambda - h * u1) * u1 - ratio * density(1 + h * u2) * u2;
  };
  const u1 = firstRoot(residual, 0, sonicVelocity(lambda, gamma), 400);
  if (u1 === null) return null;
  return wavesOf(lambda, u1, 1 + h * downstream(u1), gamma);
}

/** Amplitude and speed behind a step in which pressure is lost. */
interface Behind {
  readonly amplitude: number;
  readonly u2: number;
}

/** Waves of a step with losses: what is behind it has to run as a simple wave into the gas at rest. */
function lossyStep(lambda: number, behind: (u1: number) => Behind, gamma: number): StepWaves | null {
  const h = (gamma - 1) / 2;
  const residual = (u1: number): number => {
    if (u1 === 0) return lambda - 1;
    const { amplitude: x2, u2 } = behind(u1);
    return x2 - (1 + h * u2);
  };
  const u1 = firstRoot(residual, 0, sonicVelocity(lambda, gamma), 400);
  return u1 === null ? null : wavesOf(lambda, u1, behind(u1).amplitude, gamma);
}

/** Borda-Carnot loss at an expansion, flow from the small pipe into the large one; null where no subsonic flow fits. */
export function bordaStep(incident: number, ratio: number, gamma: number): StepWaves | null {
  if (ratio < 1 || incident < 1) throw new RangeError('Borda-Carnot needs flow into the larger pipe');
  const h = (gamma - 1) / 2;
  const lambda = 2 * amplitude(incident, gamma) - 1;
  const behind = (u1: number): Behind => {
    const a1 = lambda - h * u1;
    const change = bordaCarnot(u1 / a1, ratio, gamma);
    const a2 = Math.sqrt((a1 * a1 + h * u1 * u1) / (1 + h * change.mach ** 2));
    return { amplitude: a1 * amplitude(change.pressure, gamma), u2: change.mach * a2 };
  };
  return lossyStep(lambda, behind, gamma);
}

/**
 * Flow over a sharp edge into the smaller pipe: isentropic to the vena contracta of C_c F2, and from there to the full bore
 * with the loss of Borda and Carnot; null where no subsonic flow fits.
 */
export function contractedStep(
  incident: number,
  ratio: number,
  contraction: number,
  gamma: number,
): StepWaves | null {
  if (ratio > 1 || incident < 1) throw new RangeError('a vena contracta needs flow into the smaller pipe');
  const h = (gamma - 1) / 2;
  const lambda = 2 * amplitude(incident, gamma) - 1;
  /** Mass flow over area, pressure and rest sound speed of a stream, as a function of its Mach number. */
  const flux = (mach: number): number => mach * (1 + h * mach * mach) ** (-(gamma + 1) / (2 * (gamma - 1)));
  const narrowest = ratio * contraction;
  const behind = (u1: number): Behind => {
    const a1 = lambda - h * u1;
    const mach = u1 / a1;
    const wanted = flux(mach) / narrowest;
    const throat = firstRoot((m) => flux(m) - wanted, 0, 1, 400) ?? Number.NaN;
    const change = bordaCarnot(throat, 1 / contraction, gamma);
    const drop = ((1 + h * mach * mach) / (1 + h * throat * throat)) ** (gamma / (gamma - 1));
    const a2 = Math.sqrt((a1 * a1 + h * u1 * u1) / (1 + h * change.mach ** 2));
    return { amplitude: a1 * amplitude(drop * change.pressure, gamma), u2: change.mach * a2 };
  };
  return lossyStep(lambda, behind, gamma);
}
