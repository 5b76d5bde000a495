/**
 * Ducts, volumes and links marched together. One step:
 *   1. decode every duct and volume; dt from the fastest characteristic (Courant number) and the caller's limit,
 *   2. ducts trace their characteristics over dt; the ends know what arrives,
 *   3. links with a volume answer with the volumes as they are; volumes predict their state at mid-step,
 *   4. all links answer with the volumes and openings at mid-step: second order in time,
 *   5. ducts and volumes update by these flows. A state that is not physical is rejected and the step taken again at
 *      half dt, first order in the cells that failed and around them.
 */

import type { MarchingDuct } from '../duct/duct.ts';
import { CLOCK, type Clock, newClock } from '../march/clock.ts';
import { BOOKED, Ledger } from '../march/ledger.ts';
import { unconverged } from '../march/unconverged.ts';
import { FLOW } from '../volumes/flow.ts';
import type { Volume } from '../volumes/volume.ts';
import { AxialMixing } from './axial-mixing.ts';
import { advanceLink, answer, flowOut, hasVolume, type Link } from './link.ts';

/** Steps between two refreshes of the loss coefficients; twice as many move the peak of the demo by 0.15 degrees. */
const LOSS_INTERVAL = 8;
/**
 * Steps over which axial mixing is gathered before it is done: so many that a wave runs this far meanwhile [m], but no fewer than on
 * coarse cells are done, and no more than makes the delay shrink with the mesh.
 */
const MIXING_REACH = 0.08;
const MIXING_STEPS = { fewest: 8, most: 16 } as const;
/** The first steps are short: the fastest wave of a sudden start is not yet in the mesh. */
const SOFT_START = 5;
const SMALLEST_SHARE = 1 / 1024;

/** A step could not be taken: says where and in what state. */
export class MarchFailure extends Error {
  override readonly name = 'MarchFailure';
}

export class Network {
  readonly ducts: readonly MarchingDuct[];
  readonly volumes: readonly Volume[];
  readonly links: readonly Link[];
  /** Links with a volume, whose flows predict its state at mid-step; the others would answer both stages alike. */
  private readonly coupled: readonly Link[];
  readonly courant: number;
  readonly clock: Clock = newClock();
  readonly ledger = new Ledger();
  private steps = 0;
  private decoded = false;
  private stable = 0;
  private readonly mixing: AxialMixing | null;
  private readonly mixingInterval: number;
  /** Time since gas was last mixed along the ducts, and the time to mix over [s]. */
  private readonly unmixed = new Float64Array(2);

  /**
   * @param courant largest step over the stable one, in (0, 1] [-]
   * @param mixing factor on the axial mixing of turbulent streams, 0 for none [-]
   */
  constructor(
    ducts: readonly MarchingDuct[],
    volumes: readonly Volume[],
    links: readonly Link[],
    courant: number,
    mixing = 0,
  ) {
    if (!(mixing >= 0 && Number.isFinite(mixing)))
      throw new RangeError(`the factor on axial mixing must be 0 or more, not ${mixing}`);
    if (!(courant > 0 && courant <= 1))
      throw new RangeError(`the Courant number must lie in (0, 1], not ${courant}`);
    this.ducts = ducts;
    this.volumes = volumes;
    this.links = links;
    this.coupled = links.filter(hasVolume);
    this.courant = courant;
    this.mixing = mixing > 0 ? new AxialMixing(ducts, links, mixing) : null;
    const longest = Math.max(...ducts.map(({ geometry }) => geometry.dx));
    const steps = Math.round(MIXING_REACH / longest);
    this.mixingInterval = Math.min(MIXING_STEPS.most, Math.max(MIXING_STEPS.fewest, steps));
  }

  /** Time that the present state stands at [s]. */
  get time(): number {
    return this.clock[CLOCK.time];
  }

  set time(time: number) {
    this.clock[CLOCK.time] = time;
  }

  /** Says that a state was set from outside, so that it is decoded afresh. */
  touch(): void {
    this.decoded = false;
  }

  /** Marches one step of at most `limit` [s]; returns the step taken [s]. @throws MarchFailure */
  step(limit: number): number {
    this.clock[CLOCK.limit] = limit;
    this.advance();
    return this.clock[CLOCK.dt];
  }

  /** Marches one step within the clock's limit and leaves its length there. No number is handed over. @throws MarchFailure */
  advance(): void {
    if (!this.decoded && !this.decode()) throw new MarchFailure(this.complaint());
    if (this.steps % LOSS_INTERVAL === 0) for (const duct of this.ducts) duct.refreshLosses();
    const soft = this.steps < SOFT_START ? (this.steps + 1) / (SOFT_START + 1) : 1;
    let dt = Math.min(this.clock[CLOCK.limit], this.courant * soft * this.stable);
    const least = dt * SMALLEST_SHARE;
    let tries = 0;
    for (;;) {
      this.clock[CLOCK.dt] = dt;
      this.attempt();
      if (this.decode()) break;
      const why = this.complaint();
      for (const duct of this.ducts) {
        duct.soothe?.();
        duct.reject();
      }
      for (const volume of this.volumes) volume.reject();
      this.time -= dt;
      if (!this.decode())
        throw new MarchFailure(`the state before the step cannot be read: ${this.complaint()}`);
      this.ledger.sums[BOOKED.rejected]++;
      dt *= 0.5;
      tries++;
      if (dt < least)
        throw new MarchFailure(`t = ${this.time.toPrecision(6)} s: no step is small enough; ${why}`);
    }
    if (tries > 0) for (const duct of this.ducts) duct.ease?.();
    this.book();
    this.steps++;
  }

