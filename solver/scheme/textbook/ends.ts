/**
 * The two ends of a duct of the textbook scheme. The boundaries answer for the middle of the step, the nodes lie at its two ends, so:
 *   - what arrives is traced to the end at mid-step and handed to the boundary; on outflow with the entropy of the path line,
 *     on inflow with that of the gas inside, which the incoming gas meets at one pressure and velocity;
 *   - the outgoing characteristic is also traced to the end node at the end of the step. It fixes u + cX there (outward u);
 *   - the boundary's other relation, u - cX, is interpolated in time between the answers before and after the node's time.
 *     It is known one step later; until then the node holds a value extrapolated from the answers, of which later steps only
 *     take u + cX. At a wall u = 0 replaces it.
 * On inflow the node's entropy and burnt fraction are the answers', on outflow the path line's.
 */

import { power, square } from '../../arithmetic/functions.ts';
import { completeArrival } from '../../duct/arrival.ts';
import { ANSWER, ARRIVE, type DuctEnd } from '../../duct/duct-end.ts';
import { firstFoot, grown } from './characteristics.ts';
import { between } from './interpolation.ts';
import { refreshNode } from './refresh.ts';
import { type Level, REFERENCE_PRESSURE, type TextbookState } from './textbook-state.ts';

/**
 * Slots of an end's memory: what the characteristic brought to the node, the time since the last answer, and the last three
 * answers with the time from one to the next. `v` is velocity out of the duct.
 */
const MEMORY = { X: 0, v: 1, A: 2, y: 3, c: 4, answers: 5, since: 6, first: 7 } as const;
const POINT = { X: 0, v: 1, A: 2, y: 3, shut: 4, span: 5 } as const;
const POINT_SLOTS = 6;
/** The answer of the present step, while it is taken. */
const point = new Float64Array(POINT_SLOTS);
/** What a trace finds; slots as in MEMORY. */
const traced = new Float64Array(5);
const at = new Float64Array(4);

/** Traces what leaves the duct over dt [s] and hands it to an end. */
export function arriveAt(duct: TextbookState, end: DuctEnd, dt: number): void {
  traceOut(duct, end, 0.5 * dt);
  const s = end.arrive;
  const X = traced[MEMORY.X];
  const y = traced[MEMORY.y];
  const R = duct.gas.gasConstant(y);
  const T = square(X * traced[MEMORY.A]) / R;
  const p = duct.pressureOf(X);
  const g = 1 + R / duct.gas.heatCapacity(T, y);
  s[ARRIVE.density] = p / (R * T);
  s[ARRIVE.velocity] = traced[MEMORY.v];
  s[ARRIVE.pressure] = p;
  s[ARRIVE.burnt] = y;
  s[ARRIVE.gamma] = g;
  s[ARRIVE.soundSpeed] = Math.sqrt(g * R * T);
  s[ARRIVE.temperature] = T;
  completeArrival(end);
}

/** Takes an end's answer for the middle of a step and makes good the end node at its start. */
export function settleNode(duct: TextbookState, end: DuctEnd, dt: number): void {
  readAnswer(duct, end);
  const memory = memoryOf(duct.now, end);
  if (memory[MEMORY.answers] === 0) return;
  const v = interpolated(memory, POINT.v, 0.5 * dt);
  const X = interpolated(memory, POINT.X, 0.5 * dt);
  const shut = point[POINT.shut] === 1 && memory[MEMORY.first + POINT.shut] === 1;
  setNode(
    duct,
    duct.now,
    end,
    memory,
    X,
    v,
    shut,
    interpolated(memory, POINT.A, 0.5 * dt),
    interpolated(memory, POINT.y, 0.5 * dt),
  );
  refreshNode(duct, end.side < 0 ? 0 : duct.cells);
}

/** Fills the end node of `next` and the end's memory. */
export function finishAt(duct: TextbookState, end: DuctEnd, dt: number): void {
  readAnswer(duct, end);
  const before = memoryOf(duct.now, end);
  const after = memoryOf(duct.next, end);
  traceOut(duct, end, dt);
  for (let slot = 0; slot < 5; slot++) after[slot] = traced[slot];
  point[POINT.span] = before[MEMORY.since] + 0.5 * dt;
  after.set(point, MEMORY.first);
  for (let slot = 0; slot < POINT_SLOTS; slot++)
    after[MEMORY.first + POINT_SLOTS + slot] = before[MEMORY.first + slot];
  after[MEMORY.answers] = Math.min(2, before[MEMORY.answers] + 1);
  after[MEMORY.since] = 0.5 * dt;
  const X = extrapolated(after, POINT.X);
  const v = extrapolated(after, POINT.v);
  setNode(duct, duct.next, end, after, X, v, point[POINT.shut] === 1, point[POINT.A], point[POINT.y]);
}

