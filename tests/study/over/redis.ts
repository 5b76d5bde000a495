/** A queue's server of a test's own: on a free port of this machine, with a password and an append-only file. */

import { type ChildProcess, spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { mkdtempSync } from 'node:fs';
import { connect, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface TestServer {
  readonly address: string;
  readonly password: string;
  kill(): Promise<void>;
  start(): Promise<void>;
}

/** With a certificate it speaks TLS only. */
export async function newRedis(tls?: { certificate: string; key: string }): Promise<TestServer> {
  const port = await freePort();
  const password = randomBytes(12).toString('hex');
  const folder = mkdtempSync(join(tmpdir(), 'echocone-redis-'));
  let child: ChildProcess | null = null;
  const flags = [
    ...(tls === undefined
      ? ['--port', String(port)]
      : [
          ...['--port', '0', '--tls-port', String(port), '--tls-auth-clients', 'no'],
          ...[
            '--tls-cert-file',
            tls.certificate,
            '--tls-key-file',
            tls.key,
            '--tls-ca-cert-file',
            tls.certificate,
          ],
        ]),
    ...['--bind', '127.0.0.1', '--requirepass', password, '--dir', folder],
    ...['--save', '', '--appendonly', 'yes', '--daemonize', 'no'],
  ];
  const server: TestServer = {
    address: `redis${tls === undefined ? '' : 's'}://127.0.0.1:${port}`,
    password,
    async start() {
      child = spawn('redis-server', flags, { stdio: 'ignore' });
      for (let tries = 0; tries < 400 && !(await answers(port)); tries += 1) await pause(25);
    },
    async kill() {
      const ended = new Promise((resolve) => child?.once('exit', resolve));
      child?.kill('SIGKILL');
      await ended;
    },
  };
  await server.start();
  return server;
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const { port } = probe.address() as { port: number };
      probe.close(() => resolve(port));
    });
  });
}

function answers(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(port, '127.0.0.1');
    socket.once('connect', () => {
      socket.destroy();
      resolve(true);
    });
    socket.once('error', () => resolve(false));
  });
}
