/**
 * How a stream that enters a volume drives out what is in it. The volume keeps two zones under one pressure, zone 0 with what
 * was there and zone 1 with what came in unmixed; a law says
 *   - what share of the sweeping stream goes to zone 1 (the rest mixes into zone 0),
 *   - what share of the swept stream, the one that leaves, is drawn from zone 1 (the rest from zone 0).
 * It is asked and answers in the slots of one array, so that a step allocates nothing. A law knows volumes and streams only,
 * and keeps no memory of its own: how far the sweeping has come, it reads from the share of the volume that zone 1 fills.
 *
 * With SR the volume that has entered over the whole volume and SE the share of the volume that is what entered, a volume of
 * constant density keeps dSE/dSR = 1 - (share of what entered in the stream that leaves).
 */

/** Slots of what a law is asked and answers. */
export const SWEEP = {
  /** Share of the volume that zone 1 fills [-]: at the start of the step where a stream enters, at present where one leaves. */
  filled: 0,
  /** Flows of the sweeping stream into the volume, and of the swept stream out of it [kg/s]. */
  entering: 1,
  leaving: 2,
  /** Volume of the sweeping stream over the span of the stage, over the whole volume [-]. */
  turnover: 3,
  /** Answered: share of the sweeping stream that goes to zone 1 [-]. */
  toSecond: 4,
  /** Answered: share of the swept stream that is drawn from zone 1 [-]. */
  fromSecond: 5,
} as const;

export type Sweep = Float64Array;

export function newSweep(): Sweep {
  return new Float64Array(6);
}

export interface ScavengingLaw {
  /** Fills `toSecond`; all that is asked for is known. */
  fillEntering(sweep: Sweep): void;
  /** Fills `fromSecond`; the flows are those of the last stage. */
  fillLeaving(sweep: Sweep): void;
}
