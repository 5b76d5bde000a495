/**
 * A volume of gas under one pressure, in up to two zones of their own temperature and composition:
 *   zone 0, what was there (and mixes), zone 1, fresh charge that displaces it. A plain volume uses zone 0 only.
 *   dm = sum of flows,   dU = sum of m h0 - p dV + heat,   p = (m0 R0 T0 + m1 R1 T1)/V
 * The work p dV is shared between the zones as their volumes change under a common pressure; the sum is exact.
 *
 * Scavenging: of the stream from the transfers a share sigma crosses to the exhaust, of the
 * rest a share d displaces without mixing and 1-d mixes with zone 0. With s = (1-sigma) SR this gives, at constant
 * temperature, SE = 1 - (1 - d s)^(1/d): perfect mixing for d -> 0, perfect displacement for d = 1 (derived here).
 */

import { GAS, type GasModel, newGasPoint } from '../gas/gas-model.ts';
import {
  blendReservoir,
  completeReservoir,
  newReservoir,
  RESERVOIR,
  type Reservoir,
} from '../gas/reservoir.ts';
import { type Clock, newClock } from '../march/clock.ts';
import type { Release, VolumeDrive } from './drive.ts';
import { Driven } from './driven.ts';
import type { Flow } from './flow.ts';

/** Slots of a content array: mass, energy, burnt mass of zone 0, then of zone 1 [kg, J, kg]. */
export const CONTENT = { mass0: 0, energy0: 1, burnt0: 2, mass1: 3, energy1: 4, burnt1: 5 } as const;
const SLOTS = 6;
/** Zone 0 is given up once its mass is this share of zone 1's [-]. */
const NEARLY_GONE = 0.01;

/** Where a stream enters or leaves: any port, the exhaust, or the transfers. */
export type StreamRole = 'plain' | 'exhaust' | 'transfer';

export class Volume extends Driven {
  readonly name: string;
  readonly gas: GasModel;
  now = new Float64Array(SLOTS);
  next = new Float64Array(SLOTS);
  private readonly half = new Float64Array(SLOTS);
  /** Some gas at hand, and the gas last decoded. */
  private readonly point = newGasPoint();
  private readonly solved = newGasPoint();
  /** Flows into the volume this stage, by slot [kg/s, W, kg/s]. */
  private readonly rates = new Float64Array(SLOTS);
  /** What leaves through the exhaust, and what leaves elsewhere. */
  readonly exhaust: Reservoir = newReservoir();
  readonly inner: Reservoir = newReservoir();
  readonly temperature = new Float64Array(2);
  /** Shares of the stream from the transfers; own fields, for a number read from objects of two shapes would be boxed [-]. */
  private readonly displacement: number;
  private readonly shortCircuit: number;
  private transferIn = 0;
  private exhaustOut = 0;
  /** Volume of zone 1 [m3], and its work over a stage [J]. */
  private ownVolume = 0;
  private ownWork = 0;
  /** Last step: work on the shaft, heat from the walls and released [J], gas that was to burn and was missing [kg]. */
  work = 0;
  wallHeat = 0;
  heatReleased = 0;
  unburnt = 0;

  constructor(
    name: string,
    gas: GasModel,
    drive: VolumeDrive,
    scavenging: { readonly displacement: number; readonly shortCircuit: number } = {
      displacement: 0,
      shortCircuit: 0,
    },
  ) {
    super(drive);
    this.name = name;
    this.gas = gas;
    this.displacement = scavenging.displacement;
    this.shortCircuit = scavenging.shortCircuit;
  }

  /** Fills the volume with one gas at a time [s]. */
  fill(time: number, pressure: number, temperature: number, burnt: number): void {
    const mass = (pressure * this.volumeAt(time)) / (this.gas.gasConstant(burnt) * temperature);
    this.now.fill(0);
    this.now[CONTENT.mass0] = mass;
    this.now[CONTENT.energy0] = mass * this.gas.energy(temperature, burnt);
    this.now[CONTENT.burnt0] = mass * burnt;
    this.temperature.fill(temperature);
    this.decode(newClock(time));
  }

  /** Copies a content, as of a time. */
  restore(time: number, content: ArrayLike<number>): void {
    this.now.set(content);
    this.decode(newClock(time));
  }

