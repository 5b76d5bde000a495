/**
 * The links of a network: each ties one or more duct ends, or two volumes, together and is one small object with one
 * contract, `answer`: fill the answers of its duct ends for the current stage and book its streams into its volumes. What the
 * network must know of a kind of link, it asks here; a kind that one of these functions leaves out does not compile.
 */

import { ANSWER, ARRIVE, type DuctEnd } from '../duct/duct-end.ts';
import { answerClosed } from '../ends/closed.ts';
import { answerJunction } from '../ends/junction.ts';
import { answerNonReflecting } from '../ends/non-reflecting.ts';
import { answerOrifice } from '../ends/orifice.ts';
import { answerStep } from '../ends/step.ts';
import { RESERVOIR, type Reservoir } from '../gas/reservoir.ts';
import { CLOCK, type Clock } from '../march/clock.ts';
import { FLOW, type Flow } from '../volumes/flow.ts';
import type { Opening } from '../volumes/opening.ts';
import { fillFlux, moveColumn, newPassage, PASSAGE } from '../volumes/passage.ts';
import type { StreamRole, Volume } from '../volumes/volume.ts';

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

/** Answers a link for a stage of a step, its openings taken at the stage's time. */
export function answer(link: Link, clock: Clock): void {
  switch (link.kind) {
    case 'closed':
      answerClosed(link.end);
      return;
    case 'atmosphere':
      link.end.opening = link.share;
      answerOrifice(link.end, link.reservoir);
      takeFlow(link.flow, link.end);
      return;
    case 'nonreflecting':
      answerNonReflecting(link.end, link.reservoir, link.incident(clock[CLOCK.stage]));
      takeFlow(link.flow, link.end);
      return;
    case 'step':
      answerStep(link.first, link.second, link.contraction);
      return;
    case 'junction':
      answerJunction(link.ends);
      return;
    case 'port':
      answerPort(link, clock);
      return;
    case 'passage':
      answerPassage(link, clock);
      return;
    default:
      unhandled(link);
  }
}

/** Pressure of a duct less that of the volume it opens into [Pa]. */
const difference = new Float64Array(1);

/** Lets what moves by itself move on after an accepted step. */
export function advanceLink(link: Link, clock: Clock): void {
  switch (link.kind) {
    case 'passage':
      link.column[0] = link.column[1];
      return;
    case 'port':
      difference[0] = link.end.answer[ANSWER.pressure] - link.volume.pressure;
      link.opening.advance?.(clock, difference);
      return;
    case 'closed':
    case 'atmosphere':
    case 'nonreflecting':
    case 'step':
    case 'junction':
      return;
    default:
      unhandled(link);
  }
}

/** The flow of a link out of the network, null where it ties only parts of the network together. */
export function flowOut(link: Link): Flow | null {
  switch (link.kind) {
    case 'atmosphere':
    case 'nonreflecting':
      return link.flow;
    case 'closed':
    case 'step':
    case 'junction':
    case 'port':
    case 'passage':
      return null;
    default:
      return unhandled(link);
  }
}

/** Whether a link's answer depends on a volume, and so on the stage. */
export function hasVolume(link: Link): boolean {
  switch (link.kind) {
    case 'port':
    case 'passage':
      return true;
    case 'closed':
    case 'atmosphere':
    case 'nonreflecting':
    case 'step':
    case 'junction':
      return false;
    default:
      return unhandled(link);
  }
}

/** A kind of link that the compiler knows and a function above does not is an error of types at its call. */
function unhandled(link: never): never {
  throw new Error(`a link of no known kind: ${JSON.stringify(link)}`);
}

function takeFlow(flow: Flow, end: DuctEnd): void {
  flow[FLOW.mass] = end.answer[ANSWER.mass];
  flow[FLOW.energy] = end.answer[ANSWER.energy];
  flow[FLOW.burnt] = end.answer[ANSWER.burntMass];
}

function answerPort(link: PortLink, clock: Clock): void {
  const { end, volume, opening, role, flow } = link;
  opening.set(clock);
  const inward = end.arrive[ARRIVE.rest] >= volume.pressure;
  end.opening = (inward ? opening.areaIn : opening.areaOut) / end.area;
  answerOrifice(end, role === 'swept' ? volume.swept : volume.inner);
  const out = end.answer;
  flow[FLOW.mass] = -out[ANSWER.mass];
  flow[FLOW.energy] = -out[ANSWER.energy];
  flow[FLOW.burnt] = -out[ANSWER.burntMass];
  volume.book(role, flow, -1);
}

const passage = newPassage();

function answerPassage(link: PassageLink, clock: Clock): void {
  const { from, to, opening, flow } = link;
  opening.set(clock);
  const forward = from.pressure >= to.pressure;
  passage[PASSAGE.outside] = forward ? to.pressure : from.pressure;
  fillFlux(passage, forward ? from.inner : to.inner);
  passage[PASSAGE.steady] = passage[PASSAGE.flux] * (forward ? opening.areaOut : -opening.areaIn);
  passage[PASSAGE.difference] = from.pressure - to.pressure;
  passage[PASSAGE.flow] = passage[PASSAGE.steady];
  if (link.inertance > 0) moveInertia(link, clock);
  else link.column[1] = passage[PASSAGE.steady];
  const mass = passage[PASSAGE.flow];
  const source = mass >= 0 ? from : to;
  flow[FLOW.mass] = mass;
  flow[FLOW.energy] = mass * source.inner[RESERVOIR.enthalpy];
  flow[FLOW.burnt] = mass * source.inner[RESERVOIR.burnt];
  from.book('plain', flow, -1);
  to.book(mass >= 0 ? link.toRole : 'plain', flow, 1);
}

/** At mid-step the column's flow is taken there; its value at the end of the step is extrapolated and kept on acceptance. */
function moveInertia({ column, inertance }: PassageLink, clock: Clock): void {
  passage[PASSAGE.inertance] = inertance;
  passage[PASSAGE.flow] = column[0];
  passage[PASSAGE.dt] = clock[CLOCK.span];
  moveColumn(passage);
  column[1] = passage[PASSAGE.flow];
  passage[PASSAGE.flow] = column[0];
  passage[PASSAGE.dt] = 0.5 * clock[CLOCK.span];
  moveColumn(passage);
}
