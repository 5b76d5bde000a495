/**
 * Scavenging of a cylinder of constant volume and density: share of fresh charge kept, over what has been delivered.
 *
 * SR delivered/reference mass, SE fresh share of the charge, TE = SE/SR share of the delivery kept.
 *   Perfect displacement:   SE = min(SR, 1)
 *   Perfect mixing:         SE = 1 - exp(-SR)
 *   Two zones with a mixing volume y:  displacement until SR = 1 - y, then SE = 1 - y exp( (1 - y - SR)/y )
 * Three-way stream: a share sigma is short-circuited; of the rest, s = (1 - sigma) SR, a share d builds a zone of pure
 * fresh gas and pushes the old zone out, 1 - d mixes into that old zone, which alone leaves. The old zone's volume is
 * 1 - d s; with b the burnt gas in the cylinder, db/ds = -b/(1 - d s), so
 *   SE = 1 - (1 - d s)^(1/d)  while d s < 1, then 1;   d = 1 displacement, d -> 0 mixing.
 *
 * Source: J. B. Heywood, Internal Combustion Engine Fundamentals (1988), section 6.6; Heywood and Sher, The Two-Stroke
 * Cycle Engine (1999); Benson and Brandham for two zones, from memory. Three-way stream derived here.
 */

/** SE with the fresh charge pushing the burnt out before it [-]. */
export function displacement(scavengeRatio: number): number {
  return Math.min(scavengeRatio, 1);
}

/** SE with the fresh charge mixing at once with all of the charge [-]. */
export function perfectMixing(scavengeRatio: number): number {
  return -Math.expm1(-scavengeRatio);
}

/** SE by displacement into a mixing zone of `mixingVolume` in (0, 1]; a share `shortCircuit` is lost at once [-]. */
export function twoZone(scavengeRatio: number, mixingVolume: number, shortCircuit = 0): number {
  const s = (1 - shortCircuit) * scavengeRatio;
  const y = mixingVolume;
  return s <= 1 - y ? s : 1 - y * Math.exp((1 - y - s) / y);
}

/** SE of a stream of which `displacing` displaces, the rest mixes, and `shortCircuit` is lost at once [-]. */
export function threeWayStream(scavengeRatio: number, displacing: number, shortCircuit = 0): number {
  const s = (1 - shortCircuit) * scavengeRatio;
  if (displacing === 0) return perfectMixing(s);
  if (displacing * s >= 1) return 1;
  return -Math.expm1(Math.log1p(-displacing * s) / displacing);
}

/** Share of the delivery that is kept, with the trapped mass as reference [-]; 1 before anything was delivered. */
export function trappingEfficiency(scavengingEfficiency: number, scavengeRatio: number): number {
  return scavengeRatio === 0 ? 1 : scavengingEfficiency / scavengeRatio;
}
