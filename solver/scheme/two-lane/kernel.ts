/**
 * The compiled two-lane kernel: there at all, understood by this machine, compiled once per thread. Nothing is read from disk:
 * the module's bytes come as text within a script, so that worker threads and a page opened from a folder have them too.
 */

import { KERNEL } from '#two-lane-kernel';

/** Memory of WebAssembly, of a fixed size: its buffer never gives way to another. */
export interface Memory {
  readonly buffer: ArrayBuffer;
}

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

/** As much of WebAssembly's interface as is used, which neither the language's types nor all its homes have. */
interface Assembly {
  validate(bytes: Uint8Array): boolean;
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Memory: new (pages: { readonly initial: number; readonly maximum: number }) => Memory;
  readonly Instance: new (module: object, imports: object) => { readonly exports: unknown };
}

declare const WebAssembly: Assembly | undefined;
declare function atob(text: string): string;

const PAGE = 65_536;

let compiled: object | null | undefined;

function compile(): object | null {
  if (KERNEL === '' || typeof WebAssembly === 'undefined') return null;
  const text = atob(KERNEL);
  const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
  // Not valid: an engine without SIMD. Not compiled: a page that forbids it.
  try {
    return WebAssembly.validate(bytes) ? new WebAssembly.Module(bytes) : null;
  } catch {
    return null;
  }
}

/** Whether the two-lane kernel was built and this machine can run it. */
export function hasTwoLanes(): boolean {
  if (compiled === undefined) compiled = compile();
  return compiled !== null;
}

/** A memory of at least so many bytes, with the kernel at work on it. @throws NoTwoLanes where there is no two-lane kernel. */
export function newKernel(bytes: number): { readonly memory: Memory; readonly kernel: Kernel } {
  if (!hasTwoLanes() || !compiled || typeof WebAssembly === 'undefined')
    throw new NoTwoLanes('the two-lane kernel was asked for, but it was not built or cannot run here');
  const pages = Math.ceil(bytes / PAGE);
  const memory = new WebAssembly.Memory({ initial: pages, maximum: pages });
  const { exports } = new WebAssembly.Instance(compiled, { env: { memory } });
  return { memory, kernel: exports as Kernel };
}
