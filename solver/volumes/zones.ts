/**
 * The gas of a volume in up to two zones of their own temperature and composition, under one pressure:
 *   p = (m0 R0 T0 + m1 R1 T1)/V
 * Zone 0 holds what was there (and mixes), zone 1 what came in and did not. Contents come in pairs (`now`, `next`), so that a
 * rejected step loses nothing.
 */

import { GAS, type GasModel, newGasPoint } from '../gas/gas-model.ts';
import type { VolumeDrive } from './drive.ts';
import { Driven } from './driven.ts';

/** Slots of a content array: mass, energy, burnt mass of zone 0, then of zone 1 [kg, J, kg]. */
export const CONTENT = { mass0: 0, energy0: 1, burnt0: 2, mass1: 3, energy1: 4, burnt1: 5 } as const;
export const CONTENT_SLOTS = 6;
/** Zone 0 is given up once its mass is this share of zone 1's [-]. */
const NEARLY_GONE = 0.01;

export abstract class Zones extends Driven {
  readonly name: string;
  readonly gas: GasModel;
  now = new Float64Array(CONTENT_SLOTS);
  next = new Float64Array(CONTENT_SLOTS);
  /** Temperature of either zone [K]. */
  readonly temperature = new Float64Array(2);
  /** Share of the volume that zone 1 fills, as last decoded [-]. */
  protected filled = 0;
  /** Some gas at hand, and the gas last decoded. */
  protected readonly point = newGasPoint();
  protected readonly solved = newGasPoint();
  /** Volume of zone 1 [m3], and its work over a stage [J]. */
  protected ownVolume = 0;
  protected ownWork = 0;

  constructor(name: string, gas: GasModel, drive: VolumeDrive) {
    super(drive);
    this.name = name;
    this.gas = gas;
  }

  /** Mixes both zones into one. */
  merge(): void {
    const c = this.now;
    for (let slot = 0; slot < 3; slot++) {
      c[slot] += c[slot + 3];
      c[slot + 3] = 0;
    }
  }

  /** Gas mass in the volume [kg]. */
  mass(): number {
    return this.now[CONTENT.mass0] + this.now[CONTENT.mass1];
  }

  /** Burnt mass in the volume [kg]. */
  burntMass(): number {
    return this.now[CONTENT.burnt0] + this.now[CONTENT.burnt1];
  }

  /** Internal energy in the volume [J]. */
  energyContent(): number {
    return this.now[CONTENT.energy0] + this.now[CONTENT.energy1];
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

  /** Says in what state the volume is, for an error message. */
  complaint(): string {
    return `volume "${this.name}": pressure ${this.pressure} Pa, temperature ${this.temperature[0]} K, mass ${this.mass()} kg`;
  }

  /** Decodes a content that fills the volume at the end of the span: temperatures and pressure. */
  protected solve(content: Float64Array): void {
    const { gas, temperature, solved } = this;
    const m0 = content[CONTENT.mass0];
    const m1 = content[CONTENT.mass1];
    solved[GAS.burnt] = m0 > 0 ? content[CONTENT.burnt0] / m0 : 0;
    solved[GAS.energy] = content[CONTENT.energy0] / m0;
    solved[GAS.temperature] = temperature[0] > 0 ? temperature[0] : 300;
    gas.solvePoint(solved);
    const T0 = solved[GAS.temperature];
    let pV = m0 * solved[GAS.gasConstant] * T0;
    let heat = m0 * T0;
    temperature[0] = T0;
    this.filled = 0;
    if (m1 > 1e-9 * m0) {
      solved[GAS.burnt] = content[CONTENT.burnt1] / m1;
      solved[GAS.energy] = content[CONTENT.energy1] / m1;
      solved[GAS.temperature] = temperature[1] > 0 ? temperature[1] : 300;
      gas.solvePoint(solved);
      const T1 = solved[GAS.temperature];
      const pV1 = m1 * solved[GAS.gasConstant] * T1;
      pV += pV1;
      heat += m1 * T1;
      temperature[1] = T1;
      this.filled = pV1 / pV;
    } else temperature[1] = T0;
    this.pressure = pV / this.endVolume;
    this.meanTemperature = heat / (m0 + m1);
  }

  /** Fills `point` with the gas of a zone as of the start of the step, at its present temperature. */
  protected fillZone(which: number): void {
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

  /**
   * Volume of zone 1, and its work over the span, from the flows into both zones: dV1 = ((gamma1-1) dH1 - V1 dp)/(gamma1 p)
   * under the common dp.
   */
  protected shareWork(rates: Float64Array): void {
    const { point, span: dt } = this;
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
}
