/**
 * Where an instant lies in a drawn figure, in pixels from its upper left corner: an upright hair where the crank axis
 * lies, a level one where it stands. Read from the figure's own layout as it stands, zoomed or not.
 */

interface DrawnAxis {
  readonly range: readonly [number, number];
  /** Share of the plot it takes; the whole where it is not said. */
  readonly domain?: readonly [number, number];
}

/** What of a layout says where things are. Margins are as they are written: `baseLayout` keeps them from growing. */
export interface DrawnLayout {
  readonly width: number;
  readonly height: number;
  readonly margin: { readonly l: number; readonly r: number; readonly t: number; readonly b: number };
  readonly xaxis: DrawnAxis;
  readonly yaxis: DrawnAxis;
}

/** [px] */
export interface Hair {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The hair of an angle [deg], or null where the figure does not show it. `crank`: the axis that angles run along. */
export function instant(layout: DrawnLayout, angle: number, crank: 'x' | 'y'): Hair | null {
  const { width, height, margin, xaxis, yaxis } = layout;
  const { range, domain = [0, 1] } = crank === 'x' ? xaxis : yaxis;
  const share = (angle - range[0]) / (range[1] - range[0]);
  if (!(share >= 0 && share <= 1)) return null;
  const plot = { width: width - margin.l - margin.r, height: height - margin.t - margin.b };
  const along = domain[0] + share * (domain[1] - domain[0]);
  if (crank === 'x')
    return { left: margin.l + along * plot.width, top: margin.t, width: 1, height: plot.height };
  const [from, to] = xaxis.domain ?? [0, 1];
  return {
    left: margin.l + from * plot.width,
    top: margin.t + (1 - along) * plot.height,
    width: (to - from) * plot.width,
    height: 1,
  };
}
