/**
 * Coefficient a of Annand's convective law Nu = a Re^0.7 for a two-stroke's cylinder [-]: Blair, Design and Simulation of
 * Two-Stroke Engines (1996), value from memory, unverified. Annand's own range was 0.35 to 0.8 (value from memory).
 */
export const ANNAND_TWO_STROKE = 0.26;
