/**
 * What is done to a verb with a journal, and how it is judged: a run that is gone on with must end with the bytes and the exit
 * code of one never broken, or refuse the folder in words.
 */

import { fork, spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { damaged, damages } from '../../study/work/journal-damages.mjs';
import { root } from '../keep.mjs';
import { smallVerbs } from './verbs.mjs';

const program = join(root, 'dist/src/main.js');
const preload = new URL('power-loss.mjs', import.meta.url).href;
const REFUSED = 6;

const text = (bytes) => bytes.toString('base64');
const bytes = (kept) => Buffer.from(kept, 'base64');
const eachFile = (files, change) =>
  Object.fromEntries(Object.entries(files).map(([name, one]) => [name, change(one)]));
const frozen = (whole) => ({
  ...whole,
  files: eachFile(whole.files, text),
  journal: text(whole.journal),
});
const thawed = (whole) => ({
  ...whole,
  files: eachFile(whole.files, bytes),
  journal: bytes(whole.journal),
});

/** The verbs in a folder of work, each with its unbroken run and a journal to which nothing is wanting. */
export function openTrials(work) {
  mkdirSync(work, { recursive: true });
  const verbs = smallVerbs(work);
  const unbroken = {};
  let runner = null;

  const fresh = (name) => {
    const above = join(work, name);
    rmSync(above, { recursive: true, force: true });
    mkdirSync(above);
    return join(above, 'out');
  };
  const wordsOf = (verb, out) => [...verbs[verb].words, '--threads', '1', '--out', out];

  /** Runs to the end in the runner's process; code null: that died. */
  const run = (verb, out) =>
    new Promise((resolve) => {
      runner ??= fork(new URL('runner.mjs', import.meta.url), {
        stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
      });
      const died = () => {
        runner = null;
        resolve({ code: null, said: 'the process died' });
      };
      runner.once('exit', died);
      runner.once('message', (answer) => {
        runner.off('exit', died);
        resolve(answer);
      });
      runner.send({ words: wordsOf(verb, out) });
    });

  /** Runs in a process of its own that loses its supply at a moment; without one its moments are told. */
  const runToLoss = (verb, out, moment, chance) => {
    const log = `${out}.log`;
    const environment = { LOSS_FOLDER: out, LOSS_LOG: log, LOSS_SEED: String(chance) };
    const { status } = spawnSync(process.execPath, ['--import', preload, program, ...wordsOf(verb, out)], {
      stdio: 'ignore',
      env: { ...process.env, ...environment, ...(moment === null ? {} : { LOSS_MOMENT: String(moment) }) },
    });
    return { status, moments: existsSync(log) ? readFileSync(log, 'utf8').trim().split('\n') : [] };
  };

  const filesIn = (verb, out) =>
    Object.fromEntries(
      verbs[verb].files.map((file) => [
        file,
        existsSync(join(out, file)) ? readFileSync(join(out, file)) : null,
      ]),
    );

  /** The unbroken run, kept in the folder of work: its code, its files, when it did what, how long it took, and its journal. */
  const wholeOf = (verb) => {
    const kept = join(work, `${verb}-whole.json`);
    unbroken[verb] ??= existsSync(kept) ? thawed(JSON.parse(readFileSync(kept, 'utf8'))) : null;
    if (unbroken[verb] !== null) return unbroken[verb];
    const out = fresh(`${verb}-whole`);
    const started = performance.now();
    const { status, moments } = runToLoss(verb, out, null, 1);
    const milliseconds = performance.now() - started;
    const files = filesIn(verb, out);
    if (Object.values(files).includes(null)) throw new Error(`${verb}: the unbroken run left not all files`);
    let journal = join(out, verbs[verb].journal);
    if (!existsSync(journal)) {
      // It goes at the end, so the run is stopped there.
      const stopped = fresh(`${verb}-stopped`);
      journal = join(stopped, verbs[verb].journal);
      runToStop(verb, stopped, `remove ${verbs[verb].journal}`);
    }
    unbroken[verb] = { code: status, files, moments, milliseconds, journal: readFileSync(journal) };
    writeFileSync(kept, JSON.stringify(frozen(unbroken[verb])));
    return unbroken[verb];
  };

  /** As `runToLoss`, but with all that was written. */
  const runToStop = (verb, out, moment) =>
    spawnSync(process.execPath, ['--import', preload, program, ...wordsOf(verb, out)], {
      stdio: 'ignore',
      env: { ...process.env, LOSS_FOLDER: out, LOSS_MOMENT: moment, LOSS_KEEPS: 'all' },
    });

  const sameFiles = (verb, out) => {
    const { files } = wholeOf(verb);
    return Object.entries(filesIn(verb, out)).every(([file, bytes]) => bytes?.equals(files[file]) === true);
  };

  /** What came of going on: `same`, `refused`, or what is wrong. */
  const judged = (verb, out, { code, said: folded }, mayRefuse) => {
    const said = folded.replace(/\s+/g, ' ');
    if (code === REFUSED && /left as it is|another (study|version)/.test(said) && mayRefuse) return 'refused';
    // The journal had gone: nothing was left to do.
    if (code === REFUSED && /holds .* already/.test(said) && sameFiles(verb, out)) return 'same';
    if (code !== wholeOf(verb).code) return `exit ${code}: ${said}`;
    return sameFiles(verb, out) ? 'same' : `other files: ${said}`;
  };

  const trials = {
    async damage(verb, chance) {
      const whole = wholeOf(verb);
      const [damage] = fc.sample(fc.noBias(damages), { numRuns: 1, seed: Math.floor(2 ** 31 * chance) });
      const out = fresh(`${verb}-damage`);
      mkdirSync(out);
      writeFileSync(join(out, verbs[verb].journal), damaged(whole.journal, damage));
      const ended = await run(verb, out);
      return { damage, came: judged(verb, out, ended, true) };
    },
    async kill(verb, chance) {
      const { milliseconds } = wholeOf(verb);
      const out = fresh(`${verb}-kill`);
      const after = Math.round(1.1 * milliseconds * chance);
      await new Promise((resolve) => {
        const child = spawn(process.execPath, [program, ...wordsOf(verb, out)], { stdio: 'ignore' });
        const timer = setTimeout(() => child.kill('SIGKILL'), after);
        child.once('exit', () => {
          clearTimeout(timer);
          resolve();
        });
      });
      return { after, came: judged(verb, out, await run(verb, out), false) };
    },
    async loss(verb, chance) {
      const { moments } = wholeOf(verb);
      const moment = 1 + Math.floor(chance * moments.length);
      const out = fresh(`${verb}-loss`);
      runToLoss(verb, out, moment, Math.floor(2 ** 31 * chance));
      return { moment: moments[moment - 1], came: judged(verb, out, await run(verb, out), false) };
    },
  };
  return { verbs: Object.keys(verbs), trials, close: () => runner?.kill() };
}
