/**
 * Axial mixing of what a turbulent stream carries. The stream is faster in the middle of a pipe than at its wall, so
 * gas spreads along the axis as by a diffusion of the mean with the coefficient
 *   K = 10.1 a u*,   u* = |u| sqrt(f/8)
 * a radius, f Darcy factor; none where the flow is laminar (Re < 2300). Far behind a port it holds as it stands; nearer,
 * where the stream is still a jet, mixing is stronger, so a factor on K is an input.
 * Source: G. I. Taylor, Proc. R. Soc. Lond. A 223 (1954) 446 (the number 10.1 from memory).
 *
 * Neighbouring gases exchange equal volumes under the pressure p_f of the face between them. Each is first brought to p_f
 * adiabatically, T' = T (p_f/p)^((gamma-1)/gamma), so that a smooth wave in one gas, whose temperature follows its
 * pressure, has nothing to exchange:
 *   mass    J   = -K F (rho'_R - rho'_L)/dx,  rho' = p_f/(R T')
 *   burnt   J_b = -K F (rho'_R Y_R - rho'_L Y_L)/dx
 *   energy  J_e = -K F (rho'_R e'_R - rho'_L e'_L)/dx + J u^2/2
 * and the mass that moves carries the velocity of its place. Each flux leaves one cell and enters the next, so mass, burnt
 * mass and energy are kept to round-off.
 *
 * Time: backward Euler for the changes q of the densities, V q = sum over neighbours of G [(rho'_N - rho') + (q_N - q)],
 * G = K F t/dx. It is stable on any mesh, and the second moment of what spreads grows by exactly 2 K t. One symmetric matrix
 * serves all three. Its graph is a tree (mixing-tree.ts), which is solved in one sweep from the leaves to the root and one
 * back (M. Hines, Int. J. Bio-Med. Comput. 15 (1984) 69; value from memory). Mixing is slow beside the waves, so it is
 * done once for several steps, over the time of all of them.
 */

import type { MarchingDuct } from '../duct/duct.ts';
import { darcyFactor, roughnessTerm, viscosity } from '../duct/wall-losses.ts';
import { GAS, newGasPoint } from '../gas/gas-model.ts';
import type { Link } from './link.ts';
import { type MixingTree, mixingTree } from './mixing-tree.ts';

/** Taylor's factor [-]. */
const TAYLOR = 10.1;
/** Below this Reynolds number the flow is laminar [-]. */
const LAMINAR_BELOW = 2300;
/** What is exchanged, by slot: mass, burnt mass, energy. */
const KINDS = 3;

export class AxialMixing {
  private readonly ducts: readonly MarchingDuct[];
  private readonly factor: number;
  private readonly tree: MixingTree;
  /** Radius [m] and volume [m3] of the cells. */
  private readonly radius: Float64Array;
  private readonly volume: Float64Array;
  // What the cells hold: pressure, temperature, burnt share, velocity, 1 - 1/gamma, gas constant, heat capacity, energy.
  private readonly p: Float64Array;
  private readonly y: Float64Array;
  private readonly T: Float64Array;
  private readonly u: Float64Array;
  private readonly kappa: Float64Array;
  private readonly R: Float64Array;
  private readonly cv: Float64Array;
  private readonly e: Float64Array;
  /** K of the cells [m2/s]; then G of the ways to their parents [m3]. */
  private readonly K: Float64Array;
  private readonly G: Float64Array;
  /** Differences across the ways to the parents, changes and gains, `KINDS` each [per m3, per m3, amounts]. */
  private readonly jump: Float64Array;
  private readonly change: Float64Array;
  private readonly gain: Float64Array;
  private readonly diagonal: Float64Array;
  /** Momentum gained [kg m/s]. */
  private readonly push: Float64Array;
  private readonly point = newGasPoint();
  private readonly side = new Float64Array(KINDS);

  /** @param factor on Taylor's coefficient, above 0 [-] */
  constructor(ducts: readonly MarchingDuct[], links: readonly Link[], factor: number) {
    this.ducts = ducts.filter((duct) => duct.conserved !== undefined);
    this.factor = factor;
    this.tree = mixingTree(this.ducts, links);
    const { cells } = this.tree;
    const made = (kinds = 1): Float64Array => new Float64Array(cells * kinds);
    this.radius = made();
    this.volume = made();
    this.ducts.forEach(({ geometry }, d) => {
      this.volume.set(geometry.volume, this.tree.first[d]);
      this.radius.set(
        geometry.diameter.map((diameter) => 0.5 * diameter),
        this.tree.first[d],
      );
    });
    this.p = made();
    this.T = made();
    this.y = made();
    this.u = made();
    this.kappa = made();
    this.R = made();
    this.cv = made();
    this.e = made();
    this.K = made();
    this.G = made();
    this.diagonal = made();
    this.push = made();
    this.jump = made(KINDS);
    this.change = made(KINDS);
    this.gain = made(KINDS);
  }

  /** Finds what the decoded state exchanges over a time, to be added once the ducts were updated; the time is `over[1]` [s]. */
  prepare(over: Float64Array): void {
    for (let d = 0; d < this.ducts.length; d++) this.readDuct(this.ducts[d], this.tree.first[d]);
    this.differ(over);
    this.solve();
    this.cross();
  }

  /** Adds what was found to the ducts' current state. */
  apply(): void {
    const { ducts, tree, gain, push, volume } = this;
    for (let d = 0; d < ducts.length; d++) {
      const into = ducts[d].conserved?.();
      if (into === undefined) continue;
      const { density, momentum, energy, burnt } = into;
      const from = tree.first[d];
      for (let i = 0; i < ducts[d].geometry.cells; i++) {
        const n = from + i;
        const share = 1 / volume[n];
        density[i] += share * gain[KINDS * n];
        burnt[i] += share * gain[KINDS * n + 1];
        energy[i] += share * gain[KINDS * n + 2];
        momentum[i] += share * push[n];
      }
    }
  }

