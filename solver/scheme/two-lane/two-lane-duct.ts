/**
 * A duct marched by the conservative method of characteristics, two cells at a time: the same state and the same stages as
 * `ConservativeDuct`, its arrays in the memory of a kernel compiled from `assembly/`. One step from the same state agrees with it to
 * round-off; whatever is not done in every step is `ConservativeDuct`'s own code on the same arrays.
 */

import type { DuctGeometry } from '../../duct/geometry.ts';
import type { WallLosses } from '../../duct/wall-losses.ts';
import type { GasModel } from '../../gas/gas-model.ts';
import { CLOCK, type Clock } from '../../march/clock.ts';
import { unconverged } from '../../march/unconverged.ts';
import { ConservativeDuct } from '../conservative/conservative-duct.ts';
import { hand, take } from '../conservative/step.ts';
import { type Arena, arenaFor } from './arena.ts';
import type { Kernel } from './kernel.ts';
import { CONSERVED_ROWS, DOUBLES, INTEGERS, OWN_ROWS, STATE_ROWS } from './layout.ts';

export class TwoLaneDuct extends ConservativeDuct {
  private readonly kernel: Kernel;
  private readonly at: number;
  private readonly doubles: Float64Array;
  private readonly integers: Int32Array;

  /** @throws NoTwoLanes where there is no two-lane kernel. */
  constructor(name: string, gas: GasModel, geometry: DuctGeometry, losses?: WallLosses, mixed?: boolean) {
    const arena = arenaFor(gas, geometry.cells);
    const { at, doubles, integers } = arena.header();
    super(name, gas, geometry, losses, mixed, arena.row);
    this.kernel = arena.kernel;
    this.at = at;
    this.doubles = doubles;
    this.integers = integers;
    doubles[DOUBLES.dx] = this.dx;
    integers[INTEGERS.cells] = this.cells;
    integers[INTEGERS.mixed] = this.mixed ? 1 : 0;
    integers[INTEGERS.friction] = this.losses.friction ? 1 : 0;
    integers[INTEGERS.pulsatingHeat] = this.losses.heat === 'pulsating' ? 1 : 0;
    integers[INTEGERS.gas] = arena.gas;
    this.fillAddresses(arena);
  }

  private fillAddresses(arena: Arena): void {
    const rows = [
      ...CONSERVED_ROWS.map((name) => this.now[name]),
      ...CONSERVED_ROWS.map((name) => this.next[name]),
      ...STATE_ROWS.map((name) => this[name]),
      ...this.ownRows(arena),
    ];
    rows.forEach((row, k) => {
      this.integers[INTEGERS.rows + k] = row.byteOffset;
    });
  }

  private ownRows(arena: Arena): Float64Array[] {
    const { faceArea, volume, diameter } = this.geometry;
    const values = {
      faceArea,
      volume,
      inverseVolume: volume.map((one) => 1 / one),
      diameter,
      roughTerm: this.rough,
    };
    return OWN_ROWS.map((name) => {
      const row = arena.row(values[name].length);
      row.set(values[name]);
      return row;
    });
  }

  override decode(): number {
    this.kernel.decode(this.at);
    this.fastest = this.doubles[DOUBLES.fastest];
    return this.dx / this.fastest;
  }

  override arrive(clock: Clock): void {
    this.doubles[DOUBLES.dt] = clock[CLOCK.dt];
    this.integers[INTEGERS.calmed] = this.calmed ? 1 : 0;
    this.kernel.arrivals(this.at);
    hand(this, this.left);
    hand(this, this.right);
  }

  override finish(clock: Clock): number {
    this.doubles[DOUBLES.dt] = clock[CLOCK.dt];
    take(this, this.left, 0);
    take(this, this.right, this.cells);
    this.kernel.advance(this.at);
    unconverged[0] += this.integers[INTEGERS.unconverged];
    this.heatTaken = this.doubles[DOUBLES.heatTaken];
    return this.heatTaken;
  }

  override accept(): void {
    super.accept();
    this.integers[INTEGERS.parity] ^= 1;
  }

  override refreshLosses(): void {
    const { friction, heat } = this.losses;
    if (heat === 'colburn') super.refreshLosses();
    else if (friction || heat === 'pulsating' || this.shaped) this.kernel.refreshLosses(this.at);
  }
}
