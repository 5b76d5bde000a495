/**
 * What a pulse file becomes once read: gas at given states in a duct, its ends, and where it is watched. Every quantity in SI.
 */

import type { Section } from './section.ts';

/** Gas of a pulse file: a constant-gamma gas, or one of the two real ones. */
export type PulseGas =
  | { readonly kind: 'perfect'; readonly gamma: number; readonly gasConstant: number }
  | { readonly kind: 'air' }
  | { readonly kind: 'exhaust' };

export interface PulseSection extends Omit<Section, 'role'> {
  readonly pressure: number;
  readonly temperature: number;
  readonly velocity: number;
}

export type PulseEnd =
  | { readonly kind: 'closed' }
  | { readonly kind: 'open'; readonly endCorrection: number }
  | { readonly kind: 'nonreflecting' }
  | { readonly kind: 'nozzle'; readonly diameter: number }
  | {
      readonly kind: 'vessel';
      readonly volume: number;
      readonly pressure: number;
      readonly temperature: number;
      readonly openingDiameter: number;
    }
  | {
      readonly kind: 'incident';
      readonly shape: 'gaussian';
      readonly amplitude: number;
      readonly at: number;
      readonly width: number;
    };

export interface Pulse {
  readonly name: string;
  readonly gas: PulseGas;
  readonly ambient: { readonly pressure: number; readonly temperature: number };
  readonly sections: readonly PulseSection[];
  readonly leftEnd: PulseEnd;
  readonly rightEnd: PulseEnd;
  readonly friction: boolean;
  readonly wallHeat: 'colburn' | 'pulsating' | 'none';
  readonly wallTemperature: number;
  readonly roughness: number;
  /** Factor on the axial mixing of gas along the duct [-]. */
  readonly mixing: number;
  readonly probes: readonly { readonly name: string; readonly at: number }[];
  readonly until: number;
  readonly sampleEvery: number;
  readonly profilesAt: readonly number[];
  readonly cell: number;
  readonly courant: number;
  readonly scheme: 'conservative' | 'finite-volume' | 'mesh';
  readonly kernel: 'auto' | 'two-lane' | 'plain';
}
