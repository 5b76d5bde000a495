/**
 * A stretch of duct.
 */

/** A stretch of duct with a straight taper. Lengths and diameters in m. */
export interface Section {
  readonly name: string;
  readonly role: 'passage' | 'header' | 'diffuser' | 'belly' | 'baffle' | 'stinger' | 'tract';
  readonly length: number;
  readonly diameter: readonly [left: number, right: number];
  /** The jump in diameter to the section before is meant. */
  readonly step: boolean;
}
