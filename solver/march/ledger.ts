/**
 * The books of a network: what it holds, and what has crossed its borders since the ledger was opened. What it holds now
 * less what it held then must equal what came in: mass to round-off, energy likewise once work and heat are booked.
 */

export interface Ledger {
  /** Mass in through the borders [kg]. */
  massIn: number;
  /** Burnt mass in through the borders, and made by burning [kg]. */
  burntIn: number;
  /** Energy in through the borders with the gas [J]. */
  energyIn: number;
  /** Work done by the volumes [J]. */
  work: number;
  /** Heat from walls into the gas: ducts and volumes [J]. */
  ductHeat: number;
  volumeHeat: number;
  /** Heat released by burning [J]. */
  released: number;
  /** Fresh gas that was to burn and was no longer in its volume [kg]. */
  unburnt: number;
  steps: number;
  /** Steps that had to be taken again, smaller. */
  rejected: number;
  /** Iterations, of the steps that stand, that ended without meeting their tolerance. */
  unconverged: number;
}

export function newLedger(): Ledger {
  return {
    massIn: 0,
    burntIn: 0,
    energyIn: 0,
    work: 0,
    ductHeat: 0,
    volumeHeat: 0,
    released: 0,
    unburnt: 0,
    steps: 0,
    rejected: 0,
    unconverged: 0,
  };
}

/** Energy that should have been gained since the ledger was opened [J]. */
export function energyGain(ledger: Ledger): number {
  return ledger.energyIn - ledger.work + ledger.ductHeat + ledger.volumeHeat + ledger.released;
}