function memoryOf(level: Level, end: DuctEnd): Float64Array {
  return end.side < 0 ? level.leftEnd : level.rightEnd;
}

function readAnswer(duct: TextbookState, end: DuctEnd): void {
  const out = end.answer;
  const p = out[ANSWER.pressure];
  const y = out[ANSWER.burnt];
  const X = power(p / REFERENCE_PRESSURE, duct.k);
  point[POINT.X] = X;
  point[POINT.v] = out[ANSWER.velocity];
  point[POINT.A] = Math.sqrt(p / out[ANSWER.density]) / X;
  point[POINT.y] = y;
  point[POINT.shut] = out[ANSWER.velocity] === 0 && out[ANSWER.mass] === 0 ? 1 : 0;
}

/** The boundary's u - cX against the characteristic's u + cX at an end node. */
function setNode(
  duct: TextbookState,
  level: Level,
  end: DuctEnd,
  memory: Float64Array,
  boundaryX: number,
  boundaryV: number,
  shut: boolean,
  boundaryA: number,
  boundaryY: number,
): void {
  const j = end.side < 0 ? 0 : duct.cells;
  const c = memory[MEMORY.c];
  const arriving = memory[MEMORY.v] + c * memory[MEMORY.X];
  const sent = boundaryV - c * boundaryX;
  const v = shut ? 0 : 0.5 * (arriving + sent);
  level.X[j] = shut ? arriving / c : (0.5 * (arriving - sent)) / c;
  level.u[j] = shut ? 0 : end.side * v;
  const leaves = shut || v > 0;
  level.A[j] = leaves ? memory[MEMORY.A] : boundaryA;
  level.y[j] = leaves ? memory[MEMORY.y] : boundaryY;
}

/** A quantity of the answers at the node's time, `ahead` [s] before the present answer: a parabola through three, or a chord. */
function interpolated(memory: Float64Array, slot: number, ahead: number): number {
  const last = memory[MEMORY.first + slot];
  const behind = memory[MEMORY.since];
  const rise = point[slot] - last;
  const span = ahead + behind;
  const chord = last + (rise * behind) / span;
  if (memory[MEMORY.answers] < 2) return chord;
  const older = memory[MEMORY.first + POINT_SLOTS + slot];
  const spanBefore = memory[MEMORY.first + POINT.span];
  const curve = (rise / span - (last - older) / spanBefore) / (span + spanBefore);
  const bend = -behind * ahead * curve;
  return Math.abs(bend) < 0.5 * Math.abs(rise) ? chord + bend : chord;
}

/** A quantity of the answers carried on to the node after the present answer: the smaller of the last two slopes. */
function extrapolated(memory: Float64Array, slot: number): number {
  const here = memory[MEMORY.first + slot];
  if (memory[MEMORY.answers] < 2) return here;
  const last = memory[MEMORY.first + POINT_SLOTS + slot];
  return here + ((here - last) * memory[MEMORY.since]) / memory[MEMORY.first + POINT.span];
}

