/**
 * A queue's server on a free port of this machine, with a password and an append-only file in a folder of its own: for the tests,
 * the studies and the benchmark of queues.
 */

import { spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { connect, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

/** @returns {Promise<number>} */
const freePort = () =>
  new Promise((resolve) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });

/** Whether somebody listens on a port. */
const answers = (port) =>
  new Promise((resolve) => {
    const socket = connect(port, '127.0.0.1');
    socket.once('connect', () => {
      socket.destroy();
      resolve(true);
    });
    socket.once('error', () => resolve(false));
  });

/** Flags of a port: plain, or TLS only with a certificate. */
function portFlags(port, tls) {
  if (tls === undefined) return ['--port', String(port)];
  const { certificate, key } = tls;
  const files = ['--tls-cert-file', certificate, '--tls-key-file', key, '--tls-ca-cert-file', certificate];
  return ['--port', '0', '--tls-port', String(port), '--tls-auth-clients', 'no', ...files];
}

/**
 * Prepares a server, which is then started and may be killed and started again; it keeps what it held.
 * @param {{ certificate: string, key: string }} [tls] With a certificate it speaks TLS only.
 */
export async function newQueueServer(tls) {
  const port = await freePort();
  const password = randomBytes(12).toString('hex');
  const folder = mkdtempSync(join(tmpdir(), 'echocone-redis-'));
  const flags = [
    ...portFlags(port, tls),
    ...['--bind', '127.0.0.1', '--requirepass', password, '--dir', folder],
    ...['--save', '', '--appendonly', 'yes', '--daemonize', 'no'],
  ];
  /** @type {import('node:child_process').ChildProcess | null} */
  let child = null;
  return {
    address: `redis${tls === undefined ? '' : 's'}://127.0.0.1:${port}`,
    port,
    password,
    folder,
    /** Number of its process. */
    get pid() {
      return child?.pid;
    },
    /** Starts it, and waits until it listens. */
    async start() {
      child = spawn('redis-server', flags, { stdio: 'ignore' });
      for (let tries = 0; tries < 400 && !(await answers(port)); tries += 1) await pause(25);
    },
    /** Ends it at once, as a loss of the supply would. */
    async kill() {
      if (child === null) return;
      const ended = new Promise((resolve) => child?.once('exit', resolve));
      child.kill('SIGKILL');
      await ended;
      child = null;
    },
    /** Ends it for good, and takes its folder away. */
    remove() {
      child?.kill('SIGKILL');
      rmSync(folder, { recursive: true, force: true, maxRetries: 3 });
    },
  };
}
