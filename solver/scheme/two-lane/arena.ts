/**
 * The memory that the ducts of one gas share: the gas and its table, then duct after duct, each a header and its rows. It is
 * never enlarged, so that the typed arrays on it stay what they are; a duct that does not fit begins another. The engine of a
 * speed has a gas of its own and goes into one arena, which is given up with it.
 */

import type { GasModel } from '../../gas/gas-model.ts';
import { type Kernel, type Memory, newKernel } from './kernel.ts';
import { GAS_BYTES, GAS_DOUBLES, GAS_INTEGERS, HEADER_BYTES, ROWS } from './layout.ts';

/** Bytes of an arena: some two thousand cells. What is not used is not taken from the machine. */
const USUAL = 1 << 20;
/** Room for the kernel's constants and the gas. */
const FIRST_PART = 1 << 15;
/**
 * Bytes between rows: the kernel reads and writes in pairs, up to two doubles beyond a row, and rows of a power of two would
 * all fall on the same set of the cache.
 */
const GAP = 80;

const aligned = (bytes: number): number => (bytes + 15) & ~15;
const rowBytes = (length: number): number => aligned(8 * length) + GAP;

/** Bytes that a duct of so many cells may take; no row is longer than its cells with their ghosts. */
function ductBytes(cells: number): number {
  return aligned(HEADER_BYTES) + ROWS * rowBytes(cells + 4);
}

export class Arena {
  readonly kernel: Kernel;
  /** Address of the gas. */
  readonly gas: number;
  private readonly memory: Memory;
  private next: number;

  constructor(gas: GasModel, bytes: number) {
    const { memory, kernel } = newKernel(bytes);
    this.memory = memory;
    this.kernel = kernel;
    this.next = aligned(kernel.freeFrom());
    this.gas = this.next;
    this.take(GAS_BYTES);
    const table = this.next;
    const doubles = new Float64Array(memory.buffer, this.gas, GAS_DOUBLES.length);
    GAS_DOUBLES.forEach((name, slot) => {
      doubles[slot] = gas[name];
    });
    const integers = new Int32Array(memory.buffer, this.gas, GAS_BYTES / 4);
    integers[GAS_INTEGERS.perfect] = gas.perfect ? 1 : 0;
    integers[GAS_INTEGERS.table] = table;
    if (!gas.perfect) fillTable(this.row(gas.table.length), gas.table);
  }

  /** Whether a duct of so many cells fits. */
  holds(cells: number): boolean {
    return this.next + ductBytes(cells) <= this.memory.buffer.byteLength;
  }

  /** A row of doubles, all nought. */
  readonly row = (length: number): Float64Array => {
    const at = this.take(rowBytes(length));
    return new Float64Array(this.memory.buffer, at, length);
  };

  /** The header of a duct: its address, and its slots as doubles and as integers. */
  header(): { readonly at: number; readonly doubles: Float64Array; readonly integers: Int32Array } {
    const at = this.take(aligned(HEADER_BYTES));
    return {
      at,
      doubles: new Float64Array(this.memory.buffer, at, 4),
      integers: new Int32Array(this.memory.buffer, at, HEADER_BYTES / 4),
    };
  }

  private take(bytes: number): number {
    const at = this.next;
    this.next += bytes;
    return at;
  }
}

/** Rows as the kernel's table.ts wants them. */
function fillTable(pairs: Float64Array, table: Float64Array): void {
  for (let k = 0; k < table.length; k += 6) {
    pairs[k] = table[k];
    pairs[k + 1] = table[k + 1];
    pairs[k + 2] = table[k + 3] - table[k];
    pairs[k + 3] = table[k + 4] - table[k + 1];
    pairs[k + 4] = table[k + 2];
    pairs[k + 5] = table[k + 5] - table[k + 2];
  }
}

const arenas = new WeakMap<GasModel, Arena>();

/** An arena of a gas in which a duct of so many cells fits. @throws NoTwoLanes where there is no two-lane kernel. */
export function arenaFor(gas: GasModel, cells: number): Arena {
  const last = arenas.get(gas);
  if (last?.holds(cells)) return last;
  const table = rowBytes(gas.table.length);
  const arena = new Arena(gas, Math.max(USUAL, FIRST_PART + table + ductBytes(cells)));
  arenas.set(gas, arena);
  return arena;
}
