/** The books of one cycle: what each part booked, and whether the whole network balances. */

import { energyGain, type Network } from '../../../solver/index.ts';
import type { EngineNetwork } from '../build.ts';
import type { CrankcaseBook } from '../parts/crankcase.ts';
import type { CylinderBook } from '../parts/cylinder.ts';
import type { ExhaustBook } from '../parts/exhaust.ts';
import type { IntakeBook } from '../parts/intake.ts';
import type { TransfersBook } from '../parts/transfers.ts';

/** Balances of the network over a cycle. */
interface Balance {
  /** Relative error of the mass ledger, and of the energy ledger over the heat released. */
  readonly massError: number;
  readonly energyError: number;
  /** Gain of the energy held by the network over the cycle, over the heat released: the drift of a settling engine. */
  readonly drift: number;
  /** Trapped fresh mass that was to burn and had left before [kg]. */
  readonly unburnt: number;
  readonly steps: number;
  readonly rejected: number;
  /** Iterations that ended without meeting their tolerance. */
  readonly unconverged: number;
}

/** Sums of one cycle. Masses in kg, energies in J, pressures in Pa. */
export type CycleBook = Readonly<CylinderBook & CrankcaseBook & ExhaustBook & TransfersBook & IntakeBook> &
  Balance;

/** What a network holds and has booked. */
export interface Holding {
  readonly mass: number;
  readonly energy: number;
  readonly ledger: Readonly<Network['ledger']>;
}

export function holdingOf(network: Network): Holding {
  return { mass: network.mass(), energy: network.energyContent(), ledger: network.ledger.copy() };
}

/** The books of the cycle that the parts have just booked, by what the network held at its start. */
export function cycleBook(engine: EngineNetwork, before: Holding): CycleBook {
  const { network, cylinder, crankcase, exhaust, transfers, intake } = engine;
  const { ledger } = network;
  const gainedMass = network.mass() - before.mass - (ledger.massIn - before.ledger.massIn);
  const gained = network.energyContent() - before.energy;
  const booked = energyGain(ledger) - energyGain(before.ledger);
  const scale = Math.max(cylinder.sums.released, 1e-9);
  return {
    ...cylinder.sums,
    ...crankcase.sums,
    ...exhaust.sums,
    ...transfers.sums,
    ...intake.sums,
    massError: Math.abs(gainedMass) / Math.max(cylinder.sums.trapped, 1e-12),
    energyError: Math.abs(gained - booked) / scale,
    drift: gained / scale,
    unburnt: ledger.unburnt - before.ledger.unburnt,
    steps: ledger.steps - before.ledger.steps,
    rejected: ledger.rejected - before.ledger.rejected,
    unconverged: ledger.unconverged - before.ledger.unconverged,
  };
}
