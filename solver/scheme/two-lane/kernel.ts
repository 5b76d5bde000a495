/** The compiled two-lane kernel at work on a memory of its own. */

export type { Memory } from '../../arithmetic/compiled.ts';

import { isCompiled, type Memory, newInstance } from '../../arithmetic/compiled.ts';

/** The kernel's functions. `duct` is the address of a duct's header. */
export interface Kernel {
  /** First byte of the memory that is not the kernel's own. */
  freeFrom(): number;
  decode(duct: number): void;
  arrivals(duct: number): void;
  advance(duct: number): void;
  refreshLosses(duct: number): void;
}

/** The two-lane kernel was asked for by name where there is none. */
export class NoTwoLanes extends Error {
  override readonly name = 'NoTwoLanes';
  /** The file asks for what this machine cannot do. */
  readonly exitCode = 3;
}

/** Whether the two-lane kernel was built and this machine can run it. */
export const hasTwoLanes = isCompiled;

/** A memory of at least so many bytes, with the kernel at work on it. @throws NoTwoLanes where there is no two-lane kernel. */
export function newKernel(bytes: number): { readonly memory: Memory; readonly kernel: Kernel } {
  const made = newInstance(bytes);
  if (made === null)
    throw new NoTwoLanes('the two-lane kernel was asked for, but it was not built or cannot run here');
  return { memory: made.memory, kernel: made.exports as Kernel };
}
