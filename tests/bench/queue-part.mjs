/** A gatherer or a lender of the benchmark of a queue: the program's own, with jobs that take no computing. */

import { openFile } from '../../dist/src/case/load.js';
import { sentCase } from '../../dist/src/case/sent-case.js';
import { addressOf } from '../../dist/src/study/over/address.js';
import { hire } from '../../dist/src/study/over/hired.js';
import { lend } from '../../dist/src/study/over/lender.js';
import { openServer } from '../../dist/src/study/over/server.js';

const [role, text] = process.argv.slice(2);
const { address, jobs, threads, wait } = JSON.parse(text);
const program = 'echocone of the benchmark';
const rows = [{ speed_rpm: 9000, torque_nm: 17 }];
const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

async function lender() {
  const stop = new AbortController();
  process.once('SIGTERM', () => stop.abort());
  const server = await openServer(addressOf(address, process.env), () => {});
  const one = async () => {
    if (wait > 0) await pause(wait);
    return { ok: true, value: { ok: true, rows } };
  };
  process.send('there');
  await lend({ server, pool: { threads, one }, program, signal: stop.signal, say() {}, working() {} });
  await server.close();
  process.disconnect();
}

/** Heap and resident memory after a collection [MB]. */
function memory() {
  globalThis.gc();
  const { heapUsed, rss } = process.memoryUsage();
  return { heap: heapUsed / 2 ** 20, resident: rss / 2 ** 20 };
}

async function gatherer() {
  const draftA = new URL('../../cases/saltmarsh-125/draft-a.yaml', import.meta.url).pathname;
  const sent = sentCase(openFile(draftA), []);
  const hired = await hire({
    over: address,
    fingerprint: 'b'.repeat(64),
    kind: 'overnight',
    name: 'benchmark',
    program,
    parcelOf: ({ input }) => ({
      ...{ kind: 'draft', program, draft: input.draft, ...sent },
      ...{ runSpeeds: [9000], speeds: [9000], cell: 0.02, durationDeg: null },
    }),
    say() {},
  });
  const source = function* () {
    for (let n = 0; n < jobs; n += 1) yield { kind: 'draft', input: { draft: `full ${n}` } };
  };
  const found = [];
  let begun = 0;
  let cpu = process.cpuUsage();
  let done = 0;
  for await (const { outcome } of hired.pool.asFinished(source())) {
    if (!outcome.ok) throw new Error(outcome.failure.message);
    done += 1;
    // The lender looks for studies twice a second; that wait is not the queue's.
    if (done === 1) {
      begun = performance.now();
      cpu = process.cpuUsage();
    }
    if (done % Math.ceil(jobs / 10) === 0) found.push(memory());
  }
  const seconds = (performance.now() - begun) / 1000;
  const { user, system } = process.cpuUsage(cpu);
  await hired.clean();
  await hired.close();
  const server = await openServer(addressOf(address, process.env), () => {});
  const client = await server.queue('studies').backend.client;
  const left = await client.dbsize();
  await server.close();
  process.send({
    seconds,
    cpu: (user + system) / 1e6,
    heap: found.map(({ heap }) => heap),
    resident: found.map(({ resident }) => resident),
    left,
  });
  process.disconnect();
}

await (role === 'lend' ? lender() : gatherer());
