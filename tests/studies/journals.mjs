/**
 * Journals end to end: sweep, map, overnight and aim, each at its smallest, with the journal damaged, the process killed, the
 * supply lost; then the same command again. `--damages 200 --kills 20 --losses 50 --seed 1`. What is done is kept in the folder
 * of the study, so that it can be stopped and gone on with; `--until 300` stops it after so many seconds. Kept in journals.json.
 */

import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { randomSource } from '../../dist/src/study/search/random.js';
import { openTrials } from './journals/trials.mjs';
import { flag, keep, root } from './keep.mjs';

const seed = Number(flag('--seed', '1'));
const wanted = {
  damage: Number(flag('--damages', '200')),
  kill: Number(flag('--kills', '20')),
  loss: Number(flag('--losses', '50')),
};
const until = performance.now() + 1000 * Number(flag('--until', 'Infinity'));
const work = join(root, flag('--out', 'runs/studies-journals'));
mkdirSync(work, { recursive: true });
const book = join(work, `done-${seed}.json`);
const done = existsSync(book) ? JSON.parse(readFileSync(book, 'utf8')) : {};

const { verbs, trials, close } = openTrials(join(work, 'now'));
let cut = false;
for (const [k, kind] of Object.keys(wanted).entries()) {
  for (const [v, verb] of verbs.entries()) {
    for (let number = 0; number < wanted[kind] && !cut; number++) {
      const key = `${verb} ${kind} ${number}`;
      if (done[key] !== undefined) continue;
      const chance = randomSource(seed + 1000 * k + 10_000 * v, number).uniform();
      done[key] = await trials[kind](verb, chance);
      writeFileSync(book, JSON.stringify(done));
      cut = performance.now() > until;
    }
  }
}
close();

const counted = (kind) =>
  Object.fromEntries(
    verbs.map((verb) => {
      const came = Object.entries(done)
        .filter(([key]) => key.startsWith(`${verb} ${kind} `))
        .map(([, one]) => one.came);
      const of = (what) => came.filter((one) => one === what).length;
      const [same, refused] = [of('same'), of('refused')];
      return [verb, { tried: came.length, same, refused, wrong: came.length - same - refused }];
    }),
  );
const wrong = Object.entries(done).filter(([, { came }]) => came !== 'same' && came !== 'refused');
keep('journals', {
  seed,
  damages: counted('damage'),
  kills: counted('kill'),
  powerLosses: counted('loss'),
  exits1: wrong.filter(([, { came }]) => came.startsWith('exit 1:')).length,
  wrong: Object.fromEntries(wrong),
});
