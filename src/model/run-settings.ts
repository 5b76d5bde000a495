/**
 * How the computation is run.
 */

/** How the computation is run. */
export interface RunSettings {
  /** Speeds of the sweep, ascending [rpm]. */
  readonly speeds: readonly number[];
  /** Cell length [m]. */
  readonly cell: number;
  readonly courant: number;
  readonly scheme: 'conservative' | 'finite-volume' | 'mesh';
  /** Form of the conservative scheme's kernel. */
  readonly kernel: 'auto' | 'two-lane' | 'plain';
  readonly maxCycles: number;
  readonly friction: boolean;
  /** Factor on the axial mixing of gas along the ducts [-]; 0 switches it off. */
  readonly mixing: number;
  readonly wallHeat: 'colburn' | 'pulsating' | 'none';
  /** Factor on it [-]. */
  readonly wallHeatFactor: number;
  /** Speed the pipe is meant for [rpm]; null: none stated. */
  readonly targetSpeed: number | null;
}
