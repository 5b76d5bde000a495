// Bytes of heap that a step uses, and that stay after a sweep, by a function that marches some steps. For a process started as in heap-of-script.ts.

const WARM_UP = 8000;
const STEPS = 4000;
/** The engine's own book-keeping comes and goes by some hundred kilobytes; what the steps do, they do in every window. */
const WINDOWS = 3;

export function heapOfSteps(march) {
  const heap = () => process.memoryUsage().heapUsed;
  march(WARM_UP);
  let used = Number.POSITIVE_INFINITY;
  let kept = Number.POSITIVE_INFINITY;
  for (let window = 0; window < WINDOWS; window++) {
    globalThis.gc();
    globalThis.gc();
    const before = heap();
    march(STEPS);
    used = Math.min(used, (heap() - before) / STEPS);
    globalThis.gc();
    kept = Math.min(kept, (heap() - before) / STEPS);
  }
  return { used, kept };
}
