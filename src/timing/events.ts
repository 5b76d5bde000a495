/**
 * When each port window opens and shuts, from where its roof stands on the bore.
 *
 * A window with a chamfer passes gas from the chamfer's upper edge on; the roof's own edge is reported beside it, since
 * that is what a depth gauge finds. With an offset pin the times are not symmetrical about bottom dead centre.
 */
import type { Engine } from '../model/engine.ts';
import type { Crank } from './crank.ts';
import { crankAnglesAtTravel, crankOf } from './crank.ts';
import type { WindowShape } from './window.ts';
import { firstOpening, windowShape } from './window.ts';

export interface WindowEvents {
  readonly shape: WindowShape;
  /** First and last passage of gas, a chamfer included [deg]. */
  readonly opensDeg: number;
  readonly closesDeg: number;
  readonly durationDeg: number;
  /** The same of the roof's edge alone [deg]. */
  readonly edgeOpensDeg: number;
  readonly edgeDurationDeg: number;
}

export interface PortEvents {
  readonly windows: readonly WindowEvents[];
  /** Earliest opening and latest closing of all windows [deg]. */
  readonly opensDeg: number;
  readonly closesDeg: number;
  readonly durationDeg: number;
}

export function windowEvents(crank: Crank, shape: WindowShape): WindowEvents {
  const gas = crankAnglesAtTravel(crank, firstOpening(shape));
  const edge = crankAnglesAtTravel(crank, shape.roof);
  return {
    shape,
    opensDeg: gas.downDeg,
    closesDeg: gas.upDeg,
    durationDeg: gas.upDeg - gas.downDeg,
    edgeOpensDeg: edge.downDeg,
    edgeDurationDeg: edge.upDeg - edge.downDeg,
  };
}

export function portEvents(crank: Crank, shapes: readonly WindowShape[]): PortEvents {
  const windows = shapes.map((shape) => windowEvents(crank, shape));
  const opensDeg = Math.min(...windows.map((w) => w.opensDeg));
  const closesDeg = Math.max(...windows.map((w) => w.closesDeg));
  return { windows, opensDeg, closesDeg, durationDeg: closesDeg - opensDeg };
}

export interface EngineEvents {
  readonly crank: Crank;
  readonly exhaust: PortEvents;
  readonly transfers: PortEvents;
}

/** Exhaust and transfer events of an engine. */
export function engineEvents(engine: Engine): EngineEvents {
  const crank = crankOf(engine);
  const { bore, exhaust, transfers } = engine;
  return {
    crank,
    exhaust: portEvents(
      crank,
      exhaust.windows.map((w) => windowShape(crank, bore, w)),
    ),
    transfers: portEvents(
      crank,
      transfers.windows.map((w) => windowShape(crank, bore, w)),
    ),
  };
}
