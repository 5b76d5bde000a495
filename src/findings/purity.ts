/**
 * Purity over the scavenging of a cycle, as it was computed, against the scavenge ratio
 *   SR = integral of m_in/m dt,
 * m_in what comes in through the transfers [kg/s], m what the cylinder holds [kg], from the transfers' opening to the exhaust's
 * closing. Taken so, a cylinder that mixes whatever comes in holds a fresh share of 1 - exp(-SR), and lets the same out,
 * however pressure and temperature go: d(m y)/dt = m_in - m_out y and dm/dt = m_in - m_out give dy/dSR = 1 - y (derived here).
 * One that displaces without mixing holds SR up to 1. What the plug-back brings back raises the share at a standing SR.
 */

/** Scavenge ratio, fresh share of what the cylinder holds and of what leaves through the exhaust port [-]. */
export interface PurityCurve {
  readonly ratio: readonly number[];
  readonly kept: readonly number[];
  /** Null where nothing leaves. */
  readonly leaving: readonly (number | null)[];
}

export const NO_PURITY: PurityCurve = { ratio: [], kept: [], leaving: [] };

/** One cycle step by step; flows at the middle of a step, what is held at its end. */
export interface ScavengingSteps {
  readonly steps: number;
  /** Crank angle at the end of each step [deg], and degrees a second. */
  readonly endDeg: ArrayLike<number>;
  readonly degPerSecond: number;
  /** Mass in the cylinder and its burnt part [kg]. */
  readonly mass: ArrayLike<number>;
  readonly burnt: ArrayLike<number>;
  /** Into the cylinder through the transfers; out through the exhaust port, and the burnt part of that [kg/s]. */
  readonly transferFlow: ArrayLike<number>;
  readonly exhaustFlow: ArrayLike<number>;
  readonly exhaustBurnt: ArrayLike<number>;
}

/** Degrees between two points of the curve. */
const STEP_DEG = 2;
/** An exhaust flow that would take longer than this to empty the cylinder is none [s]. */
const SLOWEST = 1;

/** The curve between two crank angles, on the steps' own count of degrees. */
export function purityCurve(cycle: ScavengingSteps, fromDeg: number, toDeg: number): PurityCurve {
  const ratio: number[] = [];
  const kept: number[] = [];
  const leaving: (number | null)[] = [];
  const { endDeg, mass, burnt, transferFlow, exhaustFlow, exhaustBurnt } = cycle;
  let turned = 0;
  let next = fromDeg;
  for (let i = 1; i < cycle.steps; i++) {
    const deg = endDeg[i]!;
    // To the last digits a stage ends with a step.
    if (deg <= fromDeg + 1e-6 || deg > toDeg + 1e-6) continue;
    const held = mass[i]!;
    const dt = (deg - endDeg[i - 1]!) / cycle.degPerSecond;
    turned += (Math.max(0, transferFlow[i]!) * dt) / (0.5 * (held + mass[i - 1]!));
    const last = deg > toDeg - 1e-6;
    if (deg < next && !last) continue;
    next = deg + STEP_DEG;
    const out = exhaustFlow[i]!;
    ratio.push(turned);
    kept.push(1 - burnt[i]! / held);
    leaving.push(out * SLOWEST > held ? 1 - exhaustBurnt[i]! / out : null);
  }
  return { ratio, kept, leaving };
}

/** Fresh share held, and let out, by perfect mixing at a scavenge ratio [-]. */
export const perfectMixing = (ratio: number): number => 1 - Math.exp(-ratio);

/** Fresh share held by perfect displacement at a scavenge ratio [-]; none is let out before it is 1. */
export const perfectDisplacement = (ratio: number): number => Math.min(1, ratio);
