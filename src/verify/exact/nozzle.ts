/**
 * Steady flow through a converging-diverging nozzle from rest (p0): subsonic throughout, choked with a normal shock
 * in the divergence, or supersonic to the exit. Isentropic on both sides of the shock; behind it the sonic area grows
 * by p01/p02. For a given shock area the exit pressure follows, so the shock's place is found by a root search.
 *
 * Source: J. D. Anderson, Computational Fluid Dynamics, ch. 7 (the nozzle A/A_t = 1 + 2.2 (x - 1.5)^2); from memory.
 */
import { areaRatio, isentropicFlow, machOfArea, machOfPressure } from './isentropic.ts';
import { rootBetween } from './root.ts';
import { normalShock } from './shock-relations.ts';

/** A nozzle: area over x between `from` and `to`, narrowest at `throat` [m, m2; any consistent unit]. */
export interface NozzleShape {
  readonly area: (x: number) => number;
  readonly from: number;
  readonly throat: number;
  readonly to: number;
}

/** Local state over the upstream total state [-]. */
export interface NozzleState {
  readonly mach: number;
  readonly pressure: number;
  readonly density: number;
  readonly temperature: number;
}

/** The solved flow; `massFlow` over rho0 a0 A_t [-], `shockAt` the shock's place or null. */
export interface NozzleFlow {
  readonly regime: 'subsonic' | 'shock' | 'supersonic';
  readonly massFlow: number;
  readonly sonicArea: number;
  readonly shockAt: number | null;
  readonly totalPressureRatio: number;
  readonly at: (x: number) => NozzleState;
}

/** Exit pressures over p0 that divide the regimes: choked subsonic, shock at the exit, fully supersonic [-]. */
export function nozzleLimits(exitAreaRatio: number, gamma: number): readonly [number, number, number] {
  const subsonic = machOfArea(exitAreaRatio, gamma, 'subsonic');
  const supersonic = machOfArea(exitAreaRatio, gamma, 'supersonic');
  const design = isentropicFlow(supersonic, gamma).pressure;
  return [isentropicFlow(subsonic, gamma).pressure, design * normalShock(supersonic, gamma).pressure, design];
}

/** Exit pressure over p0 with a shock at an area of `shockArea` throats [-]. */
function exitPressureWithShock(shockArea: number, exitArea: number, gamma: number): number {
  const loss = normalShock(machOfArea(shockArea, gamma, 'supersonic'), gamma).totalPressure;
  return loss * isentropicFlow(machOfArea(exitArea * loss, gamma, 'subsonic'), gamma).pressure;
}

function stateAt(mach: number, gamma: number, totalPressureRatio: number): NozzleState {
  const ratios = isentropicFlow(mach, gamma);
  return {
    mach,
    pressure: ratios.pressure * totalPressureRatio,
    density: ratios.density * totalPressureRatio,
    temperature: ratios.temperature,
  };
}

/** Flow for an exit pressure of `exitPressure` times the upstream total pressure. */
export function solveNozzle(shape: NozzleShape, exitPressure: number, gamma: number): NozzleFlow {
  const throatArea = shape.area(shape.throat);
  const exitArea = shape.area(shape.to) / throatArea;
  const [subsonicLimit, shockLimit] = nozzleLimits(exitArea, gamma);
  const full = ((gamma + 1) / 2) ** (-(gamma + 1) / (2 * (gamma - 1)));
  if (exitPressure >= subsonicLimit) {
    const sonicArea = exitArea / areaRatio(machOfPressure(exitPressure, gamma), gamma);
    return {
      regime: 'subsonic',
      massFlow: full * sonicArea,
      sonicArea: sonicArea * throatArea,
      shockAt: null,
      totalPressureRatio: 1,
      at: (x) => stateAt(machOfArea(shape.area(x) / (sonicArea * throatArea), gamma, 'subsonic'), gamma, 1),
    };
  }
  let shockAt: number | null = null;
  let loss = 1;
  if (exitPressure > shockLimit) {
    const shockArea = rootBetween(
      (area) => exitPressureWithShock(area, exitArea, gamma) - exitPressure,
      1,
      exitArea,
    );
    shockAt = rootBetween((x) => shape.area(x) / throatArea - shockArea, shape.throat, shape.to);
    loss = normalShock(machOfArea(shockArea, gamma, 'supersonic'), gamma).totalPressure;
  }
  const at = (x: number): NozzleState => {
    const area = Math.max(1, shape.area(x) / throatArea);
    if (shockAt !== null && x > shockAt)
      return stateAt(machOfArea(area * loss, gamma, 'subsonic'), gamma, loss);
    return stateAt(machOfArea(area, gamma, x < shape.throat ? 'subsonic' : 'supersonic'), gamma, 1);
  };
  return {
    regime: shockAt === null ? 'supersonic' : 'shock',
    massFlow: full,
    sonicArea: throatArea,
    shockAt,
    totalPressureRatio: loss,
    at,
  };
}
