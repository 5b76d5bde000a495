/**
 * A gas and a duct in the kernel's memory. The order of slots and rows is a contract with assembly/layout.ts.
 */

/** Slots of a gas: five doubles, then integers. */
export const GAS_DOUBLES = [
  'gasConstantFresh',
  'gasConstantBurnt',
  'perfectCv',
  'coldest',
  'hottest',
] as const;
export const GAS_INTEGERS = { perfect: 10, table: 11 } as const;
export const GAS_BYTES = 48;

/** Slots of a duct's header: four doubles, then integers, the last of which are the addresses of its rows. */
export const DOUBLES = { dx: 0, dt: 1, fastest: 2, heatTaken: 3 } as const;
export const INTEGERS = {
  cells: 8,
  mixed: 9,
  parity: 10,
  calmed: 11,
  friction: 12,
  pulsatingHeat: 13,
  unconverged: 14,
  gas: 15,
  rows: 16,
} as const;

/** Rows of a duct that hold the conserved state, twice. */
export const CONSERVED_ROWS = ['density', 'momentum', 'energy', 'burnt'] as const;

/** Rows that the TypeScript form of a duct has too, in the order of their addresses. */
export const STATE_ROWS = [
  'r',
  'u',
  'p',
  'y',
  'T',
  'gamma',
  'a',
  'rFace',
  'uFace',
  'pFace',
  'yFace',
  'rLeft',
  'uLeft',
  'pLeft',
  'yLeft',
  'rRight',
  'uRight',
  'pRight',
  'yRight',
  'rStar',
  'uStar',
  'pStar',
  'yStar',
  'massFlux',
  'momentumFlux',
  'energyFlux',
  'burntFlux',
  'areaSlope',
  'flatten',
  'calm',
  'frictionOverD',
  'heatOverD',
  'wallTemperature',
  'shapeAhead',
  'shapeBack',
  'shapeNow',
  'heatFactor',
] as const;

/** Rows of the kernel alone: the geometry, and what follows from it. */
export const OWN_ROWS = ['faceArea', 'volume', 'inverseVolume', 'diameter', 'roughTerm'] as const;

export const ROWS = 2 * CONSERVED_ROWS.length + STATE_ROWS.length + OWN_ROWS.length;
export const HEADER_BYTES = 4 * (INTEGERS.rows + ROWS);
