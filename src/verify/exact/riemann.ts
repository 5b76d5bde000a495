/**
 * The Riemann problem of the Euler equations, solved exactly: two uniform states of ideal gas, each with its own
 * ratio of specific heats, meet at x = 0 when a diaphragm vanishes at t = 0.
 *
 * Across the contact the star pressure ps and velocity us agree. Each side is joined to ps by a shock or a rarefaction:
 *   us = uL - fL(ps) = uR + fR(ps)
 *   shock (ps > p):        f = (ps - p) sqrt( A / (ps + B) ),  A = 2/((g+1) rho),  B = p (g-1)/(g+1)
 *   rarefaction (ps <= p): f = 2a/(g-1) [ (ps/p)^((g-1)/2g) - 1 ]
 * fL + fR + uR - uL rises with ps and bends downwards, so Newton's method climbs to its root from below and stays
 * there; a step that would go below zero is replaced by a hundredth of the pressure. If even ps = 0 is too much,
 * the states part and leave a vacuum between their tails at u +- 2a/(g-1).
 *
 * Source: E. F. Toro, Riemann Solvers and Numerical Methods for Fluid Dynamics, ch. 4.
 */

/** A uniform gas: density [kg/m3], velocity [m/s], pressure [Pa], ratio of specific heats [-]. */
export interface GasState {
  readonly density: number;
  readonly velocity: number;
  readonly pressure: number;
  readonly gamma: number;
}

/** One of the two waves: its outer edge `head` and inner edge `tail` [m/s] (equal for a shock), the density behind [kg/m3]. */
export interface RiemannWave {
  readonly kind: 'shock' | 'rarefaction';
  readonly head: number;
  readonly tail: number;
  readonly starDensity: number;
}

/** The solved problem: star pressure [Pa] and velocity [m/s], the waves; `vacuum` where the gases have parted. */
export interface RiemannSolution {
  readonly leftState: GasState;
  readonly rightState: GasState;
  readonly pressure: number;
  readonly velocity: number;
  readonly left: RiemannWave;
  readonly right: RiemannWave;
  readonly vacuum: boolean;
}

/** Sound speed of a state [m/s]. */
export function soundSpeed(state: GasState): number {
  return Math.sqrt((state.gamma * state.pressure) / state.density);
}

/** Change of velocity through the wave that joins `state` to `pressure` [m/s]. */
function velocityChange(state: GasState, pressure: number): number {
  const { gamma, density } = state;
  if (pressure > state.pressure) {
    const a = 2 / ((gamma + 1) * density);
    const b = (state.pressure * (gamma - 1)) / (gamma + 1);
    return (pressure - state.pressure) * Math.sqrt(a / (pressure + b));
  }
  const x = (pressure / state.pressure) ** ((gamma - 1) / (2 * gamma));
  return ((2 * soundSpeed(state)) / (gamma - 1)) * (x - 1);
}

/** Derivative of `velocityChange` by pressure [m/(s Pa)]. */
function velocityChangeSlope(state: GasState, pressure: number): number {
  const { gamma, density } = state;
  if (pressure > state.pressure) {
    const a = 2 / ((gamma + 1) * density);
    const b = (state.pressure * (gamma - 1)) / (gamma + 1);
    return Math.sqrt(a / (pressure + b)) * (1 - (pressure - state.pressure) / (2 * (pressure + b)));
  }
  const x = (pressure / state.pressure) ** (-(gamma + 1) / (2 * gamma));
  return x / (density * soundSpeed(state));
}

/** Speed at which a state would run into a vacuum, relative to itself [m/s]. */
function escapeSpeed(state: GasState): number {
  return (2 * soundSpeed(state)) / (state.gamma - 1);
}

function starPressure(left: GasState, right: GasState): number {
  let p = Math.min(left.pressure, right.pressure);
  for (let iteration = 0; iteration < 200; iteration += 1) {
    const residual = velocityChange(left, p) + velocityChange(right, p) + right.velocity - left.velocity;
    const slope = velocityChangeSlope(left, p) + velocityChangeSlope(right, p);
    const trial = p - residual / slope;
    const next = trial > 0 ? trial : 0.01 * p;
    if (Math.abs(next - p) <= 4 * Number.EPSILON * p) return next;
    p = next;
  }
  return p;
}

