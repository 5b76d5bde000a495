/** Quantities of a map on the grid of all its speeds and durations. They are laid on it where the page is written. */

/** Quantities that a map's figures draw. */
export const GRID_FIELDS = ['lead', 'place', 'peak', 'torque', 'share', 'echo'] as const;
export type GridField = (typeof GRID_FIELDS)[number];

/** Rows a duration, columns a speed, both ascending; null where a point is missing or has no reading. */
export type GridRows = readonly (readonly (number | null)[])[];

export interface DurationGrid {
  readonly speeds: readonly number[];
  readonly durations: readonly number[];
  /**
   * Middle before exhaust closing [deg], its place in the window [-], peak before closing [deg], torque [Nm], share of the wave
   * before closing [%], the echo's return against the next opening [deg].
   */
  readonly fields: Readonly<Record<GridField, GridRows>>;
}
