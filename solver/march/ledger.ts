/**
 * The books of a network: what it holds, and what has crossed its borders since the ledger was opened. What it holds now
 * less what it held then must equal what came in: mass to round-off, energy likewise once work and heat are booked.
 * The sums lie in an array, so that booking a step allocates nothing.
 */

/** Slots of the sums. */
export const BOOKED = {
  massIn: 0,
  burntIn: 1,
  energyIn: 2,
  work: 3,
  ductHeat: 4,
  volumeHeat: 5,
  released: 6,
  unburnt: 7,
  steps: 8,
  rejected: 9,
  unconverged: 10,
} as const;

export class Ledger {
  readonly sums = new Float64Array(11);

  /** The same sums, as they stand now. */
  copy(): Ledger {
    const copy = new Ledger();
    copy.sums.set(this.sums);
    return copy;
  }

  /** Mass in through the borders [kg]. */
  get massIn(): number {
    return this.sums[BOOKED.massIn];
  }

  /** Burnt mass in through the borders [kg]. */
  get burntIn(): number {
    return this.sums[BOOKED.burntIn];
  }

  /** Energy in through the borders with the gas [J]. */
  get energyIn(): number {
    return this.sums[BOOKED.energyIn];
  }

  /** Work done by the volumes [J]. */
  get work(): number {
    return this.sums[BOOKED.work];
  }

  /** Heat from the walls of ducts into the gas [J]. */
  get ductHeat(): number {
    return this.sums[BOOKED.ductHeat];
  }

  /** Heat from the walls of volumes into the gas [J]. */
  get volumeHeat(): number {
    return this.sums[BOOKED.volumeHeat];
  }

  /** Heat released by burning [J]. */
  get released(): number {
    return this.sums[BOOKED.released];
  }

  /** Fresh gas that was to burn and was no longer in its volume [kg]. */
  get unburnt(): number {
    return this.sums[BOOKED.unburnt];
  }

  /** Steps that stand. */
  get steps(): number {
    return this.sums[BOOKED.steps];
  }

  /** Steps that had to be taken again, smaller. */
  get rejected(): number {
    return this.sums[BOOKED.rejected];
  }

  /** Iterations, of the steps that stand, that ended without meeting their tolerance. */
  get unconverged(): number {
    return this.sums[BOOKED.unconverged];
  }
}

/** Energy that should have been gained since the ledger was opened [J]. */
export function energyGain(ledger: Ledger): number {
  return ledger.energyIn - ledger.work + ledger.ductHeat + ledger.volumeHeat + ledger.released;
}
