/**
 * The links of a network: each ties one or more duct ends, or two volumes, together and is one small object with one
 * contract, `answer`: fill the answers of its duct ends for the current stage and book its streams into its volumes.
 */

import { ANSWER, ARRIVE, type DuctEnd } from '../duct/duct-end.ts';
import { restPressure } from '../ends/arrival.ts';
import { answerClosed } from '../ends/closed.ts';
import { answerJunction } from '../ends/junction.ts';
import { answerNonReflecting } from '../ends/non-reflecting.ts';
import { answerOrifice } from '../ends/orifice.ts';
import { RESERVOIR, type Reservoir } from '../ends/reservoir.ts';
import { answerStep } from '../ends/step.ts';
import type { Opening } from '../volumes/opening.ts';
import { columnFlow, orificeFlux } from '../volumes/passage.ts';
import type { StreamRole, Volume } from '../volumes/volume.ts';

/** Flow booked by a link in the last stage: mass, energy, burnt mass [kg/s, W, kg/s]. */
export type Flow = Float64Array;

export interface ClosedLink {
  readonly kind: 'closed';
  readonly end: DuctEnd;
}

/** An opening to the atmosphere: an open end for share 1, a nozzle for less. `flow` counts out of the network. */
export interface AtmosphereLink {
  readonly kind: 'atmosphere';
  readonly end: DuctEnd;
  readonly reservoir: Reservoir;
  /** Effective area over the duct's [-]. */
  readonly share: number;
  readonly flow: Flow;
}

export interface NonReflectingLink {
  readonly kind: 'nonreflecting';
  readonly end: DuctEnd;
  readonly reservoir: Reservoir;
  /** Pressure of the wave sent in [Pa]. */
  readonly incident: (time: number) => number;
  readonly flow: Flow;
}

export interface StepLink {
  readonly kind: 'step';
  readonly first: DuctEnd;
  readonly second: DuctEnd;
  /** Contraction coefficient into the narrower duct [-]. */
  readonly contraction: number;
}

export interface JunctionLink {
  readonly kind: 'junction';
  readonly ends: readonly DuctEnd[];
}

/** A port between a volume and a duct end. `flow` counts out of the volume. */
export interface PortLink {
  readonly kind: 'port';
  readonly end: DuctEnd;
  readonly volume: Volume;
  readonly role: StreamRole;
  readonly opening: Opening;
  readonly flow: Flow;
}

/** A passage from one volume to another. `flow` counts from the first to the second. */
export interface PassageLink {
  readonly kind: 'passage';
  readonly from: Volume;
  readonly to: Volume;
  readonly toRole: StreamRole;
  readonly opening: Opening;
  /** Length over area of the gas column [1/m]; 0: quasi-steady. */
  readonly inertance: number;
  /** Flow of the column at the start of the step, and its trial at the end [kg/s]. */
  readonly column: Float64Array;
  readonly flow: Flow;
}

export type Link =
  | ClosedLink
  | AtmosphereLink
  | NonReflectingLink
  | StepLink
  | JunctionLink
  | PortLink
  | PassageLink;

export function newFlow(): Flow {
  return new Float64Array(3);
}

/** Answers a link for a stage at `time`, its openings taken there; `dt` is the time since the step began [s]. */
export function answer(link: Link, time: number, dt: number): void {
  switch (link.kind) {
    case 'closed':
      answerClosed(link.end);
      return;
    case 'atmosphere':
      answerOrifice(link.end, link.share, link.reservoir);
      takeFlow(link.flow, link.end);
      return;
    case 'nonreflecting':
      answerNonReflecting(link.end, link.reservoir, link.incident(time));
      takeFlow(link.flow, link.end);
      return;
    case 'step':
      answerStep(link.first, link.second, link.contraction);
      return;
    case 'junction':
      answerJunction(link.ends);
      return;
    case 'port':
      answerPort(link, time);
      return;
    case 'passage':
      answerPassage(link, time, dt);
  }
}

function takeFlow(flow: Flow, end: DuctEnd): void {
  flow[0] = end.answer[ANSWER.mass];
  flow[1] = end.answer[ANSWER.energy];
  flow[2] = end.answer[ANSWER.burntMass];
}

function answerPort(link: PortLink, time: number): void {
  const { end, volume, opening, role, flow } = link;
  opening.set(time);
  const inward = restPressure(end) >= volume.pressure;
  const area = inward ? opening.areaIn : opening.areaOut;
  answerOrifice(end, area / end.area, role === 'exhaust' ? volume.exhaust : volume.inner);
  const out = end.answer;
  flow[0] = -out[ANSWER.mass];
  flow[1] = -out[ANSWER.energy];
  flow[2] = -out[ANSWER.burntMass];
  volume.book(role, out[ANSWER.mass], out[ANSWER.energy], out[ANSWER.burntMass]);
}

function answerPassage(link: PassageLink, time: number, dt: number): void {
  const { from, to, opening, flow, column } = link;
  opening.set(time);
  const difference = from.pressure - to.pressure;
  const steady =
    difference >= 0
      ? opening.areaOut * orificeFlux(from.inner, to.pressure)
      : -opening.areaIn * orificeFlux(to.inner, from.pressure);
  // At mid-step the column's flow is taken there; its value at the end of the step is extrapolated and kept on acceptance.
  const mass = link.inertance > 0 ? columnFlow(column[0], steady, difference, link.inertance, dt) : steady;
  column[1] = link.inertance > 0 ? columnFlow(column[0], steady, difference, link.inertance, 2 * dt) : steady;
  const source = mass >= 0 ? from : to;
  flow[0] = mass;
  flow[1] = mass * source.inner[RESERVOIR.enthalpy];
  flow[2] = mass * source.inner[RESERVOIR.burnt];
  from.book('plain', -flow[0], -flow[1], -flow[2]);
  to.book(mass >= 0 ? link.toRole : 'plain', flow[0], flow[1], flow[2]);
}

/** Lets what moves by itself move on after an accepted step. */
export function advanceLink(link: Link, dt: number): void {
  if (link.kind === 'passage') link.column[0] = link.column[1];
  else if (link.kind === 'port' && link.opening.advance !== undefined)
    link.opening.advance(dt, link.end.answer[ANSWER.pressure] - link.volume.pressure);
}

/** Pressure arriving at a port's duct end, for messages [Pa]. */
export function arrivingPressure(end: DuctEnd): number {
  return end.arrive[ARRIVE.pressure];
}
