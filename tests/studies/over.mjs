/**
 * A study over a queue, with real processes: one gatherer and three lenders; a lender killed every two seconds; the server
 * killed and started again; the gatherer killed three times. Every ranking is held against that of one machine, byte for
 * byte. Then four pieces that somebody else put there in the place of four of the study's: they are to be refused, and
 * the others to be ranked. `npm run study:over -- --only server` runs one and keeps what the others found. Time a piece
 * and the gatherer's memory: `npm run bench:queue`.
 */

import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { addressOf } from '../../dist/src/study/over/address.js';
import { pieceId } from '../../dist/src/study/over/crew.js';
import { openServer, workQueue } from '../../dist/src/study/over/server.js';
import { newQueueServer } from '../queue-server.mjs';
import { flag, keep, readJson, root } from './keep.mjs';

const program = join(root, 'dist/src/main.js');
const folder = mkdtempSync(join(tmpdir(), 'echocone-over-'));
const study = join(folder, 'study.yaml');
writeFileSync(
  study,
  `kind: study
name: over
case: ${join(root, 'cases/saltmarsh-125/draft-a.yaml')}
vary:
  - { path: pipe.sections.baffle.length, from: 160 mm, to: 188 mm, step: 2 mm }
  - { name: bore, path: pipe.sections.baffle.to, values: [21 mm, 22 mm, 23 mm, 24 mm] }
speeds: [10000 rpm]
cell: 30 mm
score:
  - torqueAt: 10000 rpm
`,
);
const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
const server = await newQueueServer();
const { address, port, password } = server;
const environment = { ...process.env, ECHOCONE_QUEUE_PASSWORD: password };
const started = [];
const start = (command, words, stdio = 'ignore') => {
  const child = spawn(command, words, { stdio, env: environment });
  child.ended = new Promise((resolve) => child.once('exit', resolve));
  started.push(child);
  return child;
};
const lender = () =>
  start(process.execPath, [program, 'lend', '--over', address, '--threads', '1', '--quiet']);
const words = (out) => [
  'overnight',
  study,
  '--out',
  join(folder, out),
  '--set',
  'run.maxCycles=8',
  '--quiet',
];
const gatherer = (out) => start(process.execPath, [program, ...words(out), '--over', address]);
const keys = () =>
  spawnSync('redis-cli', ['-p', String(port), '-a', password, '--no-auth-warning', 'dbsize'], {
    encoding: 'utf8',
  }).stdout.trim();
const ranking = (out) => readFileSync(join(folder, out, 'ranking.csv'));
const journalLines = (out) => {
  try {
    return readFileSync(join(folder, out, 'journal.jsonl'), 'utf8').split('\n').length;
  } catch {
    return 0;
  }
};

/** Ends every process that was started, and takes the folder away. */
function stop() {
  for (const child of started) child.kill('SIGKILL');
  server.remove();
  rmSync(folder, { recursive: true, force: true });
}
for (const signal of ['SIGINT', 'SIGTERM'])
  process.once(signal, () => {
    stop();
    process.exit(130);
  });

/** Scores of all drafts but the first so many, as text: their ranks move up where those are missing. */
function scoresOf(out, without) {
  const rows = ranking(out)
    .toString()
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','));
  return rows
    .filter(([, draft]) => Number(draft) > without)
    .map(([, ...rest]) => rest.join(','))
    .sort()
    .join('\n');
}

/** Puts on the queue, for the study whose journal this is, what no gatherer would put there. */
async function putHostile(out) {
  const { study: fingerprint } = JSON.parse(
    readFileSync(join(folder, out, 'journal.jsonl'), 'utf8').split('\n')[0],
  );
  const queue = await openServer(addressOf(address, environment), () => {});
  const work = queue.queue(workQueue(fingerprint));
  const hostile = [
    { shell: 'rm -rf /' },
    { document: { kind: 'case', engine: '/etc/passwd', pipe: '/etc/passwd' } },
    { cell: 1e-9 },
    { note: 'x'.repeat(1e6) },
  ];
  for (const [k, more] of hostile.entries())
    await work.add('draft', { draft: `full ${k + 1}`, ...more }, { jobId: pieceId(`full ${k + 1}`) });
  await queue.close();
}

const only = flag('--only', '');
const kept = join(root, 'tests/studies/over.json');
const results = only !== '' && existsSync(kept) ? readJson(kept).results : {};
async function scenario(name, disturb, hostile = 0) {
  if (!name.includes(only)) return;
  const begun = performance.now();
  if (hostile > 0) await putHostile('near');
  const lenders = [lender(), lender(), lender()];
  const state = { lenders, gatherer: gatherer(name), over: false, kills: 0 };
  const disturbing = disturb(state, name);
  let code = await state.gatherer.ended;
  while (code === null) {
    await pause(300);
    code = await state.gatherer.ended;
  }
  state.over = true;
  await disturbing;
  const left = keys();
  for (const one of state.lenders) one.kill('SIGKILL');
  results[name] = {
    same:
      hostile > 0
        ? scoresOf(name, hostile) === scoresOf('near', hostile)
        : ranking(name).equals(ranking('near')),
    ...(hostile > 0 ? { refused: ranking(name).toString().split('refused by the lender').length - 1 } : {}),
    exit: code,
    kills: state.kills,
    keysLeft: left,
    seconds: Math.round((performance.now() - begun) / 1000),
    date: new Date().toISOString().slice(0, 10),
  };
  process.stderr.write(`${name}: ${JSON.stringify(results[name])}\n`);
}

try {
  await start(process.execPath, [program, ...words('near')]).ended;
  await server.start();
  await scenario('three lenders', async () => {});
  await scenario('a lender killed every two seconds', async (state) => {
    while (!state.over) {
      await pause(2_000);
      if (state.over) break;
      const at = Math.floor(Math.random() * 3);
      state.lenders[at].kill('SIGKILL');
      state.lenders[at] = lender();
      state.kills += 1;
    }
  });
  await scenario('the server killed and started again', async (state, name) => {
    while (!state.over && journalLines(name) < 20) await pause(50);
    await server.kill();
    state.kills += 1;
    await pause(3_000);
    await server.start();
  });
  await scenario('the gatherer killed three times', async (state, name) => {
    for (const lines of [8, 22, 40]) {
      while (journalLines(name) < lines) await pause(30);
      const killed = state.gatherer;
      killed.kill('SIGKILL');
      await killed.ended;
      state.kills += 1;
      state.gatherer = gatherer(name);
    }
  });
  await scenario('four pieces of somebody else', async () => {}, 4);
  keep('over', { drafts: 60, results });
} finally {
  stop();
}