/** Follows the outgoing wave and the path line to an end over dt [s]; fills `traced`. */
function traceOut(duct: TextbookState, end: DuctEnd, dt: number): void {
  const { now, w, dx } = duct;
  const { side } = end;
  const e = side < 0 ? 0 : duct.cells;
  const inner = e - side;
  const r = dt / dx;
  const v0 = side * now.u[e];
  const v1 = side * now.u[inner];
  const a0 = w[e] * now.X[e];
  const a1 = w[inner] * now.X[inner];
  // Gas that comes in faster than sound lets nothing out: what arrives is the end node itself.
  let nu = clamped(firstFoot(r, v1 + a1, v0 + a0, v0 + a0));
  let nuPath = v0 > 0 ? firstFoot(r, v1, v0, v0) : 0;
  const X = now.X[e];
  for (let pass = 0; pass < 2; pass++) {
    stateInside(duct, side, nu);
    const footX = at[0];
    const footV = side * at[1];
    const footC = at[2];
    const footA = at[3];
    gasInside(duct, side, v0 > 0 ? nuPath : nu, X, v0 > 0 ? dt : 0);
    const c = traced[MEMORY.c];
    const a = at[0] * X;
    const meanC = 0.5 * (footC + c);
    let v = footV - meanC * (X - footX);
    v += gathered(duct, side, nu, dt, footA * footV + a * (pass > 0 ? traced[MEMORY.v] : v0), a);
    traced[MEMORY.X] = X;
    traced[MEMORY.v] = v;
    nu = clamped(0.5 * r * (footV + footA + v + a));
    stateInside(duct, side, nuPath);
    nuPath = v0 > 0 ? clamped(0.5 * r * (side * at[1] + v)) : 0;
  }
  if (v0 > a0) supersonic(duct, side, dt, clamped(firstFoot(r, v1 - a1, v0 - a0, v0 - a0)), a0 * v0);
}

function clamped(nu: number): number {
  return nu > 1 ? 1 : nu < 0 ? 0 : nu;
}

/** X, u, c and a at a distance of nu cells inside an end, into `at`. */
function stateInside(duct: TextbookState, side: -1 | 1, nu: number): void {
  const i = side < 0 ? 0 : duct.cells - 1;
  const t = side < 0 ? nu : 1 - nu;
  const { c, w } = duct;
  at[0] = between(duct.now.X, duct.bendX, i, t);
  at[1] = between(duct.now.u, duct.bendU, i, t);
  at[2] = c[i] + t * (c[i + 1] - c[i]);
  at[3] = (w[i] + t * (w[i + 1] - w[i])) * at[0];
}

/**
 * A, burnt fraction and c of the gas at a distance inside an end, brought to a pressure and, over dt, past the wall; w
 * into `at[0]`.
 */
function gasInside(duct: TextbookState, side: -1 | 1, nu: number, X: number, dt: number): void {
  const i = side < 0 ? 0 : duct.cells - 1;
  const t = side < 0 ? nu : 1 - nu;
  const e = side < 0 ? 0 : duct.cells;
  const { gas, k } = duct;
  let A = between(duct.now.A, duct.bendA, i, t);
  const y = duct.mixed ? between(duct.now.y, duct.bendY, i, t) : 0;
  const R = gas.gasConstant(y);
  const g = 1 + R / gas.heatCapacity(square(X * A) / R, y);
  if (!gas.perfect) {
    const from = between(duct.now.X, duct.bendX, i, t);
    A *= grown((((g - 1) / (g * k) - 2) * (X - from)) / (X + from));
  }
  if (duct.lossy) A *= grown((0.5 * dt * duct.warm[e] * (g - 1)) / (g * R * duct.T[e]));
  const w = Math.sqrt(g) * A;
  traced[MEMORY.A] = A;
  traced[MEMORY.y] = y;
  traced[MEMORY.c] = w / (g * k);
  at[0] = w;
}

/** Velocity gathered on the way to an end from area and losses; `flow` is a v at the foot and at the end, summed [m/s]. */
function gathered(
  duct: TextbookState,
  side: -1 | 1,
  nu: number,
  dt: number,
  flow: number,
  a: number,
): number {
  const e = side < 0 ? 0 : duct.cells;
  let gain = 0;
  if (duct.tapered) {
    const { diameter, dx } = duct;
    const rise = diameter[e] - diameter[e - side];
    gain -= (dt * flow * rise) / (dx * (diameter[e] - 0.5 * nu * rise));
  }
  if (duct.lossy) gain += dt * (((duct.gamma[e] - 1) * duct.warm[e]) / a - side * duct.drag[e]);
  return gain;
}

/** Beyond the speed of sound the other wave comes from inside as well; its foot is nu cells away. */
function supersonic(duct: TextbookState, side: -1 | 1, dt: number, nu: number, endFlow: number): void {
  const c = traced[MEMORY.c];
  const arriving = traced[MEMORY.v] + c * traced[MEMORY.X];
  stateInside(duct, side, nu);
  const v = side * at[1];
  const sent = v - c * at[0] - gathered(duct, side, nu, dt, at[3] * v + endFlow, at[3]);
  traced[MEMORY.X] = (0.5 * (arriving - sent)) / c;
  traced[MEMORY.v] = 0.5 * (arriving + sent);
}
