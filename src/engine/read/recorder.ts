/**
 * What is seen of one cycle, step by step: the port face, the volumes, the streams, and the pressure and characteristic
 * speeds over the pipe at every degree. Buffers are kept from cycle to cycle and grow only when a cycle has more steps.
 * Port values belong to the middle of a step (that is where the boundary answers), volumes to its end.
 */

import { ANSWER, ARRIVE, type CellFields, CLOCK, type Clock, FLOW } from '../../../solver/index.ts';
import type { EngineNetwork } from '../build.ts';

/** Channels of a step. */
export const CHANNEL = {
  midDeg: 0,
  portPressure: 1,
  portVelocity: 2,
  portSound: 3,
  portGamma: 4,
  exhaustFlow: 5,
  transferFlow: 6,
  transferBurnt: 7,
  endDeg: 8,
  cylinderPressure: 9,
  crankcasePressure: 10,
  mach: 11,
  exhaustBurnt: 12,
  cylinderMass: 13,
  cylinderBurnt: 14,
} as const;
const CHANNELS = 15;

/** Crank degrees between two stored fields. */
export const FIELD_STEP_DEG = 1;
const FIELDS = 361;

/** Where the cycle began, where it stands, and until when sums over time were taken; an array, so that none is boxed. */
const TURN = { startDeg: 0, nowDeg: 1, summedTo: 2 } as const;

/** Values over crank angle, by rows, and position; plain, for a library's arrays make code from text, which a page forbids. */
export interface Field {
  readonly rows: number;
  readonly cells: number;
  /** Value of a cell in a row at `row * cells + cell`. */
  readonly data: Float64Array;
}

function newField(cells: number): Field {
  return { rows: FIELDS, cells, data: new Float64Array(FIELDS * cells) };
}

export class CycleRecorder {
  steps = 0;
  channels: Float64Array[];
  /** Fields over all exhaust cells at each degree from exhaust opening: pressure, velocity, speed of sound. */
  readonly pressure: Field;
  readonly velocity: Field;
  readonly sound: Field;
  /** Positions of the cells from the port face [m]. */
  readonly positions: Float64Array;
  /** Sums over time of temperature and of coefficient-weighted values, per cell. */
  readonly temperatureTime: Float64Array;
  readonly fluxTemperature: Float64Array;
  readonly flux: Float64Array;
  readonly heatTime: Float64Array;
  readonly heatTemperature: Float64Array;
  private readonly engine: EngineNetwork;
  private readonly passageEnd: number;
  /** Fields of the exhaust ducts, the same arrays from step to step, and their numbers of cells. */
  private readonly fields: readonly CellFields[];
  private readonly cellCounts: readonly number[];
  /** The cells' part of these arrays. */
  private readonly views: readonly Pick<CellFields, 'p' | 'u' | 'a'>[];
  /** Crank angles counted over all turns [deg], and time [s]: see `TURN`. */
  private readonly turn = new Float64Array(3);
  private nextField = 0;
  private capacity = 4096;

  constructor(engine: EngineNetwork) {
    this.engine = engine;
    this.cellCounts = engine.exhaust.pieces.map((e) => e.duct.geometry.cells);
    this.fields = engine.exhaust.pieces.map(({ duct }) => duct.fields());
    this.views = this.fields.map(({ p, u, a, offset }, d) => {
      const inner = (row: Float64Array): Float64Array => row.subarray(offset, offset + this.cellCounts[d]!);
      return { p: inner(p), u: inner(u), a: inner(a) };
    });
    const total = engine.exhaust.pieces.reduce((sum, e) => sum + e.duct.geometry.cells, 0);
    const cells = (): Float64Array => new Float64Array(total);
    this.positions = cells();
    this.temperatureTime = cells();
    this.fluxTemperature = cells();
    this.flux = cells();
    this.heatTime = cells();
    this.heatTemperature = cells();
    this.pressure = newField(total);
    this.velocity = newField(total);
    this.sound = newField(total);
    this.channels = Array.from({ length: CHANNELS }, () => new Float64Array(this.capacity));
    let k = 0;
    for (const { run, duct } of engine.exhaust.pieces) {
      const { dx, cells: n } = duct.geometry;
      for (let i = 0; i < n; i++) this.positions[k++] = run.start + (i + 0.5) * dx;
    }
    const { passage } = engine.subject.engine;
    this.passageEnd = Math.max(0, nearestCell(this.positions, passage.length) - 1);
  }

  /** Begins a cycle whose exhaust opening is at a crank angle counted over all turns [deg]. */
  begin(deg: number): void {
    this.turn[TURN.startDeg] = deg;
    this.turn[TURN.nowDeg] = deg;
    this.turn[TURN.summedTo] = deg / (6 * this.engine.rpm);
    this.steps = 0;
    this.nextField = 0;
    this.temperatureTime.fill(0);
    this.fluxTemperature.fill(0);
    this.flux.fill(0);
    this.heatTime.fill(0);
    this.heatTemperature.fill(0);
    this.look();
    this.storeFields();
  }

