/**
 * The colours and dashes of quantities. A quantity keeps both on every page, so that it is known by its dash in print
 * and by people who cannot tell red from green. Hues are spread in lightness as well; each line colour stands at
 * least 4.5 : 1 from its paper (WCAG 2.1, 1.4.3), because direct labels are written in it.
 */

/** Whatever is drawn as a line or a bar under its own name. */
export type Quantity =
  | 'outgoing'
  | 'returning'
  | 'port'
  | 'exhaust'
  | 'transfer'
  | 'cylinder'
  | 'crankcase'
  | 'torque'
  | 'power'
  | 'traced'
  | 'handbook'
  | 'trapping'
  | 'mach'
  | 'gas'
  | 'wall';

/** Plotly's names of dashes. */
export type Dash = 'solid' | 'dot' | 'dash' | 'longdash' | 'dashdot' | 'longdashdot';

export interface Palette {
  readonly paper: string;
  readonly sheet: string;
  readonly ink: string;
  readonly faint: string;
  readonly hairline: string;
  readonly grid: string;
  /** Highlighter laid over what is useful: a window, a speed, a row. */
  readonly useful: string;
  readonly usefulInk: string;
  readonly line: Readonly<Record<Quantity, string>>;
  /** Field colours from the lowest over the reference (middle) to the highest value. */
  readonly field: readonly [low: string, lowMiddle: string, middle: string, highMiddle: string, high: string];
  /** Shades of an amount that is better the more of it there is, from least to most. */
  readonly amount: readonly [least: string, middle: string, most: string];
  /**
   * Drafts beside one another, in order: hues that no wave and no port has. The first four are told apart by people who
   * see no red, no green or no blue; the rest need their dashes too.
   */
  readonly drafts: readonly string[];
}

export const light: Palette = {
  paper: '#f3f5f4',
  sheet: '#fcfdfc',
  ink: '#16232b',
  faint: '#51606a',
  hairline: '#9aa7ae',
  grid: '#e1e6e7',
  useful: 'rgba(240, 200, 40, 0.30)',
  usefulInk: '#6d5500',
  line: {
    outgoing: '#b34a00',
    returning: '#0b56a8',
    port: '#16232b',
    exhaust: '#a8123e',
    transfer: '#00756a',
    cylinder: '#6a3a9c',
    crankcase: '#756600',
    torque: '#16232b',
    power: '#94400f',
    traced: '#3f6f94',
    handbook: '#5d666c',
    trapping: '#96308c',
    mach: '#3a6a12',
    gas: '#8a5500',
    wall: '#51606a',
  },
  field: ['#0c6a55', '#8cc3b2', '#fcfdfc', '#8a8f92', '#10161a'],
  amount: ['#fcfdfc', '#efd3a0', '#c07a2b'],
  drafts: ['#16232b', '#7b3ff2', '#806000', '#c01c90', '#3d7a1c', '#66707a', '#4a2f00', '#00748f'],
};

export const dark: Palette = {
  paper: '#11171b',
  sheet: '#182025',
  ink: '#e6ecee',
  faint: '#a4b1b8',
  hairline: '#5c6a72',
  grid: '#29343a',
  useful: 'rgba(240, 205, 70, 0.22)',
  usefulInk: '#f0d36a',
  line: {
    outgoing: '#f29a4c',
    returning: '#6fb4f7',
    port: '#e6ecee',
    exhaust: '#f27b9b',
    transfer: '#46c9b6',
    cylinder: '#bf9cf0',
    crankcase: '#d3c14b',
    torque: '#e6ecee',
    power: '#eda06a',
    traced: '#8fbde0',
    handbook: '#a8b2b8',
    trapping: '#e59be0',
    mach: '#a5cf7a',
    gas: '#e8b860',
    wall: '#a4b1b8',
  },
  field: ['#4fd0ad', '#24705f', '#182025', '#8c9499', '#f6f3ea'],
  amount: ['#182025', '#5a4322', '#8f5f22'],
  drafts: ['#e6ecee', '#a77bff', '#d8c31a', '#f062d4', '#8fdc6a', '#8c969d', '#b08a48', '#d3b8ff'],
};

export const dashes: Readonly<Record<Quantity, Dash>> = {
  outgoing: 'dash',
  returning: 'solid',
  port: 'solid',
  exhaust: 'solid',
  transfer: 'dashdot',
  cylinder: 'longdash',
  crankcase: 'dot',
  torque: 'solid',
  power: 'dash',
  traced: 'dash',
  handbook: 'dot',
  trapping: 'dash',
  mach: 'solid',
  gas: 'solid',
  wall: 'dash',
};

/** Dashes of drafts laid over one another, in the order of their colours. */
export const draftDashes: readonly Dash[] = [
  'solid',
  'dash',
  'longdash',
  'dashdot',
  'dot',
  'longdashdot',
  'solid',
  'dash',
];

/** The wave's peak, beside its middle in the same colour: finer than any dash of a quantity. */
export const PEAK_DASH = '2px,3px';
