/**
 * A volume of gas under one pressure, in up to two zones of their own temperature and composition:
 *   zone 0, what was there (and mixes), zone 1, fresh charge that displaces it. A plain volume uses zone 0 only.
 *   dm = sum of flows,   dU = sum of m h0 - p dV + heat,   p = (m0 R0 T0 + m1 R1 T1)/V
 * The work p dV is shared between the zones as their volumes change under a common pressure; the sum is exact.
 *
 * Scavenging (issue of the exhaust port): of the stream from the transfers a share sigma crosses to the exhaust, of the
 * rest a share d displaces without mixing and 1-d mixes with zone 0. With s = (1-sigma) SR this gives, at constant
 * temperature, SE = 1 - (1 - d s)^(1/d): perfect mixing for d -> 0, perfect displacement for d = 1 (derived here).
 */

import { newReservoir, RESERVOIR, type Reservoir, setReservoir } from '../ends/reservoir.ts';
import type { GasModel } from '../gas/gas-model.ts';

/** Slots of a content array: mass, energy, burnt mass of zone 0, then of zone 1 [kg, J, kg]. */
export const CONTENT = { mass0: 0, energy0: 1, burnt0: 2, mass1: 3, energy1: 4, burnt1: 5 } as const;
const SLOTS = 6;
/** Zone 0 is given up once its mass is this share of zone 1's [-]. */
const NEARLY_GONE = 0.01;

/** Where a stream enters or leaves: any port, the exhaust, or the transfers. */
export type StreamRole = 'plain' | 'exhaust' | 'transfer';

/** What drives a volume from outside, as functions of time; the solver knows no crank. */
export interface VolumeDrive {
  /** Volume [m3]. */
  volume(time: number): number;
  /** Heat released up to a time, of what is released from now on, and the fresh mass burnt with it; null: none. */
  readonly release: { burntShare(time: number): number; freshMass: number; heatPerMass: number } | null;
  /** Heat from the wall into the gas [W]; pressure [Pa], temperature [K], density [kg/m3]. */
  wallHeat(time: number, pressure: number, temperature: number, density: number): number;
}

/** A constant volume without heat. */
export function rigidDrive(volume: number): VolumeDrive {
  return { volume: () => volume, release: null, wallHeat: () => 0 };
}

export class Volume {
  readonly name: string;
  readonly gas: GasModel;
  readonly drive: VolumeDrive;
  now = new Float64Array(SLOTS);
  next = new Float64Array(SLOTS);
  private readonly half = new Float64Array(SLOTS);
  /** Flows into the volume this stage, by slot [kg/s, W, kg/s]. */
  private readonly rates = new Float64Array(SLOTS);
  /** What leaves through the exhaust, and what leaves elsewhere. */
  readonly exhaust: Reservoir = newReservoir();
  readonly inner: Reservoir = newReservoir();
  pressure = 0;
  readonly temperature = new Float64Array(2);
  /** Mean temperature by heat content [K]. */
  meanTemperature = 0;
  readonly scavenging: { displacement: number; shortCircuit: number };
  private fromFresh = 0;
  private transferIn = 0;
  private exhaustOut = 0;
  /** Work done on the shaft, heat from the walls and heat released in the last step [J]. */
  work = 0;
  wallHeat = 0;
  heatReleased = 0;

  constructor(
    name: string,
    gas: GasModel,
    drive: VolumeDrive,
    scavenging: { displacement: number; shortCircuit: number } = { displacement: 0, shortCircuit: 0 },
  ) {
    this.name = name;
    this.gas = gas;
    this.drive = drive;
    this.scavenging = scavenging;
  }

  /** Fills the volume with one gas at a time [s]. */
  fill(time: number, pressure: number, temperature: number, burnt: number): void {
    const mass = (pressure * this.drive.volume(time)) / (this.gas.gasConstant(burnt) * temperature);
    this.now.fill(0);
    this.now[CONTENT.mass0] = mass;
    this.now[CONTENT.energy0] = mass * this.gas.energy(temperature, burnt);
    this.now[CONTENT.burnt0] = mass * burnt;
    this.temperature.fill(temperature);
    this.refresh(this.now, this.drive.volume(time));
  }

  /** Copies a content and its temperatures, as of a time. */
  restore(time: number, content: ArrayLike<number>): void {
    this.now.set(content);
    this.refresh(this.now, this.drive.volume(time));
  }

  /** Mixes both zones into one. */
  merge(): void {
    const c = this.now;
    for (let slot = 0; slot < 3; slot++) {
      c[slot] += c[slot + 3];
      c[slot + 3] = 0;
    }
    this.fromFresh = 0;
  }

