/**
 * One cycle of a running engine, from exhaust opening to exhaust opening, marched event by event so that no step spans
 * one; and its books: what went through each port, the work of both volumes, and whether mass and energy balance.
 */

import { ANSWER, CLOCK, energyGain } from '../../../solver/index.ts';
import type { EngineNetwork } from '../build.ts';
import type { CycleRecorder } from '../read/recorder.ts';

/** Sums of one cycle. Masses in kg, energies in J, pressures in Pa. */
export interface CycleBook {
  /** Fresh mass that came in through the intake, net. */
  delivered: number;
  /** Fresh mass through the transfers, net, and all mass that was blown back through them, gross. */
  transferred: number;
  transferBack: number;
  /** Mass pushed back into the cylinder through the exhaust port after transfer closing. */
  packed: number;
  /** Trapped at exhaust closing: all, and the fresh part. */
  trapped: number;
  trappedFresh: number;
  /** Work of the gas in the cylinder and in the crankcase on the piston. */
  cylinderWork: number;
  crankcaseWork: number;
  released: number;
  /** Trapped fresh mass that was to burn and had left before. */
  unburnt: number;
  cylinderHeat: number;
  /** Pressures at transfer opening. */
  openingCylinder: number;
  openingCrankcase: number;
  /** Sum of port pressure times time while the transfers are open, and that time [s]. */
  portImpulse: number;
  transferTime: number;
  /** Relative error of the mass ledger, and of the energy ledger over the heat released. */
  massError: number;
  energyError: number;
  /** Gain of the energy held by the network over the cycle, over the heat released: the drift of a settling engine. */
  drift: number;
  steps: number;
  rejected: number;
  /** Iterations that ended without meeting their tolerance. */
  unconverged: number;
}

function newBook(): CycleBook {
  return {
    delivered: 0,
    transferred: 0,
    transferBack: 0,
    packed: 0,
    trapped: 0,
    trappedFresh: 0,
    cylinderWork: 0,
    crankcaseWork: 0,
    released: 0,
    unburnt: 0,
    cylinderHeat: 0,
    openingCylinder: 0,
    openingCrankcase: 0,
    portImpulse: 0,
    transferTime: 0,
    massError: 0,
    energyError: 0,
    drift: 0,
    steps: 0,
    rejected: 0,
    unconverged: 0,
  };
}

/** Marches one cycle that begins at the present time, an exhaust opening. @throws MarchFailure */
export function marchCycle(engine: EngineNetwork, recorder: CycleRecorder | null): CycleBook {
  const { network, rpm, schedule, cylinder, crankcase } = engine;
  const { exhaust, transfers } = schedule.events;
  const book = newBook();
  const start = network.time;
  const at = (deg: number): number => start + (deg - exhaust.opensDeg) / (6 * rpm);
  const before = { mass: network.mass(), energy: network.energyContent(), ledger: { ...network.ledger } };
  recorder?.begin(6 * rpm * start);

  marchPart(engine, at(transfers.opensDeg), recorder, book, 'blowdown');
  book.openingCylinder = cylinder.pressure;
  book.openingCrankcase = crankcase.pressure;
  marchPart(engine, at(transfers.closesDeg), recorder, book, 'transfer');
  marchPart(engine, at(exhaust.closesDeg), recorder, book, 'plugging');
  closeExhaust(engine, book);
  marchPart(engine, at(exhaust.opensDeg + 360), recorder, book, 'closed');
  settleBooks(engine, before, book);
  return book;
}

type Part = 'blowdown' | 'transfer' | 'plugging' | 'closed';

function marchPart(
  engine: EngineNetwork,
  until: number,
  recorder: CycleRecorder | null,
  book: CycleBook,
  part: Part,
): void {
  const { network, cylinder, crankcase, exhaustPort, transfer, intakePort } = engine;
  const { clock } = network;
  const tiny = 1e-12 * Math.max(1, until);
  for (;;) {
    const left = until - (clock[CLOCK.time] as number);
    if (left <= tiny) return;
    clock[CLOCK.limit] = left;
    network.advance();
    recorder?.note(clock);
    const dt = clock[CLOCK.dt] as number;
    const exhaustFlow = exhaustPort.flow[0] as number;
    const through = transfer.flow[0] as number;
    const fresh = through - (transfer.flow[2] as number);
    book.delivered -= ((intakePort.flow[0] as number) - (intakePort.flow[2] as number)) * dt;
    book.transferred += fresh * dt;
    if (through < 0) book.transferBack -= through * dt;
    if (part === 'plugging' && exhaustFlow < 0) book.packed -= exhaustFlow * dt;
    if (part === 'transfer') {
      book.portImpulse += (exhaustPort.end.answer[ANSWER.pressure] as number) * dt;
      book.transferTime += dt;
    }
    book.cylinderWork += cylinder.work;
    book.crankcaseWork += crankcase.work;
    book.cylinderHeat += cylinder.wallHeat;
    book.released += cylinder.heatReleased;
    book.steps++;
  }
}

function closeExhaust(engine: EngineNetwork, book: CycleBook): void {
  const { cylinder, cylinderDrive, network } = engine;
  cylinder.merge();
  network.touch();
  book.trapped = cylinder.mass();
  book.trappedFresh = cylinder.mass() - cylinder.burntMass();
  if (cylinderDrive.release !== null) cylinderDrive.release.freshMass = book.trappedFresh;
  cylinderDrive.noteClosing(cylinder.pressure, cylinder.meanTemperature, cylinder.volumeAt(network.time));
}

function settleBooks(
  engine: EngineNetwork,
  before: {
    readonly mass: number;
    readonly energy: number;
    readonly ledger: EngineNetwork['network']['ledger'];
  },
  book: CycleBook,
): void {
  const { network } = engine;
  const { ledger } = network;
  const gainedMass = network.mass() - before.mass - (ledger.massIn - before.ledger.massIn);
  const gained = network.energyContent() - before.energy;
  const booked = energyGain(ledger) - energyGain(before.ledger);
  const scale = Math.max(book.released, 1e-9);
  book.massError = Math.abs(gainedMass) / Math.max(book.trapped, 1e-12);
  book.energyError = Math.abs(gained - booked) / scale;
  book.drift = gained / scale;
  book.rejected = ledger.rejected - before.ledger.rejected;
  book.unconverged = ledger.unconverged - before.ledger.unconverged;
  book.unburnt = ledger.unburnt - before.ledger.unburnt;
}
