/** A server that speaks TLS only, with a certificate of its own: trusted by the environment, else refused in words. */

import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { unfolded } from '../../commands/unfolded.ts';
import { hasRedis } from '../../on-this-machine.ts';
import { newQueueServer } from '../../queue-server.mjs';

const program = fileURLToPath(new URL('../../../dist/src/main.js', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'echocone-tls-'));
const certificate = join(folder, 'certificate.pem');
const made = spawnSync('openssl', [
  ...['req', '-x509', '-newkey', 'rsa:2048', '-nodes', '-days', '2', '-subj', '/CN=localhost'],
  ...['-addext', 'subjectAltName=IP:127.0.0.1', '-keyout', join(folder, 'key.pem'), '-out', certificate],
]);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.skipIf(!hasRedis || made.status !== 0)('TLS (skipped without redis-server and openssl)', () => {
  let redis: Awaited<ReturnType<typeof newQueueServer>>;
  beforeAll(async () => {
    redis = await newQueueServer({ certificate, key: join(folder, 'key.pem') });
    await redis.start();
  });
  afterAll(() => redis.kill());

  /** Lends until it says that it does, then asks it to end; what it said and its exit code. */
  function lent(address: string, environment: NodeJS.ProcessEnv) {
    const child = spawn(process.execPath, [program, 'lend', '--over', address, '--threads', '1'], {
      stdio: ['ignore', 'ignore', 'pipe'],
      env: { ...process.env, ECHOCONE_QUEUE_PASSWORD: redis.password, ...environment },
    });
    let said = '';
    child.stderr.on('data', (piece) => {
      said += String(piece);
      if (said.includes('Lending')) child.kill('SIGTERM');
    });
    return new Promise<{ said: string; code: number | null }>((resolve) =>
      child.once('exit', (code) => resolve({ said: unfolded(said), code })),
    );
  }

  test('is spoken with a server whose certificate is trusted, and with no other', async () => {
    const plain = redis.address.replace('rediss:', 'redis:');
    const [trusted, unknown, unspoken] = await Promise.all([
      lent(redis.address, { NODE_EXTRA_CA_CERTS: certificate }),
      lent(redis.address, {}),
      lent(plain, {}),
    ]);
    expect(trusted.said).toMatch(/^Lending 1 thread to studies on rediss:/);
    expect(trusted.code).toBe(130);
    expect(unknown.said).toMatch(/certificate comes from nobody whom this machine knows/);
    expect(unspoken.said).toMatch(/speaks TLS takes rediss:/);
    for (const { code } of [unknown, unspoken]) expect(code).toBe(6);
    for (const { said } of [trusted, unknown, unspoken]) expect(said).not.toContain(redis.password);
  }, 60_000);
});
