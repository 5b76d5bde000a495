/**
 * Proportions of an expansion chamber as shares of its tuned length and of the exhaust passage's diameter, after Blair,
 * Design and Simulation of Two-Stroke Engines (1996). Shares run from the piston's face and add up to 1 at the end of the
 * baffle; the stinger comes on top. Diameters between the stages of a diffuser follow a horn,
 * d = d₁ (d_belly/d₁)^(x^k) with x the share of the diffuser's length: form and k are values from memory.
 */

export interface PipeProportions {
  readonly name: string;
  readonly headerShare: number;
  /** Diffuser stages. */
  readonly diffusers: readonly number[];
  readonly bellyShare: number;
  readonly baffleShare: number;
  readonly stingerShare: number;
  /** Diameters over that of the exhaust passage. */
  readonly header: number;
  readonly belly: number;
  readonly stinger: number;
  readonly hornExponent: number;
}

const RACING = { header: 1.05, belly: 3.25, stinger: 0.6, hornExponent: 1.5 } as const;
const ROAD = { header: 1.125, belly: 2.25, stinger: 0.7, hornExponent: 1.5 } as const;
const TWO_STAGE = {
  headerShare: 0.1,
  diffusers: [0.41, 0.14],
  bellyShare: 0.11,
  baffleShare: 0.24,
  stingerShare: 0.24,
} as const;
const THREE_STAGE = {
  headerShare: 0.1,
  diffusers: [0.275, 0.183, 0.092],
  bellyShare: 0.11,
  baffleShare: 0.24,
  stingerShare: 0.24,
} as const;

export const TWO_STAGE_RACING: PipeProportions = { name: 'two-stage racing', ...TWO_STAGE, ...RACING };
export const THREE_STAGE_RACING: PipeProportions = { name: 'three-stage racing', ...THREE_STAGE, ...RACING };
export const TWO_STAGE_ROAD: PipeProportions = { name: 'two-stage road', ...TWO_STAGE, ...ROAD };
