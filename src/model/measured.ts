/**
 * What was measured on an engine, as read from its files: SI, angles in degrees after top dead centre. Errors are standard
 * deviations. Each value knows the line of the file that it stands in, so that what does not fit can be pointed at.
 */

/** Where a value was read: file and line, both as a reader would name them. */
export interface Stand {
  readonly file: string;
  readonly line: number;
}

/** A number that is known, or one that is to be found within a range; no range: as usual for its kind. */
export type Loose =
  | { readonly kind: 'known'; readonly value: number }
  | { readonly kind: 'free'; readonly range: readonly [from: number, to: number] | null };

export interface DynoPoint extends Stand {
  readonly rpm: number;
  /** Torque at the crankshaft in the air of the day, as the dynamometer shows it [N m]. */
  readonly torque: number;
  readonly error: number;
}

export interface DynoCurve {
  /** In ascending order of speed. */
  readonly points: readonly DynoPoint[];
  /** What the dynamometer shows over what the crankshaft gives [-]. */
  readonly factor: Loose;
  /** What the file's values had been corrected to, and by what they were multiplied for it [-]. */
  readonly correctedTo: 'none' | 'ISO 1585' | 'SAE J1349';
  readonly correction: number;
}

/** Distance from the flange [m], or one of the places that have a name. */
export type MeasuredPlace = number | 'port' | 'crankcase' | 'cylinder';

export interface PressureTrace {
  readonly at: MeasuredPlace;
  readonly rpm: number;
  /** Mean over the turns of the file on even degrees from 0 on, absolute [Pa]. */
  readonly pressure: readonly number[];
  /** Degrees from one value to the next. */
  readonly stepDeg: number;
  readonly error: number;
  /** Added to the angles of the file [deg]. */
  readonly offset: Loose;
  readonly stand: Stand;
}

export interface SpotTemperature {
  /** Distance from the flange [m]. */
  readonly at: number;
  /** Speed that it was read at [rpm]; null: a mean over those of the day. */
  readonly rpm: number | null;
  readonly value: number;
  readonly error: number;
  readonly stand: Stand;
}

export interface Weather {
  readonly pressure: number;
  readonly temperature: number;
  /** Relative humidity of the air [-]. */
  readonly humidity: number;
}

/** One file of measurements. */
export interface Measured {
  readonly name: string;
  readonly note: string;
  /** Name of the engine that it was measured on; empty: not said. */
  readonly engine: string;
  /** Air of the day; null: not said. */
  readonly ambient: Weather | null;
  readonly dyno: DynoCurve | null;
  readonly traces: readonly PressureTrace[];
  readonly gasTemperatures: readonly SpotTemperature[];
  readonly walls: readonly SpotTemperature[];
  /** What was left out of the files on reading, one sentence each. */
  readonly warnings: readonly string[];
}
