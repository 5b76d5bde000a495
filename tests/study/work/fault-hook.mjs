/**
 * Loaded before the program (`node --import`), and by its threads with it: jobs end in a real fault of their thread. FAULTS says
 * which and how often, `[{ "job": "full 2", "how": "memory", "times": 1 }]`; every fault leaves a file in FAULT_FOLDER, by which
 * the next one is counted. A job is named by its draft or its first speed.
 */

import { readdirSync, writeFileSync } from 'node:fs';
import { register } from 'node:module';
import { join } from 'node:path';
import { isMainThread } from 'node:worker_threads';

const HOOK = `
  export async function load(url, context, next) {
    const loaded = await next(url, context);
    if (!url.endsWith('/study/work/worker.js')) return loaded;
    const source = String(loaded.source).replace('await runJob(job)', 'await runJob(globalThis.faultOrJob(job))');
    return { ...loaded, source };
  }`;

function nameOf({ input }) {
  return String(input.draft ?? input.speeds?.[0]);
}

function exhausted() {
  const held = [];
  for (;;) held.push(new Array(1e6).fill(held.length));
}

if (!isMainThread) {
  const faults = JSON.parse(process.env.FAULTS ?? '[]');
  globalThis.faultOrJob = (job) => {
    const fault = faults.find((one) => one.job === nameOf(job));
    if (fault === undefined) return job;
    const folder = process.env.FAULT_FOLDER;
    const before = readdirSync(folder).filter((file) => file.startsWith(`${fault.job}.`)).length;
    if (before >= fault.times) return job;
    writeFileSync(join(folder, `${fault.job}.${before}`), '');
    if (fault.how === 'memory') exhausted();
    process.exit(7);
  };
  register(`data:text/javascript,${encodeURIComponent(HOOK)}`);
}
