/**
 * A first estimate of how fast the gas leaves the exhaust passage during blowdown, without simulating the pipe.
 *
 * The cylinder empties through the port quasi-steadily while the piston goes down; what leaves runs into a header at
 * rest as one outgoing simple wave, with nothing coming back: u = 2a₀/(γ−1) [(p/p₀)^((γ−1)/2γ) − 1] (Earnshaw). At each
 * crank angle the pressure p behind the port is the one at which the port's flow equals ρuA in the header. The passage's
 * exit passes the same flow at that pressure through its own, smaller area; the Mach number there is 1 at most.
 * Pressure and temperature at release are guesses (common practice, no source): 0.6 of the mean effective pressure and
 * 1500 K. Without the suction of the returning wave the estimate reads low; the sweep computes the same number with all
 * waves in it.
 */
import type { Engine } from '../model/engine.ts';
import type { EngineEvents } from './events.ts';
import { portStreamArea } from './time-area.ts';
import type { Volumes } from './volume.ts';
import { cylinderVolume, cylinderVolumeRate } from './volume.ts';

const GAMMA = 1.3;
const GAS_CONSTANT = 290;
const RELEASE_TEMPERATURE = 1500;
const RELEASE_SHARE = 0.6;
const STEP_DEG = 0.25;

export interface ReleaseEstimate {
  /** Greatest Mach number at the passage's exit [-], and where [deg]. */
  readonly exitMach: number;
  readonly exitMachDeg: number;
  /** Cylinder pressure as the transfers open [Pa]. */
  readonly pressureAtTransferOpening: number;
}

/** Mass flow per area from a vessel into a pressure, choked or not (St Venant and Wantzel) [kg/(s m2)]. */
export function orificeFlux(pressure: number, temperature: number, back: number): number {
  const critical = (2 / (GAMMA + 1)) ** (GAMMA / (GAMMA - 1));
  const y = Math.min(1, Math.max(back / pressure, critical));
  const head = ((2 * GAMMA) / (GAMMA - 1)) * (y ** (2 / GAMMA) - y ** ((GAMMA + 1) / GAMMA));
  return (pressure / Math.sqrt(GAS_CONSTANT * temperature)) * Math.sqrt(Math.max(0, head));
}

const HEAT = (GAMMA * GAS_CONSTANT) / (GAMMA - 1);

/** Flux in a header at rest behind a simple wave of pressure p that hot gas pushes [kg/(s m2)]. */
export function headerFlux(
  p: number,
  ambient: number,
  headerTemperature: number,
  stagnation: number,
): number {
  const sound = Math.sqrt(GAMMA * GAS_CONSTANT * headerTemperature);
  const wave = (p / ambient) ** ((GAMMA - 1) / (2 * GAMMA));
  // No faster than sound in what comes out: T = 2T₀/(γ+1).
  const sonic = Math.sqrt((2 * GAMMA * GAS_CONSTANT * stagnation) / (GAMMA + 1));
  const u = Math.min(sonic, ((2 * sound) / (GAMMA - 1)) * (wave - 1));
  return (p * u) / (GAS_CONSTANT * (stagnation - (u * u) / (2 * HEAT)));
}

/** Mach number of a flux at a static pressure, 1 at most [-]: ρu = pu/(R(T₀ − u²/2c_p)) solved for u. */
export function machOfFlux(flux: number, p: number, stagnation: number): number {
  const g = flux * GAS_CONSTANT;
  if (!(g > 0)) return 0;
  const u = (HEAT / g) * (Math.sqrt(p * p + (2 * g * g * stagnation) / HEAT) - p);
  return Math.min(1, u / Math.sqrt(GAMMA * GAS_CONSTANT * (stagnation - (u * u) / (2 * HEAT))));
}

export function releaseEstimate(
  engine: Engine,
  events: EngineEvents,
  volumes: Volumes,
  at: {
    readonly rpm: number;
    readonly bmep: number;
    readonly gasTemperature: number;
    /** Area of the header behind its transition [m2]. */
    readonly headerArea: number;
  },
): ReleaseEstimate {
  const { exhaust, transfers, crank } = events;
  const ambient = engine.ambient.pressure;
  const end = Math.max(transfers.opensDeg, exhaust.opensDeg + STEP_DEG);
  let pressure = Math.max(RELEASE_SHARE * at.bmep, ambient);
  let temperature = RELEASE_TEMPERATURE;
  let best = { exitMach: 0, exitMachDeg: exhaust.opensDeg };
  for (let deg = exhaust.opensDeg; deg < end; deg += STEP_DEG) {
    const step = Math.min(STEP_DEG, end - deg);
    const middle = deg + step / 2;
    const port = engine.exhaust.discharge.outFull * portStreamArea(crank, exhaust, middle);
    let [low, high] = [ambient, pressure];
    for (let i = 0; i < 40; i++) {
      const p = (low + high) / 2;
      const leaving = headerFlux(p, ambient, at.gasTemperature, temperature) * at.headerArea;
      if (port * orificeFlux(pressure, temperature, p) > leaving) low = p;
      else high = p;
    }
    const flow = port * orificeFlux(pressure, temperature, low);
    const mach = machOfFlux(flow / engine.passage.exitArea, low, temperature);
    if (mach > best.exitMach) best = { exitMach: mach, exitMachDeg: middle };
    // What stays expands without heat: d ln p = γ (d ln m − d ln V).
    const volume = cylinderVolume(volumes, middle);
    const mass = (pressure * volume) / (GAS_CONSTANT * temperature);
    const lost = (flow * step) / (6 * at.rpm * mass);
    const grown = (cylinderVolumeRate(volumes, middle) * step) / volume;
    const change = Math.exp(-GAMMA * (lost + grown));
    pressure = Math.max(ambient, pressure * change);
    temperature *= change ** ((GAMMA - 1) / GAMMA);
  }
  return { ...best, pressureAtTransferOpening: pressure };
}
