/**
 * Ring: conservation. Plausible engines drawn at random at coarse cells: none fails to march, and where a speed settles mass and
 * energy balance. The seed is in the name of each test. `npm run study:engines` does it for 2000 engines.
 */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { loadCase } from '../../src/case/load.ts';
import { runSpeed } from '../../src/engine/run/run-speed.ts';
import { randomSource } from '../../src/study/search/random.ts';
import { plausibleCase } from '../studies/plausible-engine.mjs';

const folder = mkdtempSync(join(tmpdir(), 'echocone-random-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Another one for each day, so that every day six engines are new; a failure names it. */
const seed = Number(process.env.ECHOCONE_SEED ?? Math.floor(Date.now() / 86_400_000));

describe(`engines of seed ${seed}`, () => {
  test.each([0, 1, 2, 3, 4, 5])('number %i marches and balances', (index) => {
    const source = randomSource(seed, index);
    const path = join(folder, `${index}.yaml`);
    writeFileSync(path, JSON.stringify(plausibleCase(() => source.uniform(), `engine ${index}`, '30 mm')));
    const read = loadCase(path);
    const subject = { ...read, run: { ...read.run, maxCycles: 24 } };
    const rpm = subject.run.speeds[index % 3]!;
    const { row } = runSpeed({ subject, rpm, start: null, brief: true }).record;
    expect(row.mass_balance_error, `seed ${seed}, engine ${index}, ${rpm} rpm`).toBeLessThan(1e-9);
    if (row.settled) expect(Math.abs(row.energy_balance_error ?? Number.NaN)).toBeLessThan(1e-6);
    expect(row.torque_nm).not.toBeNull();
    expect(row.delivery_ratio).toBeGreaterThan(0);
  });
});
