/**
 * Where the exhaust stands on the bench drawing: the cylinder at the left, its exhaust port's face at nought, the pipe to the
 * right of it. Lengths in mm. The scale stays while the hand is on a joint, so that nothing runs away under it.
 */

import type { Case } from '../../../src/model/case.ts';
import { exhaustSections } from '../../../src/pipe/exhaust.ts';
import { type EngineEvents, engineEvents } from '../../../src/timing/events.ts';
import type { Stretch } from '../../marks/silhouette.ts';

export interface Bench {
  readonly width: number;
  readonly height: number;
  readonly stretches: readonly Stretch[];
  readonly events: EngineEvents;
  readonly bore: number;
  readonly stroke: number;
  /** Travel of the piston at which the axis of the passage lies [mm]. */
  readonly axisTravel: number;
  /** Pixels a millimetre along and across. */
  readonly perMm: number;
  readonly perMmAcross: number;
  /** Place [px] of a distance from the port's face [mm], and of a distance above the axis [mm]. */
  x(along: number): number;
  y(above: number): number;
}

/** Room for the barrel beyond its bore, and behind the pipe's end [mm]. */
const BEYOND = 16;
const SLACK = 1.05;
/** Lowest drawing of the widest part [px], and how far across is stretched for it at most. */
const LEAST_PX = 64;
const MOST_STRETCH = 2.4;

export function stretchesOf(subject: Case): readonly Stretch[] {
  return exhaustSections(subject).map(({ name, role, start, end, diameter: [left, right] }) => ({
    name,
    role,
    start: 1000 * start,
    end: 1000 * end,
    diameters: [1000 * left, 1000 * right],
  }));
}

export function benchOf(subject: Case, width: number, like: Bench | null = null): Bench {
  const stretches = stretchesOf(subject);
  const events = engineEvents(subject.engine);
  const bore = 1000 * subject.engine.bore;
  const stroke = 1000 * events.crank.stroke;
  const shapes = events.exhaust.windows.map(({ shape }) => shape);
  const roof = Math.min(...shapes.map((shape) => shape.roof));
  const floor = Math.max(...shapes.map((shape) => shape.floor));
  const axisTravel = 1000 * 0.5 * (roof + floor);
  const left = bore + BEYOND;
  const length = stretches.at(-1)?.end ?? 1;
  const widest = Math.max(...stretches.flatMap(({ diameters }) => [...diameters]));
  const perMm = like?.perMm ?? (width - 12) / (left + SLACK * length);
  const perMmAcross =
    like?.perMmAcross ?? perMm * Math.min(MOST_STRETCH, Math.max(1, LEAST_PX / (widest * perMm)));
  const above = like === null ? Math.max(0.56 * widest + 18 / perMmAcross, axisTravel + 14) : null;
  const below = Math.max(0.5 * widest + 12, stroke - axisTravel + 22);
  const top = above === null ? (like?.y(0) ?? 0) : above * perMmAcross + 20;
  return {
    width,
    height: like?.height ?? Math.round(top + below * perMmAcross + 26),
    stretches,
    events,
    bore,
    stroke,
    axisTravel,
    perMm,
    perMmAcross,
    x: (along) => 4 + (left + along) * perMm,
    y: (up) => top - up * perMmAcross,
  };
}
