/**
 * Benchmark of a study over a queue, on the built program and a redis-server of its own: ten thousand small jobs whose
 * answers are made at once, so that all the time is the queue's (beside the clock the processor's time is given, which
 * other work on the machine does not lengthen so much); the gatherer's memory meanwhile; and two lenders over one on jobs
 * that wait, which take no processor, so that two shared cores do not limit what is measured.
 * `node tests/bench/queue.mjs [--json] [--jobs 10000]`
 */

import { fork } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { newQueueServer } from '../queue-server.mjs';

const words = process.argv.slice(2);
const many = words.includes('--jobs') ? Number(words[words.indexOf('--jobs') + 1]) : 10_000;
/** Jobs that wait: how many, and how long each [ms]. */
const SLOW = 120;
const WAIT = 250;

const part = new URL('queue-part.mjs', import.meta.url);
const server = await newQueueServer();
const environment = { ...process.env, ECHOCONE_QUEUE_PASSWORD: server.password };
const started = [];
const ended = (child) => new Promise((resolve) => child.once('exit', resolve));

function stop() {
  for (const child of started) child.kill('SIGKILL');
  server.remove();
}
for (const signal of ['SIGINT', 'SIGTERM'])
  process.once(signal, () => {
    stop();
    process.exit(130);
  });

/** A gatherer or a lender in a process of its own. */
function begin(role, options) {
  const child = fork(part, [role, JSON.stringify({ address: server.address, ...options })], {
    env: environment,
    execArgv: ['--expose-gc'],
  });
  started.push(child);
  return child;
}

const told = (child) =>
  new Promise((resolve, reject) => {
    child.once('message', resolve);
    child.once('exit', (code) => reject(new Error(`a part of the benchmark ended with ${code}`)));
  });

/** Time of the processor that a process has taken [s]. */
function processorTime({ pid }) {
  const [user, system] = readFileSync(`/proc/${pid}/stat`, 'utf8')
    .replace(/^.*\) /, '')
    .split(' ')
    .slice(11, 13);
  return (Number(user) + Number(system)) / 100;
}

/** A study of so many jobs, with so many lenders; what its gatherer measured. */
async function studyOf(jobs, lenders, wait) {
  const crew = Array.from({ length: lenders }, () => begin('lend', { threads: wait === 0 ? 8 : 1, wait }));
  await Promise.all(crew.map(told));
  const others = () => [...crew, server].reduce((sum, one) => sum + processorTime(one), 0);
  const before = others();
  const result = await told(begin('gather', { jobs }));
  result.othersCpu = others() - before;
  for (const lender of crew) lender.kill('SIGTERM');
  await Promise.all(crew.map(ended));
  return result;
}

await server.start();

try {
  const crowd = await studyOf(many, 1, 0);
  process.stderr.write(`${many} small jobs: ${JSON.stringify(crowd)}\n`);
  const one = await studyOf(SLOW, 1, WAIT);
  const two = await studyOf(SLOW, 2, WAIT);
  const result = {
    jobs: many,
    overhead_ms_a_job: (1000 * crowd.seconds) / many,
    gatherer_cpu_ms_a_job: (1000 * crowd.cpu) / many,
    lender_and_server_cpu_ms_a_job: (1000 * crowd.othersCpu) / many,
    gatherer_heap_mb_at_tenths: crowd.heap,
    gatherer_resident_mb_at_tenths: crowd.resident,
    waiting_jobs: SLOW,
    waiting_job_ms: WAIT,
    one_lender_s: one.seconds,
    two_lenders_s: two.seconds,
    two_lenders_over_one: two.seconds / one.seconds,
    keys_left: crowd.left + one.left + two.left,
    ran_on: `${cpus().length} x ${cpus()[0]?.model ?? 'unknown'}, Node ${process.version}`,
  };
  const rounded = (value) => (typeof value === 'number' ? Number(value.toPrecision(4)) : value);
  process.stdout.write(
    words.includes('--json')
      ? `${JSON.stringify(result, (_, value) => rounded(value), 2)}\n`
      : `${Object.entries(result)
          .map(([name, value]) => `${name.padEnd(32)}${[value].flat().map(rounded).join(' ')}`)
          .join('\n')}\n`,
  );
} finally {
  stop();
}