  /** Takes note of a step that was accepted, from the clock as it stands after it. */
  note(clock: Clock): void {
    const time = clock[CLOCK.time]!;
    if (this.steps === this.capacity) this.grow();
    const { engine } = this;
    this.look();
    const perSecond = 6 * engine.rpm;
    const s = this.steps++;
    const c = this.channels;
    const { port } = engine.exhaust;
    const { end } = port;
    const out = end.answer;
    const gamma = end.arrive[ARRIVE.gamma]!;
    const startDeg = this.turn[TURN.startDeg]!;
    const cylinder = engine.cylinder.volume;
    const crankcase = engine.crankcase.volume;
    const density = out[ANSWER.density]!;
    const pressure = out[ANSWER.pressure]!;
    c[CHANNEL.midDeg]![s] = perSecond * (time - 0.5 * clock[CLOCK.dt]!) - startDeg;
    c[CHANNEL.portPressure]![s] = pressure;
    c[CHANNEL.portVelocity]![s] = -out[ANSWER.velocity]!;
    c[CHANNEL.portSound]![s] = Math.sqrt((gamma * pressure) / density);
    c[CHANNEL.portGamma]![s] = gamma;
    c[CHANNEL.exhaustFlow]![s] = port.flow[FLOW.mass]!;
    const { stream, inward } = engine.transfers;
    c[CHANNEL.transferFlow]![s] = inward * stream[FLOW.mass]!;
    c[CHANNEL.transferBurnt]![s] = inward * stream[FLOW.burnt]!;
    const deg = perSecond * time - startDeg;
    c[CHANNEL.endDeg]![s] = deg;
    c[CHANNEL.cylinderPressure]![s] = cylinder.pressure;
    c[CHANNEL.crankcasePressure]![s] = crankcase.pressure;
    c[CHANNEL.mach]![s] = this.passageMach();
    c[CHANNEL.exhaustBurnt]![s] = port.flow[FLOW.burnt]!;
    c[CHANNEL.cylinderMass]![s] = cylinder.mass();
    c[CHANNEL.cylinderBurnt]![s] = cylinder.burntMass();
    if (deg < this.nextField - 1e-9) return;
    this.turn[TURN.nowDeg] = perSecond * time;
    this.storeFields();
    this.accumulate(clock);
  }

  /** Has the ducts bring their fields up to date. */
  private look(): void {
    const { ducts } = this.engine.exhaust;
    for (let d = 0; d < ducts.length; d++) ducts[d]!.fields();
  }

  private passageMach(): number {
    const { u, a, offset } = this.fields[0]!;
    const k = this.passageEnd + offset;
    return Math.abs(u[k]!) / a[k]!;
  }

  /** Adds to the sums what has passed since the last degree, with the gas as it is now. */
  private accumulate(clock: Clock): void {
    const dt = clock[CLOCK.time]! - this.turn[TURN.summedTo]!;
    const { temperatureTime, fluxTemperature, flux } = this;
    let k = 0;
    for (let d = 0; d < this.fields.length; d++) {
      const { T, u, p, offset } = this.fields[d]!;
      const n = this.cellCounts[d]!;
      for (let i = offset; i < n + offset; i++, k++) {
        const temperature = T[i]!;
        const weight = (Math.abs(u[i]!) * p[i]! * dt) / temperature;
        temperatureTime[k] = temperatureTime[k]! + temperature * dt;
        fluxTemperature[k] = fluxTemperature[k]! + temperature * weight;
        flux[k] = flux[k]! + weight;
      }
    }
    if (this.engine.subject.pipe.wall.by === 'balance') this.accumulateHeat(clock);
    this.turn[TURN.summedTo] = clock[CLOCK.time]!;
  }

  private accumulateHeat(clock: Clock): void {
    const dt = clock[CLOCK.time]! - this.turn[TURN.summedTo]!;
    let k = 0;
    for (const { duct } of this.engine.exhaust.pieces) {
      const { T, offset } = duct.fields();
      const { heatOverD } = duct;
      const { diameter, cells } = duct.geometry;
      for (let i = 0; i < cells; i++, k++) {
        const h = 0.25 * heatOverD[i]! * diameter[i]! * dt;
        this.heatTime[k] = this.heatTime[k]! + h;
        this.heatTemperature[k] = this.heatTemperature[k]! + h * T[i + offset]!;
      }
    }
  }

  /** Stores the fields for every whole degree passed up to now. */
  private storeFields(): void {
    const { turn, views, cellCounts } = this;
    const { cells } = this.pressure;
    const upTo = Math.min(FIELDS - 1, Math.floor(turn[TURN.nowDeg]! - turn[TURN.startDeg]! + 1e-6));
    for (; this.nextField <= upTo; this.nextField += FIELD_STEP_DEG) {
      // Cells of a row lie side by side, so that a row is copied as a whole.
      let k = this.nextField * cells;
      for (let d = 0; d < views.length; d++) {
        const { p, u, a } = views[d]!;
        this.pressure.data.set(p, k);
        this.velocity.data.set(u, k);
        this.sound.data.set(a, k);
        k += cellCounts[d]!;
      }
    }
  }

  private grow(): void {
    this.capacity *= 2;
    this.channels = this.channels.map((old) => {
      const wide = new Float64Array(this.capacity);
      wide.set(old);
      return wide;
    });
  }
}

function nearestCell(positions: Float64Array, x: number): number {
  let best = 0;
  positions.forEach((position, k) => {
    if (Math.abs(position - x) < Math.abs(positions[best]! - x)) best = k;
  });
  return best;
}
