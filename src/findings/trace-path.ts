/**
 * The path of a wave through the pipe: from the port outward along dx/dt = u + a to a place, and back along dx/dt = u - a.
 * The speeds come from the stored fields of a settled cycle, bilinear between cells and crank angles; the midpoint rule.
 */

/** Fields of one cycle over position and crank angle, `value[angle * positions.length + position]`. */
export interface SpeedFields {
  /** Cell centres from the port face, ascending [m]. */
  readonly positions: Float64Array;
  /** Degrees between two rows; the first row is exhaust opening, the last is one turn later. */
  readonly stepDeg: number;
  readonly rows: number;
  /** Velocity and speed of sound [m/s]. */
  readonly velocity: Float64Array;
  readonly sound: Float64Array;
}

export interface Path {
  readonly positions: number[];
  /** Degrees after exhaust opening, may pass one turn. */
  readonly deg: number[];
}

/** Steps of the path [deg]. */
const STEP_DEG = 0.5;
/** A wave that has not arrived after so many degrees is given up. */
const PATIENCE_DEG = 720;

/** Which characteristic: u + a, or u - a. */
type Branch = 1 | -1;

/**
 * Speed of a characteristic at a place and an angle [m/s]. A path goes from cell to cell, so the cell is looked for beside
 * `near[0]`, where it was last found, and left there.
 */
function speedAt(fields: SpeedFields, branch: Branch, x: number, deg: number, near: Int32Array): number {
  const { positions, stepDeg, rows, velocity, sound } = fields;
  const n = positions.length;
  const turn = (rows - 1) * stepDeg;
  const wrapped = deg - turn * Math.floor(deg / turn);
  const row = Math.min(rows - 2, Math.floor(wrapped / stepDeg));
  const w = wrapped / stepDeg - row;
  let low = near[0]!;
  while (low > 0 && positions[low]! > x) low--;
  while (low < n - 2 && positions[low + 1]! <= x) low++;
  near[0] = low;
  const left = positions[low]!;
  const right = positions[low + 1]!;
  const v = Math.max(0, Math.min(1, (x - left) / (right - left)));
  const at = (k: number): number => velocity[k]! + branch * sound[k]!;
  const here = row * n + low;
  const before = at(here) + v * (at(here + 1) - at(here));
  const after = at(here + n) + v * (at(here + n + 1) - at(here + n));
  return before + w * (after - before);
}

function walk(
  fields: SpeedFields,
  branch: Branch,
  from: number,
  to: number,
  startDeg: number,
  degPerSecond: number,
  way: 1 | -1 = 1,
): Path | null {
  const sign = to > from ? 1 : -1;
  const step = way * STEP_DEG;
  const dt = step / degPerSecond;
  const positions = [from];
  const deg = [startDeg];
  const near = new Int32Array(1);
  let x = from;
  let angle = startDeg;
  while ((to - x) * sign > 0) {
    const first = speedAt(fields, branch, x, angle, near);
    const speed = speedAt(fields, branch, x + 0.5 * dt * first, angle + 0.5 * step, near);
    const move = speed * dt;
    if ((x + move - to) * sign >= 0) {
      const share = (to - x) / move;
      positions.push(to);
      deg.push(angle + share * step);
      return { positions, deg };
    }
    x += move;
    angle += step;
    if (Math.abs(angle - startDeg) > PATIENCE_DEG) return null;
    positions.push(x);
    deg.push(angle);
  }
  return { positions, deg };
}

/** Out and back of a wave that leaves the port at `startDeg` and turns at a position; null: it never returns. */
export function tracePath(
  fields: SpeedFields,
  startDeg: number,
  turnAt: number,
  rpm: number,
): { readonly out: Path; readonly back: Path } | null {
  const out = walk(fields, 1, 0, turnAt, startDeg, 6 * rpm);
  if (out === null) return null;
  const back = walk(fields, -1, turnAt, 0, out.deg.at(-1)!, 6 * rpm);
  return back === null ? null : { out, back };
}

/** Out and back of the wave that arrives at the port at `arrivalDeg` from where it turned; null: it never left. */
export function traceArrival(
  fields: SpeedFields,
  arrivalDeg: number,
  turnAt: number,
  rpm: number,
): { readonly out: Path; readonly back: Path } | null {
  const back = walk(fields, -1, 0, turnAt, arrivalDeg, 6 * rpm, -1);
  if (back === null) return null;
  const out = walk(fields, 1, turnAt, 0, back.deg.at(-1)!, 6 * rpm, -1);
  return out === null ? null : { out: reversed(out), back: reversed(back) };
}

const reversed = ({ positions, deg }: Path): Path => ({
  positions: positions.toReversed(),
  deg: deg.toReversed(),
});