  mass(): number {
    return this.now[CONTENT.mass0] + this.now[CONTENT.mass1];
  }

  burntMass(): number {
    return this.now[CONTENT.burnt0] + this.now[CONTENT.burnt1];
  }

  energyContent(): number {
    return this.now[CONTENT.energy0] + this.now[CONTENT.energy1];
  }

  /** Decodes the current content at a time; false if it is not physical. */
  decode(time: number): boolean {
    this.refresh(this.now, this.drive.volume(time));
    return this.pressure > 0 && this.temperature[0] > 0 && this.now[CONTENT.mass0] > 0;
  }

  startStage(): void {
    this.rates.fill(0);
    this.transferIn = 0;
    this.exhaustOut = 0;
  }

  /** Books a stream into the volume (negative: out of it): mass [kg/s], energy [W], burnt mass [kg/s]. */
  book(role: StreamRole, mass: number, energy: number, burnt: number): void {
    const rates = this.rates;
    if (mass > 0 && role === 'transfer') {
      const { displacement, shortCircuit } = this.scavenging;
      const fresh = shortCircuit + (1 - shortCircuit) * displacement;
      this.transferIn += mass;
      this.split(fresh, mass, energy, burnt);
    } else if (mass < 0 && role === 'exhaust' && this.fromFresh > 0) {
      this.exhaustOut -= mass;
      const share = this.fromFresh;
      const m1 = share * mass;
      const T1 = this.temperature[1];
      const y1 = this.zoneBurnt(1);
      const e1 = m1 * this.gas.enthalpy(T1, y1);
      rates[CONTENT.mass1] += m1;
      rates[CONTENT.energy1] += e1;
      rates[CONTENT.burnt1] += m1 * y1;
      rates[CONTENT.mass0] += mass - m1;
      rates[CONTENT.energy0] += energy - e1;
      rates[CONTENT.burnt0] += burnt - m1 * y1;
    } else {
      if (role === 'exhaust') this.exhaustOut -= mass;
      rates[CONTENT.mass0] += mass;
      rates[CONTENT.energy0] += energy;
      rates[CONTENT.burnt0] += burnt;
    }
  }

  private split(fresh: number, mass: number, energy: number, burnt: number): void {
    const rates = this.rates;
    rates[CONTENT.mass1] += fresh * mass;
    rates[CONTENT.energy1] += fresh * energy;
    rates[CONTENT.burnt1] += fresh * burnt;
    rates[CONTENT.mass0] += (1 - fresh) * mass;
    rates[CONTENT.energy0] += (1 - fresh) * energy;
    rates[CONTENT.burnt0] += (1 - fresh) * burnt;
  }

  /** Predicts the state half a step on from the first stage's flows. */
  predict(time: number, dt: number): void {
    this.integrate(this.half, time, time + 0.5 * dt);
    this.refresh(this.half, this.drive.volume(time + 0.5 * dt));
  }

  /** Updates over the whole step with the second stage's flows, taken at mid-step. */
  finish(time: number, dt: number): void {
    this.integrate(this.next, time, time + dt);
  }

  accept(): void {
    const { now } = this;
    this.now = this.next;
    this.next = now;
  }

  reject(): void {
    this.accept();
  }

  /** Once a step stands: where zone 0 has all but gone, both zones are one again. */
  settle(): void {
    const c = this.now;
    if (c[CONTENT.mass1] > 0 && c[CONTENT.mass0] < NEARLY_GONE * c[CONTENT.mass1]) this.merge();
  }

  complaint(): string {
    return `volume "${this.name}": pressure ${this.pressure} Pa, temperature ${this.temperature[0]} K, mass ${this.mass()} kg`;
  }

  private zoneBurnt(zone: 0 | 1): number {
    const mass = this.now[3 * zone];
    return mass > 0 ? this.now[3 * zone + 2] / mass : 0;
  }

  private integrate(into: Float64Array, from: number, to: number): void {
    const { now, rates, drive } = this;
    const dt = to - from;
    const p = this.pressure;
    const dV = drive.volume(to) - drive.volume(from);
    const V = drive.volume(from);
    const work = p * dV;
    const density = (now[CONTENT.mass0] + now[CONTENT.mass1]) / V;
    const wall = drive.wallHeat(0.5 * (from + to), p, this.meanTemperature, density) * dt;
    const release = drive.release;
    const share = release ? release.burntShare(to) - release.burntShare(from) : 0;
    const converted = release
      ? Math.min(share * release.freshMass, Math.max(0, now[CONTENT.mass0] - now[CONTENT.burnt0]))
      : 0;
    const released = release ? converted * release.heatPerMass : 0;
    for (let slot = 0; slot < SLOTS; slot++) into[slot] = now[slot] + dt * rates[slot];
    const work1 = this.zoneWork(dt, p, dV);
    const volume1 = this.zoneVolume(1) / V;
    into[CONTENT.energy1] += volume1 * wall - work1;
    into[CONTENT.energy0] += (1 - volume1) * wall - (work - work1) + released;
    into[CONTENT.burnt0] += converted;
    this.work = work;
    this.wallHeat = wall;
    this.heatReleased = released;
  }

