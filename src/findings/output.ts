/**
 * Output and gas exchange of a cycle.
 *   imep = W_cylinder/V_s,   bmep = imep + W_crankcase/V_s - fmep,   power = bmep V_s rpm/60 (two-stroke),
 *   torque = bmep V_s/(2 pi)
 *   delivery ratio DR = delivered/reference, trapping TE = retained/delivered, scavenging SE = fresh/trapped charge,
 *   charging CE = retained/reference; the reference is the displacement filled with fresh charge at ambient state.
 * Fresh gas also comes up the pipe, from its open end or from what was lost before: a retained mass above the delivered one
 * has no trapping efficiency, and a cycle that loses fresh gas by its intake has no delivery.
 * Sources: Heywood & Sher 1999 (definitions, from memory); fmep = c + k L_st rpm after Blair 1996 (from memory, unverified).
 */

export interface OutputInput {
  readonly rpm: number;
  readonly displacement: number;
  readonly stroke: number;
  readonly friction: { readonly constant: number; readonly perSpeed: number };
  readonly cylinderWork: number;
  readonly crankcaseWork: number;
  readonly delivered: number;
  readonly trapped: number;
  readonly trappedFresh: number;
  /** Mass of fresh charge in the displacement at ambient state [kg]. */
  readonly reference: number;
}

export interface Output {
  readonly imep: number;
  readonly bmep: number;
  readonly torque: number;
  readonly power: number;
  /** Null: more fresh gas left by the intake than came. */
  readonly deliveryRatio: number | null;
  readonly scavengingEfficiency: number;
  /** Null: what is retained did not all come by the intake of this cycle. */
  readonly trappingEfficiency: number | null;
  readonly chargingEfficiency: number;
}

/** A share may miss 1 by so much in rounding. */
const ROUND_OFF = 1e-9;

/** Mean pressures in Pa, torque in Nm, power in W. */
export function outputOf(input: OutputInput): Output {
  const { displacement, rpm, friction, stroke, reference } = input;
  const imep = input.cylinderWork / displacement;
  const fmep = friction.constant + friction.perSpeed * stroke * rpm;
  const bmep = imep + input.crankcaseWork / displacement - fmep;
  const trapping = input.trappedFresh / input.delivered;
  return {
    imep,
    bmep,
    torque: (bmep * displacement) / (2 * Math.PI),
    power: (bmep * displacement * rpm) / 60,
    deliveryRatio: input.delivered > 0 ? input.delivered / reference : null,
    scavengingEfficiency: input.trappedFresh / input.trapped,
    trappingEfficiency: trapping > 0 && trapping <= 1 + ROUND_OFF ? Math.min(1, trapping) : null,
    chargingEfficiency: input.trappedFresh / reference,
  };
}
