/**
 * The four verbs that keep a journal, each at its smallest: some seconds, a handful of lines. Few cycles settle nothing, which
 * exit code 4 says; what is asked here is only that the bytes are the same.
 */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '../keep.mjs';

const draft = join(root, 'cases/saltmarsh-125/draft-a.yaml');
const few = (cycles) => ['--set', `run.maxCycles=${cycles}`];

/** A screen on coarser cells, then the best half. */
const STUDY = `kind: study
name: small
case: ${draft}
vary:
  - { path: pipe.sections.baffle.length, values: [180 mm, 200 mm, 220 mm] }
  - { name: bore, path: pipe.sections.baffle.to, values: [21 mm, 23 mm] }
speeds: { from: 9500 rpm, to: 10500 rpm, step: 1000 rpm }
cell: 20 mm
screen: { cell: 30 mm, speeds: [9500 rpm, 10500 rpm], keep: 50 % }
score:
  - averageTorque: { from: 9500 rpm, to: 10500 rpm }
`;

/** Words of each verb, the files that it ends with and the name of its journal; what it needs is written into a folder. */
export function smallVerbs(folder) {
  const study = join(folder, 'small.yaml');
  writeFileSync(study, STUDY);
  const sweep = ['sweep', draft, '--cell', '20mm', '--rpm', '9000:11000:1000', '--no-advice', ...few(4)];
  const map = ['map', draft, '--cell', '20mm', '--rpm', '9000:11000:1000', '--duration', '188:192:2'];
  const aim = ['aim', draft, '--rpm', '11000', '--cell', '20mm', '--drafts', '4', '--vary', 'header.length'];
  return {
    sweep: {
      words: sweep,
      files: ['sweep.csv', 'sweep.json', 'sweep.html'],
      journal: 'sweep-journal.jsonl',
    },
    map: {
      words: [...map, ...few(3)],
      files: ['map.csv', 'map.json', 'map.html'],
      journal: 'journal.jsonl',
    },
    overnight: {
      words: ['overnight', study, ...few(4)],
      files: ['ranking.csv', 'overnight.html'],
      journal: 'journal.jsonl',
    },
    aim: {
      words: [...aim, ...few(2)],
      files: ['aim.json', 'aim.html', 'a-broad-aimed-at-11000-rpm.yaml'],
      journal: 'journal.jsonl',
    },
  };
}
