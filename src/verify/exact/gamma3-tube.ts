/**
 * The closed tube of a gas with gamma = 3: smooth waves that run through each other and are exactly known.
 *
 * At gamma = 3 the Riemann variables J = u +- a are their own speeds, so each obeys Burgers' equation alone and every
 * characteristic is straight. Tube [0, 1], closed ends, at t = 0: u = 0, a = 1 + eps cos(pi x), rho = a, p = a^3 (both over
 * rest). With w on the periodic line,  w_t + w w_x = 0,  w(x, 0) = 1 + eps cos(pi x):
 *   u = [ w(x) - w(-x) ]/2,   a = [ w(x) + w(-x) ]/2.
 * w solves  w = 1 + eps cos( pi (x - w t) ),  by Newton's method inside a bracket; smooth until t_b = 1/(pi eps).
 * With p = rho^3/3 in these units the energy per length is a (u^2/2 + a^2/6). Derived here.
 */

/** Velocity, sound speed (= density) and pressure over their rest values; gamma = 3. */
export interface TubeState {
  readonly velocity: number;
  readonly soundSpeed: number;
  readonly pressure: number;
}

/** Time at which the waves break, in units of L/a0. */
export function breakingTime(eps: number): number {
  return 1 / (Math.PI * eps);
}

/** w(x, t), the right-running characteristic speed. */
export function burgersWave(x: number, t: number, eps: number): number {
  let low = 1 - eps;
  let high = 1 + eps;
  let w = 1 + eps * Math.cos(Math.PI * (x - t));
  for (let iteration = 0; iteration < 100; iteration += 1) {
    const phase = Math.PI * (x - w * t);
    const residual = w - 1 - eps * Math.cos(phase);
    // Rises with w before breaking: its slope is 1 - eps pi t sin(phase) > 0.
    if (residual > 0) high = w;
    else low = w;
    const newton = w - residual / (1 - eps * Math.PI * t * Math.sin(phase));
    const next = newton > low && newton < high ? newton : 0.5 * (low + high);
    if (Math.abs(next - w) <= 2 * Number.EPSILON) return next;
    w = next;
  }
  return w;
}

/** State at place `x` in [0, 1] and time `t` < breakingTime. */
export function gamma3Tube(x: number, t: number, eps: number): TubeState {
  const right = burgersWave(x, t, eps);
  const left = burgersWave(-x, t, eps);
  const soundSpeed = 0.5 * (right + left);
  return { velocity: 0.5 * (right - left), soundSpeed, pressure: soundSpeed ** 3 };
}
