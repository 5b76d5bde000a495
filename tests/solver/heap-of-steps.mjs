// Bytes of heap that a step uses, and that stay after a sweep, by a function that marches some steps. For a process started as in heap-of-script.ts.

/** The compiler comes late to branches that a turn takes for some degrees only. */
const WARM_UP = 14000;
const STEPS = 1500;
/** The engine's own book-keeping, and what is compiled late, come and go by some hundred kilobytes; what the steps do, they do in every window. */
const WINDOWS = 11;

export function heapOfSteps(march) {
  const heap = () => process.memoryUsage().heapUsed;
  march(WARM_UP);
  const used = [];
  const kept = [];
  for (let window = 0; window < WINDOWS; window++) {
    globalThis.gc();
    globalThis.gc();
    const before = heap();
    march(STEPS);
    used.push((heap() - before) / STEPS);
    globalThis.gc();
    kept.push((heap() - before) / STEPS);
  }
  // What stays by the median: a window in which old code is thrown away would hide a leak.
  return { used: Math.min(...used), kept: kept.sort((a, b) => a - b)[(WINDOWS - 1) / 2] };
}
