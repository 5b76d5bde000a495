/**
 * A volume of gas under one pressure that streams enter and leave:
 *   dm = sum of flows,   dU = sum of m h0 - p dV + heat
 * The work p dV is shared between its two zones as their volumes change under a common pressure; the sum is exact. A plain
 * volume uses zone 0 only; in one with a law of scavenging the sweeping stream is shared between the zones, and the swept
 * stream draws on both. Where that turns zone 1 over within a stage, it is drawn from as it will be, see `easeDraw`.
 */

import { GAS, type GasModel } from '../gas/gas-model.ts';
import {
  blendReservoir,
  completeReservoir,
  newReservoir,
  RESERVOIR,
  type Reservoir,
} from '../gas/reservoir.ts';
import { type Clock, newClock } from '../march/clock.ts';
import type { Release, VolumeDrive } from './drive.ts';
import { FLOW, type Flow, newFlow } from './flow.ts';
import { newSweep, type ScavengingLaw, SWEEP } from './scavenging/law.ts';
import { CONTENT, CONTENT_SLOTS, Zones } from './zones.ts';

/** Zone 1 is drawn from as it is while no more than the first share of it goes in a stage, as it will be from the second on [-]. */
const TURNED_OVER = { from: 0.5, wholly: 1 } as const;
/** Share of what zone 1 holds and gets in a stage that it gives at most, where it is turned over [-]. */
const MOST_DRAWN = 0.9;

/** What a stream does in a volume: nothing of its own, sweeps it as it enters, or is what is swept out. */
export type StreamRole = 'plain' | 'sweeping' | 'swept';

export class Volume extends Zones {
  private readonly law: ScavengingLaw | null;
  private readonly half = new Float64Array(CONTENT_SLOTS);
  /** Flows into the volume this stage, by slot [kg/s, W, kg/s]; the sweeping streams apart until they are shared out. */
  private readonly rates = new Float64Array(CONTENT_SLOTS);
  private readonly sweeping = newFlow();
  /** What the swept streams draw from zone 1, as it is [kg/s, W, kg/s]. */
  private readonly drawn = newFlow();
  private sweptOut = 0;
  private readonly sweep = newSweep();
  /** Share of the volume that zone 1 filled at the start of the step [-]. */
  private filledBefore = 0;
  /** What leaves as swept, and what leaves elsewhere. */
  readonly swept: Reservoir = newReservoir();
  readonly inner: Reservoir = newReservoir();
  /** Last step: work on the shaft, heat from the walls and released [J], gas that was to burn and was missing [kg]. */
  work = 0;
  wallHeat = 0;
  heatReleased = 0;
  unburnt = 0;

  /** A volume without a law of scavenging mixes whatever enters. */
  constructor(name: string, gas: GasModel, drive: VolumeDrive, law: ScavengingLaw | null = null) {
    super(name, gas, drive);
    this.law = law;
  }

  /** Fills the volume with one gas at a time [s]: pressure [Pa], temperature [K], burnt fraction [-]. */
  fill(time: number, pressure: number, temperature: number, burnt: number): void {
    const mass = (pressure * this.volumeAt(time)) / (this.gas.gasConstant(burnt) * temperature);
    this.now.fill(0);
    this.now[CONTENT.mass0] = mass;
    this.now[CONTENT.energy0] = mass * this.gas.energy(temperature, burnt);
    this.now[CONTENT.burnt0] = mass * burnt;
    this.temperature.fill(temperature);
    this.decode(newClock(time));
  }

  /** Copies a content, as of a time [s]. */
  restore(time: number, content: ArrayLike<number>): void {
    this.now.set(content);
    this.decode(newClock(time));
  }

  override merge(): void {
    super.merge();
    this.swept[RESERVOIR.admixed] = 0;
  }

  /** Decodes the current content at the clock's time; false if it is not physical. */
  decode(clock: Clock): boolean {
    this.startStep(clock);
    this.refresh(this.now);
    this.filledBefore = this.filled;
    return this.pressure > 0 && this.temperature[0] > 0 && this.now[CONTENT.mass0] > 0;
  }

  protected clearStreams(): void {
    // Loops: to fill so few slots by a call takes longer.
    const { rates, sweeping, drawn } = this;
    for (let slot = 0; slot < CONTENT_SLOTS; slot++) rates[slot] = 0;
    for (let slot = 0; slot < 3; slot++) {
      sweeping[slot] = 0;
      drawn[slot] = 0;
    }
    this.sweptOut = 0;
  }

  /** Books a stream into the volume, or with sign -1 one out of it. */
  book(role: StreamRole, flow: Flow, sign: 1 | -1): void {
    const { rates, sweeping } = this;
    const mass = sign * flow[FLOW.mass];
    if (role === 'swept') this.sweptOut -= mass;
    if (mass > 0 && role === 'sweeping')
      for (let slot = 0; slot < 3; slot++) sweeping[slot] += sign * flow[slot];
    else if (mass < 0 && role === 'swept' && this.swept[RESERVOIR.admixed] > 0) this.drawBoth(flow, sign);
    else {
      rates[CONTENT.mass0] += mass;
      rates[CONTENT.energy0] += sign * flow[FLOW.energy];
      rates[CONTENT.burnt0] += sign * flow[FLOW.burnt];
    }
  }

