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
 * and the mass that moves carries the velocity of the cell that it leaves, so that it leaves no more heat or cold behind than it takes.
 * Across a link between ducts, whose areas differ, either side keeps its own velocity. Each flux leaves one cell and enters the next,
 * so mass, burnt mass and energy are kept to round-off.
 *
 * p_f is the mean of the two pressures, but where a shock stands between the cells it goes to the lower one: brought to a mean of ten
 * times its own pressure a cell would be taken to give more gas than it holds.
 *
 * Time: backward Euler for the changes q of the densities, V q = sum over neighbours of G [(rho'_N - rho') + (q_N - q)],
 * G = K F t/dx. It is stable on any mesh, and the second moment of what spreads grows by exactly 2 K t. One symmetric matrix
 * serves all three. Its graph is a tree (mixing-tree.ts), which is solved in one sweep from the leaves to the root and one
 * back (M. Hines, Int. J. Bio-Med. Comput. 15 (1984) 69; value from memory). Mixing is slow beside the waves, so it is
 * done once for several steps, over the time of all of them.
 */

import type { MarchingDuct } from '../duct/duct.ts';
import { darcyFactor, roughnessTerm, viscosity } from '../duct/wall-losses.ts';
import type { Link } from './link.ts';
import { type MixingTree, mixingTree } from './mixing-tree.ts';

/** Taylor's factor [-]. */
const TAYLOR = 10.1;
/** Below this Reynolds number the flow is laminar [-]. */
const LAMINAR_BELOW = 2300;
/** Ratios of pressure between neighbours up to which gases meet at their mean, and from which on at the lower one [-]. */
const STEEP = { from: 2, to: 3 } as const;

/** Values of the cells for each of what is exchanged. */
interface Exchanged {
  readonly mass: Float64Array;
  readonly burnt: Float64Array;
  readonly energy: Float64Array;
}

export class AxialMixing {
  private readonly ducts: readonly MarchingDuct[];
  private readonly factor: number;
  private readonly tree: MixingTree;
  /** Radius [m] and volume [m3] of the cells. */
  private readonly radius: Float64Array;
  private readonly volume: Float64Array;
  // What the cells hold: pressure, burnt share, velocity, density over pressure, kappa = 1 - 1/gamma, cv/R, and e - cv T.
  private readonly p: Float64Array;
  private readonly y: Float64Array;
  private readonly u: Float64Array;
  private readonly dense: Float64Array;
  private readonly kappa: Float64Array;
  private readonly cvOverR: Float64Array;
  private readonly shift: Float64Array;
  /** K of the cells [m2/s]; then G of the ways to their parents [m3]. */
  private readonly K: Float64Array;
  private readonly G: Float64Array;
  /** What is exchanged: differences across the ways to the parents, changes of the cells [per m3], and gains. */
  private readonly jump: Exchanged;
  private readonly change: Exchanged;
  private readonly gain: Exchanged;
  private readonly diagonal: Float64Array;
  /** Momentum gained [kg m/s]. */
  private readonly push: Float64Array;

  /** @param factor on Taylor's coefficient, above 0 [-] */
  constructor(ducts: readonly MarchingDuct[], links: readonly Link[], factor: number) {
    this.ducts = ducts.filter((duct) => duct.conserved !== undefined);
    this.factor = factor;
    this.tree = mixingTree(this.ducts, links);
    const { cells } = this.tree;
    const made = (): Float64Array => new Float64Array(cells);
    const exchanged = (): Exchanged => ({ mass: made(), burnt: made(), energy: made() });
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
    this.y = made();
    this.u = made();
    this.dense = made();
    this.kappa = made();
    this.cvOverR = made();
    this.shift = made();
    this.K = made();
    this.G = made();
    this.diagonal = made();
    this.push = made();
    this.jump = exchanged();
    this.change = exchanged();
    this.gain = exchanged();
  }