  private readDuct(duct: MarchingDuct, first: number): void {
    const { p, T, y, u, kappa, R, cv, e, K, radius, point } = this;
    const { gas, frictionOverD, shapeNow } = duct;
    const fields = duct.fields();
    for (let i = 0; i < duct.geometry.cells; i++) {
      const k = i + fields.offset;
      const n = first + i;
      p[n] = fields.p[k];
      T[n] = fields.T[k];
      y[n] = gas.perfect ? 0 : fields.y[k];
      u[n] = fields.u[k];
      point[GAS.temperature] = T[n];
      point[GAS.burnt] = y[n];
      gas.fillPoint(point);
      R[n] = point[GAS.gasConstant];
      cv[n] = point[GAS.heatCapacity];
      e[n] = point[GAS.energy];
      kappa[n] = R[n] / (R[n] + cv[n]);
      const speed = Math.abs(u[n]);
      const reynolds = ((p[n] / (R[n] * T[n])) * speed * 2 * radius[n]) / viscosity(T[n]);
      if (reynolds < LAMINAR_BELOW) {
        K[n] = 0;
        continue;
      }
      const kept = 4 * radius[n] * (frictionOverD[i] - shapeNow[i]);
      const darcy =
        kept > 0 ? kept : darcyFactor(reynolds, roughnessTerm(duct.losses.roughness / (2 * radius[n])));
      K[n] = TAYLOR * radius[n] * speed * Math.sqrt(0.125 * darcy);
    }
  }

  /** Fills a side's densities of a cell's gas brought to a pressure: mass, burnt mass, energy [per m3]. */
  private bring(n: number, pressure: number): void {
    const { side, p, T, R, cv, e, y, kappa } = this;
    // (1 + x)^kappa by its Pade approximant; exact at x = 0, within 4e-4 where the pressures differ by a half.
    const x = (pressure - p[n]) / p[n];
    const warmed = T[n] * ((2 + (1 + kappa[n]) * x) / (2 + (1 - kappa[n]) * x));
    const density = pressure / (R[n] * warmed);
    side[0] = density;
    side[1] = density * y[n];
    side[2] = density * (e[n] + cv[n] * (warmed - T[n]));
  }

  /** Differences across all ways, the matrix, and the right-hand side. */
  private differ(over: Float64Array): void {
    const time = over[1];
    const { tree, p, K, G, jump, change, diagonal, volume, side, factor } = this;
    diagonal.set(volume);
    change.fill(0);
    for (let at = 0; at < tree.cells; at++) {
      const n = tree.order[at];
      const up = tree.parent[n];
      if (up < 0) continue;
      const g = factor * 0.5 * (K[n] + K[up]) * tree.conductance[n] * time;
      G[n] = g;
      diagonal[n] += g;
      diagonal[up] += g;
      const between = 0.5 * (p[n] + p[up]);
      this.bring(n, between);
      for (let kind = 0; kind < KINDS; kind++) jump[KINDS * n + kind] = -side[kind];
      this.bring(up, between);
      for (let kind = 0; kind < KINDS; kind++) {
        const step = jump[KINDS * n + kind] + side[kind];
        jump[KINDS * n + kind] = step;
        change[KINDS * n + kind] += g * step;
        change[KINDS * up + kind] -= g * step;
      }
    }
  }

  /** Changes of the densities, into `change`. */
  private solve(): void {
    const { tree, G, change, diagonal } = this;
    for (let at = tree.cells - 1; at >= 0; at--) {
      const n = tree.order[at];
      const up = tree.parent[n];
      if (up < 0) continue;
      const share = G[n] / diagonal[n];
      diagonal[up] -= share * G[n];
      for (let kind = 0; kind < KINDS; kind++) change[KINDS * up + kind] += share * change[KINDS * n + kind];
    }
    for (let at = 0; at < tree.cells; at++) {
      const n = tree.order[at];
      const up = tree.parent[n];
      const share = 1 / diagonal[n];
      for (let kind = 0; kind < KINDS; kind++) {
        const from = up < 0 ? 0 : G[n] * change[KINDS * up + kind];
        change[KINDS * n + kind] = share * (change[KINDS * n + kind] + from);
      }
    }
  }

  /** Amounts that cross each way, with their momentum and kinetic energy, into `gain` and `push`. */
  private cross(): void {
    const { tree, G, u, jump, change, gain, push } = this;
    gain.fill(0);
    push.fill(0);
    for (let n = 0; n < tree.cells; n++) {
      const up = tree.parent[n];
      if (up < 0) continue;
      for (let kind = 0; kind < KINDS; kind++) {
        const slot = KINDS * n + kind;
        const amount = G[n] * (jump[slot] + change[KINDS * up + kind] - change[slot]);
        gain[slot] += amount;
        gain[KINDS * up + kind] -= amount;
      }
      const mass = G[n] * (jump[KINDS * n] + change[KINDS * up] - change[KINDS * n]);
      const straight = tree.inside[n] === 1;
      const here = straight ? 0.5 * (u[n] + u[up]) : u[n];
      const there = straight ? here : u[up];
      push[n] += mass * here;
      push[up] -= mass * there;
      const kinetic = 0.25 * mass * (here * here + there * there);
      gain[KINDS * n + 2] += kinetic;
      gain[KINDS * up + 2] -= kinetic;
    }
  }
}