  /** The swept stream where it draws on both zones. */
  private drawBoth(flow: Flow, sign: 1 | -1): void {
    const { rates, drawn, point } = this;
    const mass = sign * flow[FLOW.mass];
    const m1 = this.swept[RESERVOIR.admixed] * mass;
    this.fillZone(1);
    const e1 = m1 * point[GAS.enthalpy];
    const b1 = m1 * point[GAS.burnt];
    rates[CONTENT.mass1] += m1;
    rates[CONTENT.energy1] += e1;
    rates[CONTENT.burnt1] += b1;
    drawn[FLOW.mass] -= m1;
    drawn[FLOW.energy] -= e1;
    drawn[FLOW.burnt] -= b1;
    rates[CONTENT.mass0] += mass - m1;
    rates[CONTENT.energy0] += sign * flow[FLOW.energy] - e1;
    rates[CONTENT.burnt0] += sign * flow[FLOW.burnt] - b1;
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

  private integrate(into: Float64Array): void {
    const { now, rates, span: dt, spanHeat: wall, volume: V } = this;
    const { release } = this.drive;
    if (this.sweeping[FLOW.mass] > 0) this.shareSweeping();
    if (this.drawn[FLOW.mass] * dt > TURNED_OVER.from * now[CONTENT.mass1]) this.easeDraw();
    const work = this.pressure * (this.endVolume - V);
    for (let slot = 0; slot < CONTENT_SLOTS; slot++) into[slot] = now[slot] + dt * rates[slot];
    if (release !== null) this.burn(into, release);
    this.ownVolume = 0;
    this.ownWork = 0;
    if (now[CONTENT.mass1] > 0 || rates[CONTENT.mass1] > 0) this.shareWork(rates);
    const share = this.ownVolume / V;
    into[CONTENT.energy1] += share * wall - this.ownWork;
    into[CONTENT.energy0] += (1 - share) * wall - (work - this.ownWork) + this.heatReleased;
    this.work = work;
    this.wallHeat = wall;
  }

  /** Shares the sweeping streams of the stage between the zones. */
  private shareSweeping(): void {
    const { law, rates, sweep, sweeping } = this;
    this.fillSweep();
    sweep[SWEEP.filled] = this.filledBefore;
    law?.fillEntering(sweep);
    const unmixed = law === null ? 0 : sweep[SWEEP.toSecond];
    for (let slot = 0; slot < 3; slot++) {
      const amount = sweeping[slot];
      rates[slot + 3] += unmixed * amount;
      rates[slot] += (1 - unmixed) * amount;
    }
  }

  /**
   * A zone 1 of which the stage would draw as much as it holds is stiff: its gas is then that which comes in, and the share that
   * the law gave, with the flows of the stage before, may take more than there is. So it gives the mixture of what it holds and
   * what comes in over the stage, M = m + dt m_in, and not all of it; zone 0 gives the rest. The sums stand.
   */
  private easeDraw(): void {
    const { now, rates, drawn, span: dt } = this;
    const wanted = dt * drawn[FLOW.mass];
    const m1 = now[CONTENT.mass1];
    // What zone 1 has without the draw, as far as mass goes; `rates` holds the draw already.
    const has = m1 + dt * rates[CONTENT.mass1] + wanted;
    const { from, wholly } = TURNED_OVER;
    const ease = Math.min(1, (wanted / m1 - from) / (wholly - from));
    const gives = Math.min(wanted, MOST_DRAWN * has);
    this.fillZone(1);
    const held = m1 * this.point[GAS.enthalpy];
    for (let slot = 0; slot < 3; slot++) {
      const taken = dt * drawn[slot];
      const before = slot === FLOW.energy ? held : now[slot + 3];
      const mixture = (before + dt * rates[slot + 3] + taken) / has;
      const back = (ease * (taken - gives * mixture)) / dt;
      rates[slot + 3] += back;
      rates[slot] -= back;
    }
  }

  /** Fills what a law is asked of the streams. What enters is counted as dense as zone 1, if there is any, else as the whole. */
  private fillSweep(): void {
    const { now, sweep, sweeping, filledBefore } = this;
    const m1 = now[CONTENT.mass1];
    const perVolume = filledBefore > 0 ? filledBefore / m1 : 1 / (now[CONTENT.mass0] + m1);
    sweep[SWEEP.entering] = sweeping[FLOW.mass];
    sweep[SWEEP.leaving] = this.sweptOut;
    sweep[SWEEP.turnover] = sweeping[FLOW.mass] * this.span * perVolume;
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

  /** Decodes a content that fills the volume at the end of the span: temperatures, pressure, and the streams that leave. */
  private refresh(content: Float64Array): void {
    const { gas, inner, temperature } = this;
    const m0 = content[CONTENT.mass0];
    this.solve(content);
    inner[RESERVOIR.pressure] = this.pressure;
    inner[RESERVOIR.temperature] = temperature[0];
    inner[RESERVOIR.burnt] = m0 > 0 ? content[CONTENT.burnt0] / m0 : 0;
    completeReservoir(inner, gas);
    this.swept.set(inner);
    if (this.law !== null && content[CONTENT.mass1] > 1e-6 * m0) this.blendSwept(this.law);
  }

  /** Mixes into the swept stream what the law has it draw from zone 1, the gas last solved. */
  private blendSwept(law: ScavengingLaw): void {
    const { swept, sweep } = this;
    this.fillSweep();
    sweep[SWEEP.filled] = this.filled;
    law.fillLeaving(sweep);
    const share = sweep[SWEEP.fromSecond];
    if (!(share > 0)) return;
    swept[RESERVOIR.admixed] = share;
    blendReservoir(swept, this.gas, this.solved);
  }
}