  /** Finds what the decoded state exchanges over a time, to be added once the ducts were updated; the time is `over[1]` [s]. */
  prepare(over: Float64Array): void {
    for (let d = 0; d < this.ducts.length; d++) this.readDuct(this.ducts[d], this.tree.first[d]);
    this.differ(over);
    this.eliminate();
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
        density[i] += share * gain.mass[n];
        burnt[i] += share * gain.burnt[n];
        energy[i] += share * gain.energy[n];
        momentum[i] += share * push[n];
      }
    }
  }

  /** Reads a duct's cells. Energy and heat capacity follow from what was decoded: e from the total, gamma from the sound speed. */
  private readDuct(duct: MarchingDuct, first: number): void {
    const held = duct.conserved?.();
    if (held === undefined) return;
    const { p, y, u, dense, kappa, cvOverR, shift, K, radius } = this;
    const { density, energy } = held;
    const { frictionOverD, shapeNow } = duct;
    const { perfect } = duct.gas;
    const fields = duct.fields();
    const { cells } = duct.geometry;
    for (let i = 0; i < cells; i++) {
      const k = i + fields.offset;
      const n = first + i;
      const pressure = fields.p[k];
      const velocity = fields.u[k];
      const specific = 1 / density[i];
      const RT = pressure * specific;
      const a2 = fields.a[k] * fields.a[k];
      const gammaLess1 = a2 - RT;
      const ratio = RT / gammaLess1;
      p[n] = pressure;
      y[n] = perfect ? 0 : fields.y[k];
      u[n] = velocity;
      dense[n] = density[i] / pressure;
      kappa[n] = gammaLess1 / a2;
      cvOverR[n] = ratio;
      shift[n] = energy[i] * specific - 0.5 * velocity * velocity - ratio * RT;
      const speed = Math.abs(velocity);
      const flux = density[i] * speed * 2 * radius[n];
      const mu = viscosity(fields.T[k]);
      if (flux < LAMINAR_BELOW * mu) {
        K[n] = 0;
        continue;
      }
      const kept = 4 * radius[n] * (frictionOverD[i] - shapeNow[i]);
      const darcy =
        kept > 0 ? kept : darcyFactor(flux / mu, roughnessTerm(duct.losses.roughness / (2 * radius[n])));
      K[n] = TAYLOR * radius[n] * speed * Math.sqrt(0.125 * darcy);
    }
  }

  /** Differences across all ways, the matrix, and the right-hand side. */
  private differ(over: Float64Array): void {
    const time = over[1];
    const { tree, p, y, dense, kappa, cvOverR, shift, K, G, jump, change, diagonal, volume, factor } = this;
    const { order, parent, conductance } = tree;
    diagonal.set(volume);
    change.mass.fill(0);
    change.burnt.fill(0);
    change.energy.fill(0);
    for (let at = 0; at < tree.cells; at++) {
      const n = order[at];
      const up = parent[n];
      if (up < 0) continue;
      const g = factor * 0.5 * (K[n] + K[up]) * conductance[n] * time;
      G[n] = g;
      diagonal[n] += g;
      diagonal[up] += g;
      const between = meetingPressure(p[n], p[up]);
      // Brought to that pressure; energies are rho (e + cv (T' - T)) = rho (e - cv T) + p_f cv/R.
      const here = between * dense[n] * thinned(p[n], between - p[n], kappa[n]);
      const there = between * dense[up] * thinned(p[up], between - p[up], kappa[up]);
      const mass = there - here;
      const burnt = there * y[up] - here * y[n];
      const energy = there * shift[up] - here * shift[n] + between * (cvOverR[up] - cvOverR[n]);
      jump.mass[n] = mass;
      jump.burnt[n] = burnt;
      jump.energy[n] = energy;
      change.mass[n] += g * mass;
      change.burnt[n] += g * burnt;
      change.energy[n] += g * energy;
      change.mass[up] -= g * mass;
      change.burnt[up] -= g * burnt;
      change.energy[up] -= g * energy;
    }
  }

  /** From the leaves to the root: what is left of each cell's equation once its children are eliminated; 1/diagonal stays. */
  private eliminate(): void {
    const { tree, G, change, diagonal } = this;
    const { order, parent } = tree;
    for (let at = tree.cells - 1; at >= 0; at--) {
      const n = order[at];
      const up = parent[n];
      const inverse = 1 / diagonal[n];
      diagonal[n] = inverse;
      if (up < 0) continue;
      const share = G[n] * inverse;
      diagonal[up] -= share * G[n];
      change.mass[up] += share * change.mass[n];
      change.burnt[up] += share * change.burnt[n];
      change.energy[up] += share * change.energy[n];
    }
  }

  /**
   * From the root to the leaves: changes of the densities, and with them the amounts that cross each way, with their momentum
   * and kinetic energy, into `gain` and `push`.
   */
  private cross(): void {
    const { tree, G, u, jump, change, gain, push, diagonal } = this;
    const { order, parent, inside } = tree;
    for (let at = 0; at < tree.cells; at++) {
      const n = order[at];
      const up = parent[n];
      const inverse = diagonal[n];
      if (up < 0) {
        change.mass[n] *= inverse;
        change.burnt[n] *= inverse;
        change.energy[n] *= inverse;
        gain.mass[n] = 0;
        gain.burnt[n] = 0;
        gain.energy[n] = 0;
        push[n] = 0;
        continue;
      }
      const g = G[n];
      change.mass[n] = inverse * (change.mass[n] + g * change.mass[up]);
      change.burnt[n] = inverse * (change.burnt[n] + g * change.burnt[up]);
      change.energy[n] = inverse * (change.energy[n] + g * change.energy[up]);
      const mass = g * (jump.mass[n] + change.mass[up] - change.mass[n]);
      const burnt = g * (jump.burnt[n] + change.burnt[up] - change.burnt[n]);
      const straight = inside[n] === 1;
      const from = mass > 0 ? u[up] : u[n];
      const here = straight ? from : u[n];
      const there = straight ? from : u[up];
      const energy =
        g * (jump.energy[n] + change.energy[up] - change.energy[n]) +
        0.25 * mass * (here * here + there * there);
      gain.mass[n] = mass;
      gain.burnt[n] = burnt;
      gain.energy[n] = energy;
      push[n] = mass * here;
      gain.mass[up] -= mass;
      gain.burnt[up] -= burnt;
      gain.energy[up] -= energy;
      push[up] -= mass * there;
    }
  }
}

/**
 * T/T' of a gas whose pressure is brought adiabatically from p to p + rise, (1 + rise/p)^-kappa by its Pade approximant [-]; exact
 * without a rise, within 4e-4 where the pressures differ by a half.
 */
function thinned(p: number, rise: number, kappa: number): number {
  return (2 * p + (1 - kappa) * rise) / (2 * p + (1 + kappa) * rise);
}

/** Pressure under which two neighbouring gases are exchanged: their mean, the lower one across a shock [Pa]. */
function meetingPressure(one: number, other: number): number {
  const low = one < other ? one : other;
  const mean = 0.5 * (one + other);
  if (mean <= 0.5 * (1 + STEEP.from) * low) return mean;
  const ratio = (one + other - low) / low;
  if (ratio >= STEEP.to) return low;
  const share = (STEEP.to - ratio) / (STEEP.to - STEEP.from);
  return low * (1 + 0.5 * share * (STEEP.from - 1));
}
