/** What the build makes of `assembly/` (see solver/compile-kernel.mjs). */
declare module '#two-lane-kernel' {
  /** The compiled module, in base64; empty where the build had no compiler. */
  export const KERNEL: string;
}
