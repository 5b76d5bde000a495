// A gas and a duct as they lie in linear memory. The order of the fields is a contract with ../layout.ts, which fills them.

/** A row of doubles; q[i] as in the rest of the solver. */
@unmanaged
export class Row {
  @inline @operator("[]")
  get(i: i32): f64 { return load<f64>(changetype<usize>(this) + ((<usize>i) << 3)); }

  @inline @operator("[]=")
  set(i: i32, value: f64): void { store<f64>(changetype<usize>(this) + ((<usize>i) << 3), value); }
}

@unmanaged
export class Gas {
  gasConstantFresh: f64;
  gasConstantBurnt: f64;
  perfectCv: f64;
  coldest: f64;
  hottest: f64;
  perfect: i32;
  /** Rows as in table.ts. */
  table: usize;
}

@unmanaged
export class Duct {
  dx: f64;
  dt: f64;
  /** Left by `decode` and by `advance`. */
  fastest: f64;
  heatTaken: f64;

  cells: i32;
  mixed: i32;
  /** Which of the two conserved states is the present one. */
  parity: i32;
  calmed: i32;
  friction: i32;
  pulsatingHeat: i32;
  /** Iterations of the last `advance` that ran out of rounds. */
  unconverged: i32;
  gas: Gas;

  density0: Row; momentum0: Row; energy0: Row; burnt0: Row;
  density1: Row; momentum1: Row; energy1: Row; burnt1: Row;
  r: Row; u: Row; p: Row; y: Row; T: Row; gamma: Row; a: Row;
  rFace: Row; uFace: Row; pFace: Row; yFace: Row;
  rLeft: Row; uLeft: Row; pLeft: Row; yLeft: Row;
  rRight: Row; uRight: Row; pRight: Row; yRight: Row;
  rStar: Row; uStar: Row; pStar: Row; yStar: Row;
  massFlux: Row; momentumFlux: Row; energyFlux: Row; burntFlux: Row;
  areaSlope: Row; flatten: Row; calm: Row;
  frictionOverD: Row; heatOverD: Row; wallTemperature: Row;
  shapeAhead: Row; shapeBack: Row; shapeNow: Row; heatFactor: Row;
  faceArea: Row; volume: Row; inverseVolume: Row; diameter: Row; roughTerm: Row;
}

/** Ghost cells at each end of the rows of cells. */
export const GHOSTS: i32 = 2;
/** Their bytes. */
export const GHOST_BYTES: usize = 16;
