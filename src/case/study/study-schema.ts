/** A study: a case, what varies in it, what drafts have to keep to, how they are run and scored. */

import { statSync } from 'node:fs';
import { isAbsolute, join } from 'node:path';
import type { ScoreTerm, StudyAxis, StudySample, VariedQuantity } from '../../model/study.ts';
import { cell, speeds } from '../engine/case-schema.ts';
import { list, nothing, variant } from '../keys/branches.ts';
import { ofKind } from '../keys/kinds.ts';
import { choice, count, flag, share, text } from '../keys/leaves.ts';
import { group, optional, record, required, setting } from '../keys/record.ts';
import { checked, type Judge, type Schema } from '../keys/schema.ts';
import { constraints } from './study-limits.ts';
import { variedQuantity } from './study-quantity.ts';
import { scoreTerms, speedsRead } from './study-score.ts';

/** Drafts of one study at most. */
const MOST_DRAFTS = 200_000;
/** Quantities that a Sobol sample takes at most: the direction numbers at hand. */
const MOST_SOBOL = 12;

/** A path of a file or folder, from the folder of the file that names it. */
const place: Schema<string> = checked(text(1000), (stated, _judge, node) =>
  isAbsolute(stated) ? stated : join(node.place.source.folder, stated),
);

const sampled = (kind: 'latin' | 'sobol'): Schema<StudySample> =>
  checked(
    record('a sample', {
      count: required(count(2, MOST_DRAFTS), 'How many drafts.'),
      seed: setting(count(0, 2_147_483_647), 'Seed of the sample.', '1', 'any other draws other drafts'),
    }),
    (stated) => ({ kind, ...stated }),
  );

const sample = variant<StudySample>('the drafts to run', {
  grid: nothing({ kind: 'grid' }),
  latin: sampled('latin'),
  sobol: sampled('sobol'),
});

const screen = record('a screen', {
  cell: required(cell, 'Length of a cell in the first pass.'),
  speeds: required(speeds, 'Speeds of the first pass.'),
  keep: required(share({ above: '0', below: '1' }), 'Share of the drafts that is refined.'),
  check: setting(
    flag,
    'Refine all the same, and say how often the screen would have dropped a winner.',
    'false',
    'a screen is there to save the time',
  ),
});

export function studySchema(name: string, columns: readonly string[]) {
  const keys = record(
    'a study',
    {
      name: optional(text(200), 'Name of the study.'),
      note: optional(text(4000, 'lines'), 'Anything worth remembering.'),
      case: required(place, 'Path of the case, from the folder of this file.'),
      vary: optional(list(variedQuantity, 1, 20), 'What varies.'),
      pipes: optional(place, 'Folder of pipe files, each a draft.'),
      sample: setting(sample, 'Every combination, or a sample over the ranges.', 'grid', 'the full grid'),
      constraints: group(constraints, 'What a draft has to keep to.'),
      outside: setting(
        choice('skip', 'run'),
        'What becomes of drafts outside the constraints.',
        'skip',
        'the time goes to those that may be built',
      ),
      speeds: required(speeds, 'Speeds that every draft is run at.'),
      cell: optional(cell, 'Length of a cell of the mesh.'),
      score: required(scoreTerms(columns), 'Terms of the score; more is better.'),
      screen: optional(screen, 'First pass at a coarse mesh and few speeds.'),
    },
    [{ keys: ['vary', 'pipes'], needed: true }],
  );
  return checked(ofKind('study', keys), (stated, judge) => {
    const { vary, speeds: run, score } = stated;
    const varied = vary ?? [];
    const sound = [
      namesDiffer(varied, judge),
      sampleFits(stated.sample, varied, stated.pipes !== null, judge),
      termsFit(score, run, ['speeds'], judge),
      stated.screen === null || termsFit(score, stated.screen.speeds, ['screen', 'speeds'], judge),
      stated.pipes === null || isFolder(stated.pipes, judge),
    ];
    if (sound.includes(false)) return undefined;
    return { ...stated, varied, name: stated.name ?? name, note: stated.note ?? '' };
  });
}

function namesDiffer(varied: readonly VariedQuantity[], judge: Judge): boolean {
  const paths = varied.map((one) => [...one.paths, ...one.opposite]);
  for (const [index, mine] of paths.entries()) {
    const other = paths.slice(0, index).flat();
    const twice = mine.find((path, k) => other.includes(path) || mine.indexOf(path) !== k);
    if (twice !== undefined) {
      judge.refuse(['vary', index], `${twice} varies twice`, 'tie what belongs together in one entry');
      return false;
    }
    if (varied.findIndex((one) => one.name === varied[index]!.name) !== index) {
      judge.refuse(['vary', index], `two quantities are called "${varied[index]!.name}"`, 'give one a name');
      return false;
    }
  }
  return true;
}

function sampleFits(
  stated: StudySample,
  varied: readonly VariedQuantity[],
  folder: boolean,
  judge: Judge,
): boolean {
  if (folder && stated.kind !== 'grid') {
    judge.refuse(['sample'], 'a folder of pipes is run whole, not sampled');
    return false;
  }
  if (stated.kind === 'sobol' && varied.length > MOST_SOBOL) {
    judge.refuse(
      ['sample'],
      `a Sobol sample takes at most ${MOST_SOBOL} quantities, here are ${varied.length}`,
    );
    return false;
  }
  if (stated.kind !== 'grid') return true;
  let drafts = 1;
  for (const [index, { axis }] of varied.entries()) {
    const values = valuesOf(axis);
    if (values === null) {
      judge.refuse(['vary', index], 'a full grid needs a step here', 'add one, or take a sample');
      return false;
    }
    drafts *= values;
  }
  if (drafts <= MOST_DRAFTS) return true;
  judge.refuse(
    ['vary'],
    `this makes ${drafts} drafts; a study takes at most ${MOST_DRAFTS}`,
    'take a sample',
  );
  return false;
}

function valuesOf(axis: StudyAxis): number | null {
  if (axis.kind === 'list') return axis.values.length;
  return axis.step === null ? null : Math.floor((axis.to - axis.from) / axis.step + 1e-9) + 1;
}

/** A score reads between the speeds that are run, not beyond them. */
function termsFit(
  score: readonly ScoreTerm[],
  run: readonly number[],
  where: readonly string[],
  judge: Judge,
): boolean {
  const [first, last] = [run[0]!, run.at(-1)!];
  for (const [index, term] of score.entries()) {
    const read = speedsRead(term);
    const few = read === null && run.length < 3;
    if (few) {
      judge.refuse(where, 'a band width needs three speeds at least');
      return false;
    }
    if (read === null || (read[0] >= first && read[1] <= last)) continue;
    const span = read[0] === read[1] ? `${read[0]} rpm` : `${read[0]} to ${read[1]} rpm`;
    const ran = first === last ? `only ${first} rpm is run` : `only ${first} to ${last} rpm are run`;
    if (where.length === 1) judge.refuse(['score', index], `reads ${span}, and ${ran}`);
    else judge.refuse(where, `the score reads ${span}, and ${ran} here`);
    return false;
  }
  return true;
}

function isFolder(path: string, judge: Judge): boolean {
  try {
    if (statSync(path).isDirectory()) return true;
  } catch {}
  judge.refuse(['pipes'], 'there is no such folder');
  return false;
}