  /** Mixes both zones into one. */
  merge(): void {
    const c = this.now;
    for (let slot = 0; slot < 3; slot++) {
      c[slot] += c[slot + 3];
      c[slot + 3] = 0;
    }
    this.exhaust[RESERVOIR.admixed] = 0;
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

  /** Decodes the current content at the clock's time; false if it is not physical. */
  decode(clock: Clock): boolean {
    this.startStep(clock);
    this.refresh(this.now);
    return this.pressure > 0 && this.temperature[0] > 0 && this.now[CONTENT.mass0] > 0;
  }

  protected clearStreams(): void {
    this.rates.fill(0);
    this.transferIn = 0;
    this.exhaustOut = 0;
  }

  /** Books a stream into the volume, or with sign -1 one out of it. */
  book(role: StreamRole, flow: Flow, sign: 1 | -1): void {
    const { rates } = this;
    const mass = sign * flow[0];
    if (role === 'exhaust') this.exhaustOut -= mass;
    if (mass > 0 && role === 'transfer') this.split(flow, sign);
    else if (mass < 0 && role === 'exhaust' && this.exhaust[RESERVOIR.admixed] > 0) this.drawBoth(flow, sign);
    else {
      rates[CONTENT.mass0] += mass;
      rates[CONTENT.energy0] += sign * flow[1];
      rates[CONTENT.burnt0] += sign * flow[2];
    }
  }

  /** A stream in from the transfers: what displaces or crosses goes to zone 1, what mixes to zone 0. */
  private split(flow: Flow, sign: 1 | -1): void {
    const { displacement, shortCircuit } = this;
    const fresh = shortCircuit + (1 - shortCircuit) * displacement;
    this.transferIn += sign * flow[0];
    for (let slot = 0; slot < 3; slot++) {
      const amount = sign * flow[slot];
      this.rates[slot + 3] += fresh * amount;
      this.rates[slot] += (1 - fresh) * amount;
    }
  }

  /** A stream out to the exhaust that draws on both zones. */
  private drawBoth(flow: Flow, sign: 1 | -1): void {
    const { rates, point } = this;
    const mass = sign * flow[0];
    const m1 = this.exhaust[RESERVOIR.admixed] * mass;
    this.fillZone(1);
    const e1 = m1 * point[GAS.enthalpy];
    const b1 = m1 * point[GAS.burnt];
    rates[CONTENT.mass1] += m1;
    rates[CONTENT.energy1] += e1;
    rates[CONTENT.burnt1] += b1;
    rates[CONTENT.mass0] += mass - m1;
    rates[CONTENT.energy0] += sign * flow[1] - e1;
    rates[CONTENT.burnt0] += sign * flow[2] - b1;
  }

  /** Predicts the state half a step on from the first stage's flows. */
  predict(): void {
    this.integrate(this.half);
    this.refresh(this.half);
  }

  /** Updates over the whole step with the second stage's flows, taken at mid-step. */
  finish(): void {
    this.integrate(this.next);
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

  /** Fills `point` with the gas of a zone as of the start of the step, at its present temperature. */
  private fillZone(which: number): void {
    const { now, point } = this;
    const mass = now[3 * which];
    point[GAS.temperature] = this.temperature[which];
    point[GAS.burnt] = mass > 0 ? now[3 * which + 2] / mass : 0;
    this.gas.fillPoint(point);
  }

  /** Volume that this gas takes up under the present pressure [m3]. */
  private zoneVolume(which: number): number {
    const { point } = this;
    const mass = this.now[3 * which];
    return mass > 0 && this.pressure > 0
      ? (mass * point[GAS.gasConstant] * point[GAS.temperature]) / this.pressure
      : 0;
  }

  private integrate(into: Float64Array): void {
    const { now, rates, span: dt, spanHeat: wall, volume: V } = this;
    const { release } = this.drive;
    const work = this.pressure * (this.endVolume - V);
    for (let slot = 0; slot < SLOTS; slot++) into[slot] = now[slot] + dt * rates[slot];
    if (release !== null) this.burn(into, release);
    this.ownVolume = 0;
    this.ownWork = 0;
    if (now[CONTENT.mass1] > 0) this.shareWork();
    const share = this.ownVolume / V;
    into[CONTENT.energy1] += share * wall - this.ownWork;
    into[CONTENT.energy0] += (1 - share) * wall - (work - this.ownWork) + this.heatReleased;
    this.work = work;
    this.wallHeat = wall;
  }

  /** Burns the charge's share of the stage, as far as zone 0 holds fresh gas, and notes the heat and what was missing. */
  private burn(into: Float64Array, release: Release): void {
    const fresh = Math.max(0, this.now[CONTENT.mass0] - this.now[CONTENT.burnt0]);
    const asked = this.burning * release.freshMass;
    const converted = asked < fresh ? asked : fresh;
    into[CONTENT.burnt0] += converted;
    this.unburnt = asked - converted;
    this.heatReleased = converted * release.heatPerMass;
  }

  /** Volume of zone 1, and its work over the span: dV1 = ((gamma1-1) dH1 - V1 dp)/(gamma1 p) under the common dp. */
  private shareWork(): void {
    const { point, rates, span: dt } = this;
    let heatOverGamma = 0;
    let volumeOverGamma = 0;
    let own = 0;
    let ownVolume = 0;
    let ownGamma = 1;
    for (let which = 0; which < 2; which++) {
      this.fillZone(which);
      const cv = point[GAS.heatCapacity];
      const g = 1 + point[GAS.gasConstant] / cv;
      const shift = cv * point[GAS.temperature] - point[GAS.energy];
      const heat = (g - 1) * dt * (rates[3 * which + 1] + shift * rates[3 * which]);
      const volume = this.zoneVolume(which);
      heatOverGamma += heat / g;
      volumeOverGamma += volume / g;
      if (which === 1) {
        own = heat;
        ownVolume = volume;
        ownGamma = g;
      }
    }
    const dp = (heatOverGamma - this.pressure * (this.endVolume - this.volume)) / volumeOverGamma;
    this.ownVolume = ownVolume;
    this.ownWork = (own - ownVolume * dp) / ownGamma;
  }

  /** Decodes a content that fills the volume at the end of the span: temperatures, pressure, and the streams that leave. */
  private refresh(content: Float64Array): void {
    const { gas, temperature, solved, inner } = this;
    const m0 = content[CONTENT.mass0];
    const m1 = content[CONTENT.mass1];
    const y0 = m0 > 0 ? content[CONTENT.burnt0] / m0 : 0;
    solved[GAS.burnt] = y0;
    solved[GAS.energy] = content[CONTENT.energy0] / m0;
    solved[GAS.temperature] = temperature[0] > 0 ? temperature[0] : 300;
    gas.solvePoint(solved);
    const T0 = solved[GAS.temperature];
    let pV = m0 * solved[GAS.gasConstant] * T0;
    let heat = m0 * T0;
    temperature[0] = T0;
    if (m1 > 1e-9 * m0) {
      solved[GAS.burnt] = content[CONTENT.burnt1] / m1;
      solved[GAS.energy] = content[CONTENT.energy1] / m1;
      solved[GAS.temperature] = temperature[1] > 0 ? temperature[1] : 300;
      gas.solvePoint(solved);
      const T1 = solved[GAS.temperature];
      pV += m1 * solved[GAS.gasConstant] * T1;
      heat += m1 * T1;
      temperature[1] = T1;
    } else temperature[1] = T0;
    this.pressure = pV / this.endVolume;
    this.meanTemperature = heat / (m0 + m1);
    inner[RESERVOIR.pressure] = this.pressure;
    inner[RESERVOIR.temperature] = T0;
    inner[RESERVOIR.burnt] = y0;
    completeReservoir(inner, gas);
    this.blendExhaust(content);
  }

  /** State of the stream to the exhaust: zone 0 with the share that crosses. */
  private blendExhaust(content: Float64Array): void {
    const { exhaust, exhaustOut } = this;
    const crossing = this.shortCircuit * this.transferIn;
    exhaust.set(this.inner);
    const both = content[CONTENT.mass1] > 1e-6 * content[CONTENT.mass0] && crossing > 0 && exhaustOut > 0;
    if (!both) return;
    exhaust[RESERVOIR.admixed] = Math.min(1, crossing / exhaustOut);
    blendReservoir(exhaust, this.gas, this.solved);
  }
}
