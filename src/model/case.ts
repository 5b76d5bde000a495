/**
 * What a case file becomes once read: plain readonly data, every quantity in SI, crank angles in degrees after top
 * dead centre (names end in `Deg`). Loading, units, defaults and checks live beside this file; nothing downstream
 * sees a unit string or an absent value again.
 */

/** How a window's width was measured: straight across (`chord`) or along the bore's wall (`arc`). */
export type WidthMeasure = 'chord' | 'arc';

/** Where the roof of a window stands: by its travel from top dead centre, by its opening angle or by its duration. */
export type RoofPosition =
  | { readonly by: 'travel'; readonly travel: number }
  | { readonly by: 'opening'; readonly openingDeg: number }
  | { readonly by: 'duration'; readonly durationDeg: number };

/** One kind of port window in the cylinder wall, `count` times around the bore. Lengths in m. */
export interface PortWindow {
  readonly name: string;
  readonly count: number;
  /** Width of one window at its widest [m], measured as `widthMeasure` says. */
  readonly width: number;
  readonly widthMeasure: WidthMeasure;
  readonly roof: RoofPosition;
  /** Height from the crown of the roof down to the floor [m]; null: down to the piston crown at bottom dead centre. */
  readonly height: number | null;
  /** Corner radii at the roof and at the floor [m]. */
  readonly cornerTop: number;
  readonly cornerBottom: number;
  /** Rise of an arched roof from its springing to its crown [m]; 0 is a flat roof. */
  readonly roofArch: number;
  /** Chamfer on the roof edge: how far it reaches up the wall, and how deep it cuts into it [m]; 0 is none. */
  readonly chamferHeight: number;
  readonly chamferDepth: number;
  /** Angle of the stream above the horizontal [deg]; the projected area is the window's times its cosine. */
  readonly upAngleDeg: number;
  /** Position of the window's middle around the bore, from the exhaust's middle [deg]; null: not given. */
  readonly aroundDeg: number | null;
}

/**
 * Discharge coefficient of a port for the two directions of flow, as the cylinder sees it: `out` is out of the cylinder,
 * `in` is into it, for exhaust and transfer ports alike. `full` at full opening, `crack` as it cracks open.
 */
export interface Discharge {
  readonly outFull: number;
  readonly outCrack: number;
  readonly inFull: number;
  readonly inCrack: number;
}

/** A stretch of duct with a straight taper. Lengths and diameters in m. */
export interface Section {
  readonly name: string;
  readonly role: 'passage' | 'header' | 'diffuser' | 'belly' | 'baffle' | 'stinger' | 'tract';
  readonly length: number;
  readonly diameter: readonly [left: number, right: number];
  /** The jump in diameter to the section before is meant. */
  readonly step: boolean;
}

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
    /** Passages from the crankcase to the windows: length, mean area of all together, and whether their gas column's inertia counts. */
    readonly passage: { readonly length: number; readonly area: number; readonly inertia: boolean };
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
    readonly startDeg: number;
    readonly durationDeg: number;
    readonly wiebeEfficiency: number;
    readonly wiebeExponent: number;
    /** Share of the heat that the burnt gas of this mixture can release which is released [-]. */
    readonly completeness: number;
  };
  readonly fuel: {
    /** Hydrogen to carbon ratio y of CH_y [-]. */
    readonly hydrogenCarbonRatio: number;
    /** Equivalence ratio, above 1 is rich [-]. */
    readonly equivalenceRatio: number;
    /** Lower heating value [J/kg]. */
    readonly lowerHeatingValue: number;
  };
  readonly scavenging: {
    /** Share of the fresh stream that displaces without mixing [-]. */
    readonly displacement: number;
    /** Share of the fresh stream that crosses straight to the exhaust [-]. */
    readonly shortCircuit: number;
  };
  readonly cylinderHeat: {
    readonly model: 'annand' | 'woschni' | 'none';
    readonly coefficient: number;
    readonly wallTemperature: number;
  };
  /** Friction mean effective pressure = constant + perSpeed·stroke·rpm [Pa, Pa/(m rpm)]. */
  readonly friction: { readonly constant: number; readonly perSpeed: number };
  readonly ambient: { readonly pressure: number; readonly temperature: number };
}

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

/** How the computation is run. */
export interface RunSettings {
  /** Speeds of the sweep, ascending [rpm]. */
  readonly speeds: readonly number[];
  /** Cell length [m]. */
  readonly cell: number;
  readonly courant: number;
  readonly scheme: 'conservative' | 'mesh';
  readonly maxCycles: number;
  readonly friction: boolean;
  readonly wallHeat: 'colburn' | 'pulsating' | 'none';
  /** Speed the pipe is meant for [rpm]; null: none stated. */
  readonly targetSpeed: number | null;
}

/** One input that the file did not state. */
export interface AssumedInput {
  /** Path in the case, `engine.passage.length`. */
  readonly path: string;
  /** The value as a reader would write it, with its unit. */
  readonly value: string;
  /** Why this value: one sentence, with its source or "common practice, no source". */
  readonly reason: string;
  /**
   * `quantity`: a physical value taken for want of a measurement; `absence`: a feature taken as not there (no chamfer, no
   * offset); `setting`: how the computation is run.
   */
  readonly sort: 'quantity' | 'absence' | 'setting';
}

/** One input as it was used: stated by the file or an override, or assumed. */
export interface UsedInput {
  /** Path in the case, `pipe.sections.header.length`. */
  readonly path: string;
  /** The value as written, with its unit. */
  readonly value: string;
  readonly assumed: boolean;
}

export interface Case {
  readonly name: string;
  readonly note: string;
  readonly engine: Engine;
  readonly pipe: Pipe;
  readonly run: RunSettings;
  readonly assumed: readonly AssumedInput[];
  /** Every input in the order of the file's keys, stated or assumed. */
  readonly inputs: readonly UsedInput[];
  /** What is allowed but odd, one sentence each. */
  readonly warnings: readonly string[];
}

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
  readonly probes: readonly { readonly name: string; readonly at: number }[];
  readonly until: number;
  readonly sampleEvery: number;
  readonly profilesAt: readonly number[];
  readonly cell: number;
  readonly courant: number;
  readonly scheme: 'conservative' | 'mesh';
}
