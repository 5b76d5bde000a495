/**
 * Journals end to end: sweep, map, overnight and aim, each at its smallest, with the journal damaged, the process killed, the
 * supply lost; then the same command again. `--damages 200 --kills 20 --losses 20 --seed 1`. What is done is kept in the folder
 * of the study, so that it can be stopped and gone on with; `--until 300` stops it after so many seconds, `--verbs aim,map`
 * does some verbs only (which may run beside others). Kept in journals.json.
 */

import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { randomSource } from '../../dist/src/study/search/random.js';
import { openTrials } from './journals/trials.mjs';
import { flag, keep, root } from './keep.mjs';

const seed = Number(flag('--seed', '1'));
const wanted = {
  kill: Number(flag('--kills', '20')),
  loss: Number(flag('--losses', '20')),
  damage: Number(flag('--damages', '200')),
};
const until = performance.now() + 1000 * Number(flag('--until', 'Infinity'));
const work = join(root, flag('--out', 'runs/studies-journals'));
const only = flag('--verbs', '').split(',').filter(Boolean);
mkdirSync(work, { recursive: true });

const { verbs, trials, close } = openTrials(join(work, only.join('-') || 'all'));
const bookOf = (verb) => join(work, `done-${seed}-${verb}.json`);
const books = Object.fromEntries(
  verbs.map((verb) => [verb, existsSync(bookOf(verb)) ? JSON.parse(readFileSync(bookOf(verb), 'utf8')) : {}]),
);
/** Streams of random numbers, kept apart. */
const STREAM = { damage: 0, kill: 1000, loss: 2000 };
let cut = false;
for (const kind of Object.keys(wanted)) {
  for (const [v, verb] of verbs.entries()) {
    if (only.length > 0 && !only.includes(verb)) continue;
    for (let number = 0; number < wanted[kind] && !cut; number++) {
      const key = `${verb} ${kind} ${number}`;
      if (books[verb][key] !== undefined) continue;
      const chance = randomSource(seed + STREAM[kind] + 10_000 * v, number).uniform();
      books[verb][key] = await trials[kind](verb, chance);
      writeFileSync(bookOf(verb), JSON.stringify(books[verb]));
      cut = performance.now() > until;
    }
  }
}
close();
const done = Object.assign({}, ...Object.values(books));

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
  cell: '20mm',
  seed,
  damages: counted('damage'),
  kills: counted('kill'),
  powerLosses: counted('loss'),
  exits1: wrong.filter(([, { came }]) => came.startsWith('exit 1:')).length,
  wrong: Object.fromEntries(wrong),
});
