/**
 * Ring: identity and consistency. Aiming with the gas: an aim broken off goes on to the same bytes, and its sensitivities
 * are those of sweeps of the changed pipes.
 */

import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { caseOf, loadCase, loadPipe, openFile } from '../../../src/case/load.ts';
import type { Case } from '../../../src/model/case.ts';
import type { Evaluator } from '../../../src/study/aim/evaluator.ts';
import { cellCount } from '../../../src/study/aim/mesh.ts';
import { answered } from '../../../src/study/aim/question.ts';
import { sensitivityQuestion } from '../../../src/study/aim/sensitivities.ts';
import { runDraft } from '../../../src/study/work/draft.ts';

const root = new URL('../../../', import.meta.url).pathname;
const draftA = join(root, 'cases/saltmarsh-125/draft-a.yaml');
const folder = mkdtempSync(join(tmpdir(), 'echocone-aim-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('an aim that is broken off', () => {
  const words = (out: string, threads: number): string[] => [
    join(root, 'dist/src/main.js'),
    ...['aim', draftA, '--set', 'run.targetSpeed=10000 rpm', '--set', 'run.maxCycles=3'],
    ...['--cell', '40mm', '--drafts', '12'],
    ...['--vary', 'header.length', '--vary', 'belly.diameter'],
    ...['--out', join(folder, out), '--threads', String(threads)],
  ];
  const read = (out: string, name: string): string => readFileSync(join(folder, out, name), 'utf8');
  const newFile = 'a-broad-aimed-at-10000-rpm.yaml';

  test('goes on to the same document, page and pipe, which loads in whole millimetres', async () => {
    const unbroken = spawnSync(process.execPath, words('whole', 1), { encoding: 'utf8' });
    expect(unbroken.stderr).toMatch(/Next: (npx )?echocone sweep/);
    // The case's own target, and the name of the what-if.
    const document = JSON.parse(read('whole', 'aim.json'));
    expect(document.target).toBe(10_000);
    expect(document.case).toBe('Saltmarsh 125, draft A · targetSpeed 10000 rpm, maxCycles 3');
    // Three cycles settle nothing, and that is said.
    expect(unbroken.status).toBe(4);
    for (const lines of [4, 11]) {
      await new Promise<void>((resolve) => {
        const child = spawn(process.execPath, words('broken', 2), { stdio: 'ignore' });
        const look = setInterval(() => {
          try {
            if (read('broken', 'journal.jsonl').split('\n').length > lines) child.kill('SIGKILL');
          } catch {}
        }, 3);
        child.on('close', () => {
          clearInterval(look);
          resolve();
        });
      });
    }
    const again = spawnSync(process.execPath, words('broken', 1), { encoding: 'utf8' });
    expect(again.stderr).toMatch(/Going on with a journal of \d+ finished runs/);
    for (const name of ['aim.json', newFile]) expect(read('broken', name)).toBe(read('whole', name));
    expect(read('broken', 'aim.html') === read('whole', 'aim.html')).toBe(true);
    for (const { length } of loadPipe(join(folder, 'whole', newFile)).sections)
      expect(Number((1000 * length).toFixed(9)) % 1).toBe(0);
    const swept = caseOf(openFile(draftA), [`pipe=${join(folder, 'whole', newFile)}`]);
    expect(swept.pipe.name).toBe('A, broad, aimed at 10000 rpm');
  }, 300_000);
});

test('a speed to aim at is asked for where neither the case nor the command line has one', () => {
  const cases = join(root, 'cases/saltmarsh-125');
  const file = join(folder, 'no-target.yaml');
  const parts = ['engine', 'pipe-a'].map((name) => join(cases, `${name}.yaml`));
  writeFileSync(file, `kind: case\nengine: ${parts[0]}\npipe: ${parts[1]}\nrun:\n  speeds: [9000 rpm]\n`);
  const words = [join(root, 'dist/src/main.js'), 'aim', file, '--out', join(folder, 'none')];
  const { status, stderr } = spawnSync(process.execPath, words, { encoding: 'utf8' });
  expect(status).toBe(2);
  expect(stderr).toContain('Name the speed to aim at with --rpm: the case states no run.targetSpeed.');
});

describe('sensitivities', () => {
  test('are those of sweeps of the changed pipes, within a tenth', async () => {
    const [target, cell] = [9500, 0.016];
    const base = loadCase(draftA);
    const subject: Case = { ...base, run: { ...base.run, cell } };
    const evaluator: Evaluator = {
      results: async (asked) => asked.map((one) => runDraft({ draft: one.name, subject: one.subject })),
      done: 0,
      dropped: '',
      close: () => {},
    };
    const cells = cellCount(subject, cell);
    const found = await answered(
      sensitivityQuestion({ subject, pipe: subject.pipe, target, cells }),
      evaluator,
    );
    const opened = openFile(draftA);
    // On cells of a fixed length, as a sweep has them, by twice the change.
    const ran = (set: string[]) => {
      const one = caseOf(opened, set);
      const result = runDraft({
        draft: '',
        subject: { ...one, run: { ...one.run, cell, speeds: [target] } },
      });
      if (!result.ok) throw new Error(result.reason);
      const [row] = result.rows;
      return { lead: -(row?.plugback_centroid_deg ?? Number.NaN), torque: row?.torque_nm ?? Number.NaN };
    };
    for (const name of ['header', 'belly', 'baffle']) {
      const one = found.find((other) => other.name === name);
      const [less, more] = ['-=', '+='].map((sign) =>
        ran([`pipe.sections.${name}.length ${sign} 10 mm`]),
      ) as [ReturnType<typeof ran>, ReturnType<typeof ran>];
      const lead = (more.lead - less.lead) / 2;
      const torque = (more.torque - less.torque) / 2;
      // A tenth; what is next to nothing may differ by the noise of settling, 0.1 deg and 0.3 % of the torque.
      expect(Math.abs((one?.leadDeg ?? Number.NaN) - lead), `lead of ${name}: ${lead}`).toBeLessThan(
        Math.max(0.1 * Math.abs(lead), 0.1),
      );
      expect(Math.abs((one?.torqueNm ?? Number.NaN) - torque), `torque of ${name}: ${torque}`).toBeLessThan(
        Math.max(0.1 * Math.abs(torque), 0.003 * more.torque),
      );
    }
  }, 300_000);
});
