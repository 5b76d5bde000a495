/**
 * Stage 1 of a step: the primitive state of every cell from its conserved averages, ghosts beyond the ends, and the
 * fastest characteristic. For a blend of two thermally perfect gases the temperature solves e(T,Y) = E/rho - u^2/2, exactly
 * within a row of the table (e is quadratic there), starting with the row that the cell's last temperature lies in.
 */

import { isPhysical } from '../../duct/physical.ts';
import { TABLE_LAST_ROW, TABLE_START, TABLE_STEP } from '../../gas/gas-model.ts';
import { type DuctState, GHOSTS } from './state.ts';

const ROWS_PER_KELVIN = 1 / TABLE_STEP;
/** Rows tried for a cell's temperature. */
const ROUNDS = 12;

/** Decodes a duct, its largest |u| + a included, which is NaN where a cell's state is not physical. */
export function decode(duct: DuctState): void {
  if (duct.gas.perfect) decodePerfect(duct);
  else decodeBlend(duct);
  fillGhosts(duct.r, duct.cells);
  fillGhosts(duct.u, duct.cells);
  fillGhosts(duct.p, duct.cells);
  if (duct.mixed) fillGhosts(duct.y, duct.cells);
}

function decodePerfect(duct: DuctState): void {
  const { density, momentum, energy } = duct.now;
  const { r, u, p, a, T, gamma, cells } = duct;
  const R = duct.gas.gasConstantFresh;
  const { coldest, hottest } = duct.gas;
  const gm1 = R / duct.gas.perfectCv;
  const g = 1 + gm1;
  let fastest = 0;
  let lowest = 1;
  for (let i = 0; i < cells; i++) {
    const rho = density[i];
    const vel = momentum[i] / rho;
    const pressure = gm1 * (energy[i] - 0.5 * momentum[i] * vel);
    const over = pressure / rho;
    const sound = Math.sqrt(g * over);
    const k = i + GHOSTS;
    r[k] = rho;
    u[k] = vel;
    p[k] = pressure;
    a[k] = sound;
    T[k] = over / R;
    gamma[k] = g;
    const speed = Math.abs(vel) + sound;
    if (speed > fastest) fastest = speed;
    if (!isPhysical(rho, pressure, T[k], coldest, hottest)) lowest = -1;
  }
  duct.fastest = lowest > 0 ? fastest : Number.NaN;
}

function decodeBlend(duct: DuctState): void {
  const { density, momentum, energy, burnt } = duct.now;
  const { r, u, p, y, a, T, gamma, cells } = duct;
  const table = duct.gas.table;
  const Rf = duct.gas.gasConstantFresh;
  const dR = duct.gas.gasConstantBurnt - Rf;
  const { coldest, hottest } = duct.gas;
  let fastest = 0;
  let lowest = 1;
  for (let i = 0; i < cells; i++) {
    const k = i + GHOSTS;
    const rho = density[i];
    const vel = momentum[i] / rho;
    const share = burnt[i] / rho;
    const target = energy[i] / rho - 0.5 * vel * vel;
    let temperature = T[k];
    if (!(temperature > coldest)) temperature = 300;
    let cv = 0;
    let round = 0;
    for (; round < ROUNDS; round++) {
      const position = (temperature - TABLE_START) * ROWS_PER_KELVIN;
      const row = position <= 0 ? 0 : position >= TABLE_LAST_ROW ? TABLE_LAST_ROW : position | 0;
      const at = 6 * row;
      const cvStart = table[at + 1] + share * (table[at + 4] - table[at + 1]);
      const slope = table[at + 2] + share * (table[at + 5] - table[at + 2]);
      const above = target - (table[at] + share * (table[at + 3] - table[at]));
      // Within a row e = e0 + cv0 dT + slope dT^2 / 2, solved exactly; beyond it this is the next guess.
      const root = Math.sqrt(Math.max(0, cvStart * cvStart + 2 * slope * above));
      const dT = (2 * above) / (cvStart + root);
      cv = cvStart + slope * dT;
      temperature = TABLE_START + row * TABLE_STEP + dT;
      if (dT > -1e-9 && dT < TABLE_STEP + 1e-9) break;
    }
    // No row of the table held it, and it is not beyond the table either: there is no temperature.
    if (round === ROUNDS && temperature > coldest && temperature <= hottest) temperature = Number.NaN;
    const R = Rf + dR * share;
    const over = R * temperature;
    const g = 1 + R / cv;
    const sound = Math.sqrt(g * over);
    r[k] = rho;
    u[k] = vel;
    p[k] = rho * over;
    y[k] = share;
    a[k] = sound;
    T[k] = temperature;
    gamma[k] = g;
    const speed = Math.abs(vel) + sound;
    if (speed > fastest) fastest = speed;
    if (!isPhysical(rho, p[k], temperature, coldest, hottest)) lowest = -1;
  }
  duct.fastest = lowest > 0 ? fastest : Number.NaN;
}

/**
 * Two ghost cells at each end, by quadratic extrapolation of the cell averages, held back to a constant where that would
 * turn against the slope of the last two cells. With them the interior formulae give one-sided third-order face values.
 */
function fillGhosts(q: Float64Array, cells: number): void {
  const first = GHOSTS;
  const last = cells + GHOSTS - 1;
  extrapolate(q, first, 1);
  extrapolate(q, last, -1);
}

function extrapolate(q: Float64Array, edge: number, inward: 1 | -1): void {
  const a = q[edge];
  const b = q[edge + inward];
  const c = q[edge + 2 * inward];
  const slope = a - b;
  const one = 2 * a - 3 * b + c;
  if (one * slope <= 0) {
    q[edge - inward] = a;
    q[edge - 2 * inward] = a;
    return;
  }
  const bound = 2 * Math.abs(slope);
  const limited = Math.abs(one) <= bound ? one : Math.sign(one) * bound;
  const two = limited === one ? 5 * a - 8 * b + 3 * c : 2 * limited;
  q[edge - inward] = a + limited;
  q[edge - 2 * inward] = a + two;
}
