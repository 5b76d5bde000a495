/**
 * The compiled module: there at all, understood by this machine, compiled once per thread. Nothing is read from disk: the
 * module's bytes come as text within a script, so that worker threads and a page opened from a folder have them too.
 */

import { KERNEL } from '#two-lane-kernel';

/** Memory of WebAssembly, of a fixed size: its buffer never gives way to another. */
export interface Memory {
  readonly buffer: ArrayBuffer;
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

/** What the module exports, on a memory of its own of at least so many bytes; null where there is no module. */
export function newInstance(bytes: number): { readonly memory: Memory; readonly exports: unknown } | null {
  if (compiled === undefined) compiled = compile();
  if (compiled === null || typeof WebAssembly === 'undefined') return null;
  const pages = Math.ceil(bytes / PAGE);
  const memory = new WebAssembly.Memory({ initial: pages, maximum: pages });
  return { memory, exports: new WebAssembly.Instance(compiled, { env: { memory } }).exports };
}

/** Whether the module was built and this machine can run it. */
export function isCompiled(): boolean {
  if (compiled === undefined) compiled = compile();
  return compiled !== null;
}
