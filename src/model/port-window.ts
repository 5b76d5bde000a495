/**
 * Windows in the cylinder wall: where they stand, how large they are, how well they flow. Lengths in m.
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
  /** Where the roof moves over speed: by how much it is raised at ascending speeds [rpm, m]; absent: it stands. */
  readonly raisedAt?: readonly { readonly rpm: number; readonly raise: number }[];
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
