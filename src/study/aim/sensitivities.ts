/**
 * How far lead, torque and power at the target move with each section and with the wall, on meshes of the same number of
 * cells: what a little less and a little more do, each as it was found, and central differences, (f(x + h) - f(x - h)) / 2h,
 * told per 10 mm and per 50 K. Where the two sides differ the pipe stands on an edge, and the central difference is of
 * little use. The lead is that of the centroid of the plug-back: the peak of a flat-topped wave jumps from one of its
 * shoulders to the other.
 */

import type { Case } from '../../model/case.ts';
import type { Pipe } from '../../model/pipe.ts';
import { withLength } from '../../pipe/shape.ts';
import type { DraftResult } from '../work/draft.ts';
import type { Asked } from './evaluator.ts';
import { meshed } from './mesh.ts';
import type { Question } from './question.ts';

export interface Sensitivity {
  readonly name: string;
  /** `+10 mm` */
  readonly change: string;
  readonly leadDeg: number;
  readonly torqueNm: number;
  readonly powerKw: number;
  /** By how much less and more were tried, `10 mm`. */
  readonly step: string;
  /** What they did, not scaled. */
  readonly leadLessDeg: number;
  readonly leadMoreDeg: number;
  readonly torqueLessNm: number;
  readonly torqueMoreNm: number;
  readonly powerLessKw: number;
  readonly powerMoreKw: number;
}

/** What the table's numbers are per [m, K]. */
const LENGTH = 0.01;
const WARMTH = 50;
/** A section gives at most this share of its length to the difference. */
const MOST_SHARE = 0.4;

interface Difference {
  readonly name: string;
  readonly change: string;
  readonly step: string;
  /** Half the difference over what the table tells per [-]. */
  readonly share: number;
  readonly below: Pipe;
  readonly above: Pipe;
}

function differencesOf(pipe: Pipe): readonly Difference[] {
  const lengths = pipe.sections.map(({ name, length }, index): Difference => {
    const h = Math.min(LENGTH, MOST_SHARE * length);
    return {
      name,
      change: '+10 mm',
      step: `${Number((1000 * h).toFixed(1))} mm`,
      share: h / LENGTH,
      below: withLength(pipe, index, length - h),
      above: withLength(pipe, index, length + h),
    };
  });
  if (pipe.wall.by !== 'given') return lengths;
  const { at } = pipe.wall;
  const warmed = (by: number): Pipe => ({
    ...pipe,
    wall: {
      by: 'given',
      at: at.map(({ position, temperature }) => ({ position, temperature: temperature + by })),
    },
  });
  return [
    ...lengths,
    { name: 'wall', change: '+50 K', step: '50 K', share: 1, below: warmed(-WARMTH), above: warmed(WARMTH) },
  ];
}

/** At one speed [rpm]; a difference of which a side fails is left out, and all of them if the pipe itself does. */
export function sensitivityQuestion({
  subject,
  pipe,
  target,
  cells,
}: {
  subject: Case;
  pipe: Pipe;
  target: number;
  cells: number;
}): Question<readonly Sensitivity[]> {
  const differences = differencesOf(pipe);
  const ask = (name: string, one: Pipe): Asked => ({
    name,
    subject: meshed(subject, one, { cells, speeds: [target], quick: false }),
  });
  const sides = differences.flatMap(({ name, below, above }) => [
    ask(`below ${name}`, below),
    ask(`above ${name}`, above),
  ]);
  return {
    asked: [ask('middle', pipe), ...sides],
    answer: ([middle, ...results]) => {
      const here = readingsOf(middle);
      return differences.flatMap((difference, k): readonly Sensitivity[] => {
        const [below, above] = [readingsOf(results[2 * k]), readingsOf(results[2 * k + 1])];
        const isKnown = here !== null && below !== null && above !== null;
        return isKnown ? [sensitivity(difference, here, below, above)] : [];
      });
    },
  };
}

function sensitivity(
  { name, change, step, share }: Difference,
  here: Readings,
  below: Readings,
  above: Readings,
): Sensitivity {
  const slope = (column: keyof Readings): number => (above[column] - below[column]) / (2 * share);
  return {
    name,
    change,
    leadDeg: slope('lead'),
    torqueNm: slope('torque'),
    powerKw: slope('power'),
    step,
    leadLessDeg: below.lead - here.lead,
    leadMoreDeg: above.lead - here.lead,
    torqueLessNm: below.torque - here.torque,
    torqueMoreNm: above.torque - here.torque,
    powerLessKw: below.power - here.power,
    powerMoreKw: above.power - here.power,
  };
}

interface Readings {
  readonly lead: number;
  readonly torque: number;
  readonly power: number;
}

function readingsOf(result: DraftResult | undefined): Readings | null {
  const row = result?.ok === true ? result.rows[0] : undefined;
  if (row === undefined) return null;
  const { plugback_centroid_deg: centroid, torque_nm: torque, power_kw: power } = row;
  // Later is less lead: the port closes at the same angle in all of them.
  return centroid === null || torque === null || power === null ? null : { lead: -centroid, torque, power };
}
