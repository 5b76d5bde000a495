/**
 * Output and gas exchange of a cycle.
 *   imep = W_cylinder/V_s,   bmep = imep + W_crankcase/V_s - fmep,   power = bmep V_s rpm/60 (two-stroke),
 *   torque = bmep V_s/(2 pi)
 *   delivery ratio DR = delivered/reference, trapping TE = retained/delivered, scavenging SE = fresh/trapped charge,
 *   charging CE = retained/reference; the reference is the displacement filled with fresh charge at ambient state.
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
  readonly deliveryRatio: number;
  readonly scavengingEfficiency: number;
  readonly trappingEfficiency: number;
  readonly chargingEfficiency: number;
}

/** Mean pressures in Pa, torque in Nm, power in W. */
export function outputOf(input: OutputInput): Output {
  const { displacement, rpm, friction, stroke, reference } = input;
  const imep = input.cylinderWork / displacement;
  const fmep = friction.constant + friction.perSpeed * stroke * rpm;
  const bmep = imep + input.crankcaseWork / displacement - fmep;
  return {
    imep,
    bmep,
    torque: (bmep * displacement) / (2 * Math.PI),
    power: (bmep * displacement * rpm) / 60,
    deliveryRatio: input.delivered / reference,
    scavengingEfficiency: input.trappedFresh / input.trapped,
    trappingEfficiency: input.trappedFresh / input.delivered,
    chargingEfficiency: input.trappedFresh / reference,
  };
}
