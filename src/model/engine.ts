/**
 * An engine, from the mouth of its intake to the flange of its exhaust. Every quantity in SI, crank angles in degrees after top dead
 * centre (names end in `Deg`).
 */

import type { Intake } from './intake.ts';
import type { Discharge, PortWindow } from './port-window.ts';
import type { Scavenging } from './scavenging.ts';

/** A head with a squish band around its bowl. */
export interface Head {
  /** Gap under the band at top dead centre [m], and the band's area [m2]. */
  readonly squishClearance: number;
  readonly squishArea: number;
  /** Volume above the crown at top dead centre as measured [m3]; null: by the compression ratio. */
  readonly volume: number | null;
}

export interface Engine {
  readonly name: string;
  readonly bore: number;
  readonly stroke: number;
  readonly rod: number;
  readonly pinOffset: number;
  readonly compression: { readonly ratio: number; readonly basis: 'full' | 'trapped' };
  /** Piston crown below the deck at top dead centre [m]; heights given from the deck are taken from there. */
  readonly crownBelowDeck: number;
  /**
   * How far the barrel was lifted on its base [m]. For the record only: windows, compression, `crownBelowDeck`, crankcase
   * volume and a piston-port's duration below already are those of the lifted barrel; nobody applies it again.
   */
  readonly barrelLift: number;
  readonly exhaust: { readonly windows: readonly PortWindow[]; readonly discharge: Discharge };
  readonly transfers: {
    readonly windows: readonly PortWindow[];
    readonly discharge: Discharge;
    readonly passage: {
      /** Passages from the crankcase to the windows: length [m]; mean area of all together, at the crankcase, at the windows [m2]. */
      readonly length: number;
      readonly area: number;
      readonly entryArea: number;
      readonly exitArea: number;
      /** Lumped, and then whether the gas column's inertia counts; or ducts. */
      readonly as: 'lumped' | 'duct';
      readonly inertia: boolean;
    };
  };
  readonly passage: {
    readonly length: number;
    readonly entryArea: number;
    readonly exitArea: number;
    readonly wallTemperature: number;
  };
  /** Smallest crankcase volume, piston at bottom dead centre, transfer passages included [m3]. */
  readonly crankcase: { readonly volume: number; readonly wallTemperature: number };
  readonly intake: Intake;
  readonly combustion: {
    /** Start of heat release over speed, ascending [rpm, deg]; one point: at every speed. */
    readonly start: readonly { readonly rpm: number; readonly deg: number }[];
    /** From start to end with the residual below [deg]. */
    readonly durationDeg: number;
    /** Mass share of residual gas that the stated duration belongs to [-]; null: residual gas does not slow the burn. */
    readonly residualAtDuration: number | null;
    readonly wiebeEfficiency: number;
    readonly wiebeExponent: number;
    /** Share of the heat that the burnt gas of this mixture can release which is released [-]. */
    readonly completeness: number;
  };
  /** Null: not stated; nothing but the squish velocity hangs on it. */
  readonly head: Head | null;
  readonly fuel: {
    /** Hydrogen to carbon ratio y of CH_y [-]. */
    readonly hydrogenCarbonRatio: number;
    /** Equivalence ratio, above 1 is rich [-]. */
    readonly equivalenceRatio: number;
    /** Lower heating value [J/kg]. */
    readonly lowerHeatingValue: number;
  };
  readonly scavenging: Scavenging;
  readonly cylinderHeat: {
    readonly model: 'annand' | 'woschni' | 'none';
    readonly coefficient: number;
    readonly wallTemperature: number;
  };
  /** Friction mean effective pressure = constant + perSpeed·stroke·rpm [Pa, Pa/(m rpm)]. */
  readonly friction: { readonly constant: number; readonly perSpeed: number };
  readonly ambient: { readonly pressure: number; readonly temperature: number };
}