  private zoneVolume(zone: 0 | 1): number {
    const mass = this.now[3 * zone];
    return mass > 0 && this.pressure > 0
      ? (mass * this.gas.gasConstant(this.zoneBurnt(zone)) * this.temperature[zone]) / this.pressure
      : 0;
  }

  /** Work of zone 1 over a stage: dV1 = ((gamma1-1) dH1 - V1 dp)/(gamma1 p) under the common dp [J]. */
  private zoneWork(dt: number, p: number, dV: number): number {
    if (this.now[CONTENT.mass1] <= 0) return 0;
    let heatOverGamma = 0;
    let volumeOverGamma = 0;
    let own = 0;
    let ownVolume = 0;
    let ownGamma = 1;
    for (let zone = 0; zone < 2; zone++) {
      const y = this.zoneBurnt(zone as 0 | 1);
      const T = this.temperature[zone];
      const cv = this.gas.heatCapacity(T, y);
      const g = 1 + this.gas.gasConstant(y) / cv;
      const shift = cv * T - this.gas.energy(T, y);
      const heat = (g - 1) * dt * (this.rates[3 * zone + 1] + shift * this.rates[3 * zone]);
      const volume = this.zoneVolume(zone as 0 | 1);
      heatOverGamma += heat / g;
      volumeOverGamma += volume / g;
      if (zone === 1) {
        own = heat;
        ownVolume = volume;
        ownGamma = g;
      }
    }
    const dp = (heatOverGamma - p * dV) / volumeOverGamma;
    return (own - ownVolume * dp) / ownGamma;
  }

  private refresh(content: Float64Array, V: number): void {
    const { gas, temperature } = this;
    const m0 = content[CONTENT.mass0];
    const m1 = content[CONTENT.mass1];
    const y0 = m0 > 0 ? content[CONTENT.burnt0] / m0 : 0;
    const T0 = gas.temperature(content[CONTENT.energy0] / m0, y0, temperature[0] > 0 ? temperature[0] : 300);
    temperature[0] = T0;
    let pV = m0 * gas.gasConstant(y0) * T0;
    let y1 = 0;
    let heat = m0 * T0;
    if (m1 > 1e-9 * m0) {
      y1 = content[CONTENT.burnt1] / m1;
      const guess = temperature[1] > 0 ? temperature[1] : 300;
      temperature[1] = gas.temperature(content[CONTENT.energy1] / m1, y1, guess);
      pV += m1 * gas.gasConstant(y1) * temperature[1];
      heat += m1 * temperature[1];
    } else temperature[1] = T0;
    this.pressure = pV / V;
    this.meanTemperature = heat / (m0 + m1);
    setReservoir(this.inner, gas, this.pressure, T0, y0);
    this.blendExhaust(m0, m1, y0, y1);
  }

  /** State of the stream to the exhaust: zone 0 with the share that crosses. */
  private blendExhaust(m0: number, m1: number, y0: number, y1: number): void {
    const { gas, temperature } = this;
    let share = 0;
    if (m1 > 1e-6 * m0) {
      const crossing = this.scavenging.shortCircuit * this.transferIn;
      if (crossing > 0 && this.exhaustOut > 0) share = Math.min(1, crossing / this.exhaustOut);
    }
    this.fromFresh = share;
    if (share === 0) {
      this.exhaust.set(this.inner);
      return;
    }
    const y = y0 + share * (y1 - y0);
    const h = (1 - share) * gas.enthalpy(temperature[0], y0) + share * gas.enthalpy(temperature[1], y1);
    let T = temperature[0] + share * (temperature[1] - temperature[0]);
    const R = gas.gasConstant(y);
    for (let round = 0; round < 6; round++) T += (h - gas.enthalpy(T, y)) / (gas.heatCapacity(T, y) + R);
    setReservoir(this.exhaust, gas, this.pressure, T, y);
    this.exhaust[RESERVOIR.enthalpy] = h;
  }
}