/** The wave between `state` and the star region; `side` is -1 for the left one and +1 for the right one. */
function wave(state: GasState, pressure: number, velocity: number, side: -1 | 1): RiemannWave {
  const { gamma } = state;
  const a = soundSpeed(state);
  const ratio = pressure / state.pressure;
  if (ratio > 1) {
    const k = (gamma - 1) / (gamma + 1);
    const speed =
      state.velocity + side * a * Math.sqrt(((gamma + 1) * ratio) / (2 * gamma) + (gamma - 1) / (2 * gamma));
    return {
      kind: 'shock',
      head: speed,
      tail: speed,
      starDensity: (state.density * (ratio + k)) / (k * ratio + 1),
    };
  }
  const starSound = a * ratio ** ((gamma - 1) / (2 * gamma));
  return {
    kind: 'rarefaction',
    head: state.velocity + side * a,
    tail: velocity + side * starSound,
    starDensity: state.density * ratio ** (1 / gamma),
  };
}

/** Solves the problem for two states of positive density and pressure. */
export function solveRiemann(left: GasState, right: GasState): RiemannSolution {
  for (const state of [left, right]) {
    if (!(state.density > 0 && state.pressure > 0 && state.gamma > 1)) {
      throw new RangeError('a state needs positive density and pressure and a gamma above 1');
    }
  }
  const leftEscape = left.velocity + escapeSpeed(left);
  const rightEscape = right.velocity - escapeSpeed(right);
  if (leftEscape <= rightEscape) {
    return {
      leftState: left,
      rightState: right,
      pressure: 0,
      velocity: 0.5 * (leftEscape + rightEscape),
      left: { kind: 'rarefaction', head: left.velocity - soundSpeed(left), tail: leftEscape, starDensity: 0 },
      right: {
        kind: 'rarefaction',
        head: right.velocity + soundSpeed(right),
        tail: rightEscape,
        starDensity: 0,
      },
      vacuum: true,
    };
  }
  const pressure = starPressure(left, right);
  const velocity =
    0.5 * (left.velocity + right.velocity + velocityChange(right, pressure) - velocityChange(left, pressure));
  return {
    leftState: left,
    rightState: right,
    pressure,
    velocity,
    left: wave(left, pressure, velocity, -1),
    right: wave(right, pressure, velocity, 1),
    vacuum: false,
  };
}

/** State inside a rarefaction on the ray x/t = `xi`; `side` -1 left, +1 right. */
function insideFan(state: GasState, xi: number, side: -1 | 1): GasState {
  const { gamma } = state;
  const a = soundSpeed(state);
  const x = (2 + side * (gamma - 1) * ((xi - state.velocity) / a)) / (gamma + 1);
  return {
    gamma,
    density: state.density * x ** (2 / (gamma - 1)),
    velocity: (2 * (xi - side * a) + (gamma - 1) * state.velocity) / (gamma + 1),
    pressure: state.pressure * x ** ((2 * gamma) / (gamma - 1)),
  };
}

/** The state on the ray x/t = `xi` [m/s]. On a shock or the contact: the state to its right. */
export function sampleRiemann(solution: RiemannSolution, xi: number): GasState {
  const isLeft = xi < solution.velocity;
  const side = isLeft ? -1 : 1;
  const state = isLeft ? solution.leftState : solution.rightState;
  const ahead = isLeft ? solution.left : solution.right;
  if (isLeft ? xi < ahead.head : xi >= ahead.head) return state;
  const isInFan = ahead.kind === 'rarefaction' && (isLeft ? xi < ahead.tail : xi >= ahead.tail);
  if (isInFan) return insideFan(state, xi, side);
  return {
    gamma: state.gamma,
    density: ahead.starDensity,
    velocity: solution.velocity,
    pressure: solution.pressure,
  };
}
