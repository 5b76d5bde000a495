/**
 * The way into the crankcase: its tract, and the valve at its end.
 */

import type { Section } from './section.ts';

/** Tracts run from the mouth in the open air to the valve. */
export type Intake =
  | {
      readonly kind: 'reed';
      readonly tract: readonly Section[];
      readonly petals: {
        readonly count: number;
        readonly width: number;
        readonly length: number;
        readonly thickness: number;
        readonly density: number;
        readonly modulus: number;
        /** Tip lift at the stop [m]. */
        readonly stop: number;
        /** Damping ratio of the petal's first bending mode [-]. */
        readonly damping: number;
        readonly openSides: number;
      };
      /** Flow area of the cage's openings [m2]. */
      readonly cageArea: number;
      readonly discharge: number;
    }
  | {
      readonly kind: 'piston-port';
      readonly tract: readonly Section[];
      /** Duration the skirt leaves it open, symmetrical about top dead centre [deg]. */
      readonly durationDeg: number;
      readonly width: number;
      readonly height: number;
      readonly cornerRadius: number;
      readonly discharge: number;
    }
  | {
      readonly kind: 'disc';
      readonly tract: readonly Section[];
      /** Opens and closes [deg after top dead centre, opening is negative or above 180]. */
      readonly opensDeg: number;
      readonly closesDeg: number;
      readonly area: number;
      /** Crank angle from first crack to full opening [deg]. */
      readonly rampDeg: number;
      readonly discharge: number;
    };
