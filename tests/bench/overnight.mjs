/**
 * Benchmark of long studies, on the built program: how much two threads save on forty drafts, and whether the memory of
 * two thousand drafts stays flat. `node tests/bench/overnight.mjs [--json] [--drafts 2000]`; 0 drafts leave the second part out.
 */

import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';

const root = new URL('../../', import.meta.url).pathname;
const program = join(root, 'dist/src/main.js');
const folder = mkdtempSync(join(tmpdir(), 'echocone-bench-'));
const words = process.argv.slice(2);
const many = words.includes('--drafts') ? Number(words[words.indexOf('--drafts') + 1]) : 2000;

const study = (name, vary, more) => {
  const path = join(folder, `${name}.yaml`);
  writeFileSync(
    path,
    `kind: study\nname: ${name}\ncase: ${join(root, 'cases/saltmarsh-125/draft-a.yaml')}\nvary:\n${vary}\n${more}\nscore:\n  - torqueAt: 9500 rpm\n`,
  );
  return path;
};

/** Runs a study; gives its time [s] and, sampled from the system, its memory [MB] against finished drafts. */
function run(path, out, threads) {
  return new Promise((resolve, reject) => {
    const start = performance.now();
    const child = spawn(
      process.execPath,
      [
        program,
        'overnight',
        path,
        '--out',
        join(folder, out),
        '--threads',
        String(threads),
        '--quiet',
        '--json',
        '--set',
        'run.maxCycles=9',
      ],
      { stdio: ['ignore', 'ignore', 'inherit'] },
    );
    const memory = [];
    let cpu = 0;
    const look = setInterval(() => {
      try {
        const [, resident] = /VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${child.pid}/status`, 'utf8'));
        // User and system time of all threads, in hundredths of a second: what a busy machine does not distort.
        const times = readFileSync(`/proc/${child.pid}/stat`, 'utf8')
          .replace(/^.*\) /, '')
          .split(' ');
        cpu = (Number(times[11]) + Number(times[12])) / 100;
        const journal = readFileSync(join(folder, out, 'journal.jsonl'), 'utf8');
        memory.push({ drafts: journal.split('\n').length - 2, megabytes: Number(resident) / 1024 });
      } catch {}
    }, 500);
    child.on('close', (code) => {
      clearInterval(look);
      // 4: a draft failed, which a mesh this coarse may do to some of two thousand.
      if (code !== 0 && code !== 4) reject(new Error(`the study ended with ${code}`));
      else resolve({ seconds: (performance.now() - start) / 1000, cpu, memory });
    });
  });
}

const mean = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;

const forty = study(
  'forty',
  '  - { path: pipe.sections.baffle.length, from: 180 mm, to: 225 mm, step: 5 mm }\n  - { path: pipe.sections.stinger.length, from: 220 mm, to: 250 mm, step: 10 mm }',
  'speeds: [9000 rpm, 9500 rpm]\ncell: 12 mm',
);
const two = await run(forty, 'two', 2);
const one = await run(forty, 'one', 1);
const crowd = many === 0 ? {} : await crowded();
const result = {
  forty_drafts_s_1_thread: one.seconds,
  forty_drafts_s_2_threads: two.seconds,
  forty_drafts_cpu_s_1_thread: one.cpu,
  forty_drafts_cpu_s_2_threads: two.cpu,
  two_threads_over_one: two.seconds / one.seconds,
  ...crowd,
  ran_on: `${cpus().length} x ${cpus()[0]?.model ?? 'unknown'}, Node ${process.version}`,
};
rmSync(folder, { recursive: true, force: true });
process.stdout.write(
  words.includes('--json')
    ? `${JSON.stringify(result, null, 2)}\n`
    : `${Object.entries(result)
        .map(([name, value]) => `${name.padEnd(32)}${typeof value === 'number' ? value.toFixed(3) : value}`)
        .join('\n')}\n`,
);

/** Memory of a study of many drafts, one speed on a coarse mesh. */
async function crowded() {
  const path = study(
    'many',
    '  - { path: pipe.sections.baffle.length, from: 200 mm, to: 260 mm }\n  - { path: pipe.sections.stinger.length, from: 220 mm, to: 260 mm }\n  - { path: pipe.sections.header.length, from: 200 mm, to: 240 mm }',
    `sample: { sobol: { count: ${many} } }\nspeeds: [9500 rpm]\ncell: 30 mm`,
  );
  const { seconds, memory } = await run(path, 'many', 2);
  // What the page's writing takes at the end is part of the peak, not of the flatness.
  const running = memory.filter(({ drafts }) => drafts < many);
  const early = running.filter(({ drafts }) => drafts >= 200 && drafts < 200 + 0.2 * many);
  const late = running.filter(({ drafts }) => drafts >= 0.8 * many);
  return {
    many_drafts: many,
    many_drafts_s_2_threads: seconds,
    peak_memory_mb: Math.max(...memory.map((m) => m.megabytes)),
    memory_mb_from_200th: mean(early.map((m) => m.megabytes)),
    memory_mb_at_the_end: mean(late.map((m) => m.megabytes)),
  };
}
