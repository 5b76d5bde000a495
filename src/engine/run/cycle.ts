/**
 * One cycle of a running engine, from an exhaust opening of its first cylinder to the next, marched event by event so that no
 * step spans one. Parts book what goes through them; a recorder looks on.
 */

import { CLOCK, type Clock } from '../../../solver/index.ts';
import type { EngineNetwork } from '../build.ts';
import type { Cylinder, Stage } from '../parts/cylinder.ts';
import { type CycleBook, cycleBook, holdingOf } from '../read/cycle-book.ts';

/** What looks on at a cycle. */
export interface Observer {
  /** A cycle begins at a crank angle of the first cylinder, counted over all turns [deg]. */
  begin(deg: number): void;
  /** A step was accepted; the clock stands after it. */
  note(clock: Clock): void;
}

/** A stage of a cylinder that begins some degrees after the cycle does. */
interface Event {
  readonly afterDeg: number;
  readonly cylinder: Cylinder;
  readonly begins: Stage;
}

/** Marches one cycle that begins at the present time, an exhaust opening. @throws MarchFailure */
export function marchCycle(engine: EngineNetwork, observer: Observer | null): CycleBook {
  const { network, rpm } = engine;
  const start = network.time;
  const before = holdingOf(network);
  for (const part of engine.parts) part.openBook();
  observer?.begin(6 * rpm * start);
  for (const { afterDeg, cylinder, begins } of eventsOf(engine.cylinders)) {
    marchTo(engine, start + afterDeg / (6 * rpm), observer);
    cylinder.begin(begins, network.time);
    // The trapped charge was mixed: its state has to be read afresh.
    if (begins === 'closed') network.touch();
  }
  return cycleBook(engine, before);
}

/** The events of a turn of all cylinders in their order; the last is the first cylinder's next exhaust opening. */
function eventsOf(cylinders: readonly Cylinder[]): readonly Event[] {
  const [first] = cylinders as readonly [Cylinder, ...Cylinder[]];
  return cylinders
    .flatMap((cylinder) => {
      const later = cylinder.phase.phaseDeg - first.phase.phaseDeg;
      return cylinder.turn().map(({ deg, begins }) => {
        const after = deg + later - first.opensDeg;
        return {
          afterDeg: cylinder === first ? after : after - 360 * Math.floor(after / 360),
          cylinder,
          begins,
        };
      });
    })
    .sort((a, b) => a.afterDeg - b.afterDeg);
}

function marchTo({ network, parts }: EngineNetwork, until: number, observer: Observer | null): void {
  const { clock } = network;
  const tiny = 1e-12 * Math.max(1, until);
  for (;;) {
    const left = until - clock[CLOCK.time]!;
    if (left <= tiny) return;
    clock[CLOCK.limit] = left;
    network.advance();
    observer?.note(clock);
    for (const part of parts) part.book(clock);
  }
}