  /** Marches to a time [s]. */
  marchTo(time: number): void {
    while (time - this.time > 1e-14 * Math.max(1, time)) this.step(time - this.time);
  }

  /** Gas mass in all ducts and volumes [kg]. */
  mass(): number {
    let sum = 0;
    for (const duct of this.ducts) sum += duct.mass();
    for (const volume of this.volumes) sum += volume.mass();
    return sum;
  }

  burntMass(): number {
    let sum = 0;
    for (const duct of this.ducts) sum += duct.burntMass();
    for (const volume of this.volumes) sum += volume.burntMass();
    return sum;
  }

  /** Internal and kinetic energy in all ducts and volumes [J]. */
  energyContent(): number {
    let sum = 0;
    for (const duct of this.ducts) sum += duct.energyContent();
    for (const volume of this.volumes) sum += volume.energyContent();
    return sum;
  }

  private decode(): boolean {
    let stable = Number.POSITIVE_INFINITY;
    let sound = true;
    for (const duct of this.ducts) {
      const most = duct.decode();
      if (!(most > 0)) sound = false;
      else if (most < stable) stable = most;
    }
    for (const volume of this.volumes) if (!volume.decode(this.clock)) sound = false;
    this.stable = stable;
    this.decoded = sound;
    return sound;
  }

  /** Takes the step of the clock; the new state is current, but not yet decoded. */
  private attempt(): void {
    const { ducts, volumes, clock } = this;
    const dt = clock[CLOCK.dt];
    unconverged[0] = 0;
    for (const duct of ducts) duct.arrive(clock);
    if (volumes.length > 0) {
      clock[CLOCK.stage] = clock[CLOCK.time];
      clock[CLOCK.span] = 0.5 * dt;
      this.answerLinks(this.coupled);
      for (const volume of volumes) volume.predict();
    }
    clock[CLOCK.stage] = clock[CLOCK.time] + 0.5 * dt;
    clock[CLOCK.span] = dt;
    this.answerLinks(this.links);
    const mixing = this.mixes(dt) ? this.mixing : null;
    if (mixing !== null) {
      this.unmixed[1] = this.unmixed[0] + dt;
      mixing.prepare(this.unmixed);
    }
    this.wallHeat = 0;
    for (const duct of ducts) {
      this.wallHeat += duct.finish(clock);
      duct.accept();
    }
    mixing?.apply();
    for (const volume of volumes) {
      volume.finish();
      volume.accept();
    }
    clock[CLOCK.time] += dt;
  }

  /** Whether gas is mixed in this step: every few steps, and as the time is reached that was asked for. */
  private mixes(dt: number): boolean {
    const every = this.mixingInterval;
    return this.steps % every === every - 1 || dt >= this.clock[CLOCK.limit];
  }

  /** One stage: volumes ask their drives, links answer and book their streams. */
  private answerLinks(links: readonly Link[]): void {
    const { volumes, clock } = this;
    for (const volume of volumes) volume.startStage(clock);
    for (const link of links) answer(link, clock);
  }

  private wallHeat = 0;

  private book(): void {
    const { clock, unmixed } = this;
    const { sums } = this.ledger;
    const dt = clock[CLOCK.dt];
    unmixed[0] = this.mixes(dt) ? 0 : unmixed[0] + dt;
    for (const link of this.links) {
      advanceLink(link, clock);
      const out = flowOut(link);
      if (out === null) continue;
      sums[BOOKED.massIn] -= out[FLOW.mass] * dt;
      sums[BOOKED.energyIn] -= out[FLOW.energy] * dt;
      sums[BOOKED.burntIn] -= out[FLOW.burnt] * dt;
    }
    for (const volume of this.volumes) {
      volume.settle();
      sums[BOOKED.work] += volume.work;
      sums[BOOKED.volumeHeat] += volume.wallHeat;
      sums[BOOKED.released] += volume.heatReleased;
      sums[BOOKED.unburnt] += volume.unburnt;
    }
    sums[BOOKED.ductHeat] += this.wallHeat;
    sums[BOOKED.unconverged] += unconverged[0];
    sums[BOOKED.steps]++;
  }

  private complaint(): string {
    for (const duct of this.ducts) if (!(duct.decode() > 0)) return duct.complaint();
    for (const volume of this.volumes) if (!volume.decode(this.clock)) return volume.complaint();
    return 'no complaint';
  }
}
