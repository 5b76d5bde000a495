/**
 * What advice may cost: a third of its sweep. A speed costs about 1 + (13 mm/Δx)²: the part that goes with cells and time
 * steps, and what cylinder, ports and a recorder cost at any rate. An estimate, made with the plain kernel: with two lanes
 * coarse cells cost relatively more. A run from settled neighbour fields takes some two thirds of one from a cold start.
 */

const EVEN = 13e-3;
const WARM = 0.65;

/** Cost of runs on cells of a length [m], one of them from a cold start. */
export const costOf = (cell: number, warmRuns: number): number =>
  (1 + WARM * warmRuns) * (1 + (EVEN / cell) ** 2);

export const sweepCost = (speeds: number, cell: number): number => speeds * (1 + (EVEN / cell) ** 2);

/** Share of the sweep's time. */
const SHARE = 1 / 3;

/** Takes costs off what is left, as far as that goes. */
export class Budget {
  private left: number;

  constructor(speeds: number, cell: number) {
    this.left = SHARE * sweepCost(speeds, cell);
  }

  affords(cost: number): boolean {
    return cost <= this.left;
  }

  /** Whether the cost is paid. */
  take(cost: number): boolean {
    if (!this.affords(cost)) return false;
    this.left -= cost;
    return true;
  }
}
