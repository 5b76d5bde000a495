/**
 * A pipe, from the flange to the open air.
 */

import type { Section } from './section.ts';

/** Wall temperature of a duct: given at positions from its start, or found from a heat balance with the outside. */
export type WallTemperature =
  | {
      readonly by: 'given';
      readonly at: readonly { readonly position: number; readonly temperature: number }[];
    }
  | { readonly by: 'balance'; readonly emissivity: number; readonly outsideCoefficient: number };

export interface Pipe {
  readonly name: string;
  /** From the flange on. */
  readonly sections: readonly Section[];
  /**
   * A silencer's volume behind the stinger [m3], its outlet's diameter [m] and the discharge coefficient into that [-];
   * null: the stinger ends in the open.
   */
  readonly silencer: {
    readonly volume: number;
    readonly outletDiameter: number;
    readonly discharge: number;
  } | null;
  readonly wall: WallTemperature;
  readonly roughness: number;
  /** End correction of the open end, in radii [-]; 0 switches it off. */
  readonly endCorrection: number;
}
